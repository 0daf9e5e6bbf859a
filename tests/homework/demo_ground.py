"""The ground of the demo class, with any code, for tests of the skills."""

from functools import cache

from gardenlib import class_folder
from gardenlib.carried import carried
from gardenlib.homework.ground import Ground
from gardenlib.learner_place import place_of
from gardenlib.tables import crop
from gardenlib.words import Voice

YEAR = 2027
SITE = "Pellowby Hollow"


@cache
def demo_class():
    """Read the demo class once."""
    return class_folder.read(carried("data_demo"))


@cache
def demo_place():
    """Gather its place once."""
    return place_of(demo_class(), SITE, demo_class().class_plot.site, demo_class().folder)


def ground(code="AAAA", *, units="us", place=None, crops=None, year=YEAR):
    """Give the class's ground with a sheet code."""
    klass = demo_class()
    return Ground(
        code=code,
        kind="class",
        voice=Voice(units=units),
        year=year,
        place=demo_place() if place is None else place,
        klass=klass,
        plot=klass.class_plot,
        bed=klass.class_plot.beds[0],
        crops=tuple(klass.crops.get(i) or crop(i) for i in (crops or klass.crop_ids)),
    )
