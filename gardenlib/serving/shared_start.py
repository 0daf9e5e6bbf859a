"""What every kernel of a served class needs, loaded once, before the first of them is made as a copy.

Importing this loads it all.  Nothing here may begin a thread (a picture would): a copy has none of them.
"""

import gc
import os
from pathlib import Path

import ipykernel.debugger
import ipykernel.kernelapp
import ipywidgets
import tornado.platform.asyncio

from gardenlib.serving import kernel_copy
from gardenlib.serving.folders import CLASS
from gardenlib.serving.whose import load

LOADED = (
    ipykernel.debugger,
    ipykernel.kernelapp,
    ipywidgets,
    tornado.platform.asyncio,
    kernel_copy,
)

if CLASS in os.environ:  # as beside a class that is served
    load(Path(os.environ[CLASS]))
    gc.freeze()  # the collector would write to what is loaded, and each copy would then have its own
