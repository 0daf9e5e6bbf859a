"""Kernels of a served class are copies of one process; stopping the server is quiet."""

import os
import signal
import subprocess
import sys

import pytest
from serving_harness import served

from gardenlib.carried import carried
from gardenlib.serving.folders import CLASS

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="elsewhere each kernel loads everything by itself")
LOOK = "import os, sys, gardenlib.serving.shared_start; print(len(os.listdir('/proc/self/task')), *sys.modules)"


def test_what_is_shared_is_all_there_and_has_no_thread():
    """The shared process has pages, their programs and their words, and one thread, since a copy has no others."""
    env = {**os.environ, CLASS: str(carried("data_demo")), "OPENBLAS_NUM_THREADS": "1"}
    told = subprocess.run([sys.executable, "-c", LOOK], env=env, capture_output=True, text=True, check=True).stdout
    threads, *modules = told.split()
    assert threads == "1"
    assert {"gardenlib.panels.risk", "altair", "pandas", "ipywidgets", "ipykernel.kernelapp"} <= set(modules)
    assert "vl_convert" not in modules


def test_stopping_says_nothing(tmp_path):
    """A server that is stopped while its first kernels begin ends as it should, and nothing stands in its window."""
    with served(tmp_path, ready=2) as klass:
        klass.server.send_signal(signal.SIGINT)
        assert klass.server.wait(30) == 0
    assert (tmp_path / "server.log").read_text("utf-8").splitlines()[-1].startswith("To stop it")
