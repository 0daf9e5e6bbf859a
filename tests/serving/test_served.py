"""A learner comes in, answers, goes, and finds everything again: over HTTP and the line to the kernel."""

import os
import signal
import stat
import time
from html import unescape

import psutil
import pytest
from serving_harness import Line, Phone, by_label, kernel_process, served, wait_until

from gardenlib import plot
from gardenlib.words import texts

PEOPLE = texts("en")["start.people"]


def _answer(phone, people):
    phone.open()
    line = Line(phone)
    line.set(by_label(line.models(), PEOPLE), value=people)
    line.settled()
    line.close()


def _people_shown(phone):
    phone.open()
    line = Line(phone)
    models = line.models()
    line.close()
    return models[by_label(models, PEOPLE)]["state"]["value"]


def test_code_brings_the_plot_back_on_another_phone(klass):
    """What one phone answered stands in the plot file, and another phone with the same code shows it."""
    first, second = Phone(klass), Phone(klass)
    assert first.join(klass.codes[0]).status == 303
    _answer(first, 7)
    assert plot.read(klass.plot(1)).household.people == 7
    assert second.join(klass.codes[0].replace(" ", "")).status == 303
    assert _people_shown(second) == 7


def test_words_come_before_the_code_has_run(klass):
    """The page's words, and a line that says it is getting ready, stand before the first result of its code."""
    phone = Phone(klass)
    phone.join(klass.codes[1])
    text = phone.open().text
    ready = text.index(texts("en")["serving.getting_ready"])
    assert ready < text.index('id="Sources"') < text.index("jupyter-config-data") < text.index("cell-output+json")
    assert "Run All Cells" not in text


def test_page_names_no_other_server(klass):
    """Nothing that a served page loads stands anywhere but on this server (only links by hand may)."""
    import re

    phone = Phone(klass)
    phone.join(klass.codes[1])
    answer = phone.open()
    assert re.findall(r'(?:src|<link[^>]*rel="stylesheet"[^>]*href)="((?:https?:)?//[^"]+)"', answer.text) == []
    assert "default-src 'self'" in answer.headers["Content-Security-Policy"]
    assert "cdn" not in answer.text.split("jupyter-config-data")[1].split("</script>")[0]


def test_killed_kernel_loses_nothing_and_is_told(klass):
    """A kernel that is killed is named as gone, is not started behind the page's back, and the answers are there."""
    phone = Phone(klass)
    phone.join(klass.codes[2])
    _answer(phone, 5)
    assert phone.get(f"/api/kernels/{phone.kernel}").status == 200
    kernel_process(klass.server.pid, phone.kernel).kill()
    wait_until(lambda: phone.get(f"/api/kernels/{phone.kernel}").status == 404)
    assert _people_shown(phone) == 5


def test_kernel_of_who_hung_up_ends_when_the_learner_comes_back(klass):
    """A learner who was cut off and opens the page again leaves no kernel behind; a page that listens keeps its own."""
    first, second = Phone(klass), Phone(klass)
    for phone in (first, second):
        phone.join(klass.codes[0])
    first.open()
    Line(first).close()
    second.open()
    wait_until(lambda: first.get(f"/api/kernels/{first.kernel}").status == 404)
    line, left = Line(second), second.kernel
    first.open()
    time.sleep(0.5)
    assert second.get(f"/api/kernels/{left}").status == 200
    line.settled()
    line.close()


def test_page_has_the_words_for_a_kernel_or_a_computer_that_is_gone(klass):
    """The page carries both sentences, and looks whether its kernel is there."""
    phone = Phone(klass)
    phone.join(klass.codes[1])
    text = phone.open().text
    assert texts("en")["serving.asleep"] in text
    assert texts("en")["serving.no_line"].replace("'", "\\u0027") in text
    assert f"api/kernels/{phone.kernel}'" in text


def test_killed_server_loses_nothing_and_keeps_people_in(tmp_path):
    """A killed server takes its kernels along; when it is started again cookie, plot, codes and answers still hold."""
    with served(tmp_path, ready=0) as klass:
        phone, codes = Phone(klass), klass.codes
        phone.join(codes[0])
        _answer(phone, 4)
        kernel = kernel_process(klass.server.pid, phone.kernel)
        os.kill(klass.server.pid, signal.SIGKILL)
        klass.server.wait(5)
        wait_until(lambda: not kernel.is_running() or kernel.status() == psutil.STATUS_ZOMBIE)
    with served(tmp_path, ready=0) as again:
        assert again.codes == codes
        phone.klass = again
        assert _people_shown(phone) == 4


def test_secrets_are_closed_and_outside_what_is_served(klass):
    """Sealed list, key and sheet can be read by their owner alone and lie beside the served pages."""
    for name in ("codes.csv", "secret.key", "join_sheet.pdf"):
        assert stat.S_IMODE((klass.work / name).stat().st_mode) == 0o600
    assert stat.S_IMODE(klass.work.stat().st_mode) == 0o700
    assert [path.name for path in (klass.work / "pages").iterdir()] == ["00_start_here.ipynb"]


@pytest.mark.parametrize("typed", ["{}", " {} ", "{}x"])
def test_code_is_read_kindly_but_whole(klass, typed):
    """Blanks around a code do not matter; a letter more is no code."""
    phone = Phone(klass, "127.0.0.9")
    assert phone.join(typed.format(klass.codes[3])).status == (403 if "x" in typed else 303)


def test_a_seat_that_cannot_be_written_is_told_in_words(klass):
    """Where the class's folder takes no file the phone gets a sentence; once it does again, the page."""
    seats, aside = klass.work / "seats", klass.work / "seats_aside"
    phone = Phone(klass)
    phone.join(klass.codes[5])
    seats.rename(aside)
    seats.write_text("", "utf-8")
    try:
        answer = phone.get("/page/00_start_here")
    finally:
        seats.unlink()
        aside.rename(seats)
    assert answer.status == 503
    assert texts("en")["serving.broken"] in unescape(answer.text)
    assert str(klass.work) not in answer.text
    assert "The class cannot be laid out" in (klass.home / "server.log").read_text("utf-8")
    assert _people_shown(phone) is not None
