"""Wait until the server whose output is written to a file answers.

Usage: wait_for_page.py LOG SECONDS
"""

import re
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

ADDRESS = re.compile(r"http://(?:127\.0\.0\.1|localhost):(\d+)/")


def main(log: str, seconds: str) -> int:
    """Return 0 when the server named in the log answers in time."""
    end = time.monotonic() + float(seconds)
    while time.monotonic() < end:
        found = ADDRESS.search(Path(log).read_text("utf-8", "replace"))
        if found and answers(f"http://127.0.0.1:{found[1]}/api"):
            print(f"A page server answers on port {found[1]}.")
            return 0
        time.sleep(0.5)
    print("No page server answered.")
    return 1


def answers(address: str) -> bool:
    """Tell whether something answers at this address, were it only to ask for a token."""
    try:
        with urllib.request.urlopen(address, timeout=5) as reply:  # noqa: S310  # always this machine
            return bool(reply.status)
    except urllib.error.HTTPError:
        return True
    except OSError:
        return False


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
