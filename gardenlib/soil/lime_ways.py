"""Each published lime method asked for one case: its rate as printed, its lime, its depth, its limits."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from gardenlib.checks import checked_between, checked_choice
from gardenlib.problems import InputProblem
from gardenlib.soil import lime_methods as m
from gardenlib.soil.lime_checks import checked_ph
from gardenlib.soil.lime_limits import limit
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range
from gardenlib.words import Said
from gardenlib.working import Notes, Value

MOST_ACIDITY = 26.0
NC_BUFFER_TOP = 6.7
BUFFER_TOP = 8.0
BY_BUFFER = {"sikora": "sikora_osu", "smp": "smp_isu", "mehlich_nc": "mehlich_ncda", "mehlich_pa": "mehlich_psu"}


def lime_method(buffer: str, lab_rate: float | None = None) -> str | None:
    """Choose the method for what stands on the sheet: the lab's own rate first, then by the buffer.

    Parameters
    ----------
    buffer : str
        ``sikora``, ``smp``, ``mehlich_nc``, ``mehlich_pa``; any other has no method here.
    lab_rate : float, optional
        The lab's own rate, where the sheet prints one.

    Returns
    -------
    str or None
        A method of `lime_rate`, or None.

    Notes
    -----
    Source: each buffer with a table of a public laboratory that uses it; readings of different buffers cannot be
    exchanged. The choice among tables is our own.

    Examples
    --------
    >>> lime_method("sikora"), lime_method("other"), lime_method("smp", lab_rate=0.3)
    ('sikora_osu', None, 'lab_rate')
    """
    return "lab_rate" if lab_rate is not None else BY_BUFFER.get(buffer)


@dataclass(frozen=True)
class Case:
    """One soil: what its sheet says and what it is to become."""

    water_ph: float
    target_ph: float
    buffer_ph: float | None = None
    acidity_meq_100g: float | None = None
    texture: str | None = None

    def __post_init__(self) -> None:
        """Refuse what no sheet can say."""
        if self.buffer_ph is not None:
            checked_ph(self.buffer_ph, "buffer_ph", (3.0, BUFFER_TOP))
        if self.acidity_meq_100g is not None:
            checked_between(self.acidity_meq_100g, "acidity_meq_100g", 0.0, MOST_ACIDITY)


@dataclass(frozen=True)
class Way:
    """A rate as its method prints it: the two ends, the unit, the lime it counts in and the depth."""

    ends: tuple[float, float]
    unit: str
    cce: float
    depth_in: float


def way(method: str, case: Case, notes: Notes) -> Way:
    """Ask one method."""
    return _WAYS[method](case, notes)


def _named(method: str) -> Said:
    return Said(f"lime.method.{method}")


def _reaches(method: str, case: Case, low: float, high: float) -> None:
    if not low <= case.target_ph <= high:
        raise InputProblem("lime.target_out", method=_named(method), target=case.target_ph, low=low, high=high)


def _buffer(method: str, case: Case, low: float, high: float) -> float:
    if case.buffer_ph is None:
        raise InputProblem("lime.needs", reading=Said("lime.what.buffer_ph"), method=_named(method))
    if not low <= case.buffer_ph <= high:
        raise InputProblem("lime.buffer_out", method=_named(method), value=case.buffer_ph, low=low, high=high)
    return case.buffer_ph


def _sikora_osu(case: Case, notes: Notes) -> Way:
    buffers, targets, _ = m.osu_grid()
    _reaches("sikora_osu", case, targets[0], targets[-1])
    buffer = _buffer("sikora_osu", case, buffers[0], BUFFER_TOP)
    tons = m.osu_sikora_t_ac(buffer, case.target_ph)
    low = tons
    if buffer > buffers[-1]:
        low = 0.0
        notes.say("lime.above_table", "oregon_em9585", top=float(buffers[-1]))
    given: dict[str, Value] = {"buffer_pH": buffer, "target_pH": case.target_ph}
    result = Range(low, tons, "short_t_ac")
    notes.step("lime.osu", "the table, in a straight line between its values", given, result, "oregon_em9585")
    notes.say("lime.osu_least", "oregon_em9585")
    return Way((low, tons), "short_t_ac", 1.0, 6)


def _smp_isu(case: Case, notes: Notes) -> Way:
    targets = sorted(m.smp_lines())
    _reaches("smp_isu", case, targets[0], targets[-1])
    buffer = _buffer("smp_isu", case, 5.8, BUFFER_TOP)
    rate = m.smp_isu_lb_ac(buffer, case.target_ph)
    given: dict[str, Value] = {"buffer_pH": buffer, "target_pH": case.target_ph, "depth_in": 6}
    if case.target_ph in targets:
        a, b = m.smp_lines()[case.target_ph]
        given |= {"a": a, "b": b}
    expression = "(a - b * buffer_pH) * 0.167 * depth_in, none where below 0"
    notes.step("lime.isu", expression, given, Quantity(rate, "lb_ac"), "iowa_pm1688")
    if case.target_ph not in targets:
        notes.say("lime.isu_between", "iowa_pm1688")
    return Way((rate, rate), "lb_ac", 1.0, 6)


def _mehlich_ncda(case: Case, notes: Notes) -> Way:
    _reaches("mehlich_ncda", case, 5.0, m.NC_BUFFER_PH)
    if case.acidity_meq_100g is not None:
        acidity = case.acidity_meq_100g
    else:
        buffer = _buffer("mehlich_ncda", case, 4.0, NC_BUFFER_TOP)
        acidity = m.ncda_acidity(buffer)
        given: dict[str, Value] = {"buffer_pH": buffer}
        notes.step("lime.nc_acidity", "(6.6 - buffer_pH) * 4", given, acidity, "nc_bufftab1")
    tons = m.ncda_t_ac(acidity, case.water_ph, case.target_ph)
    given = {"acidity": acidity, "target_pH": case.target_ph, "water_pH": case.water_ph}
    expression = "acidity * (target_pH - water_pH) / (6.6 - water_pH)"
    notes.step("lime.nc_rate", expression, given, Quantity(tons, "short_t_ac"), "nc_circular1")
    notes.say("lime.nc_depth", "nc_circular1")
    least = limit("least_rate").low
    if 0 < tons < least:
        notes.say("lime.nc_least", "nc_circular1")
        return Way((0.0, least), "short_t_ac", m.STANDARD_LIME_CCE, 6)
    return Way((tons, tons), "short_t_ac", m.STANDARD_LIME_CCE, 6)


def _mehlich_psu(case: Case, notes: Notes) -> Way:
    if case.target_ph not in m.PSU_GOALS:
        raise InputProblem("lime.psu_goals", target=case.target_ph)
    if case.acidity_meq_100g is None:
        raise InputProblem("lime.needs", reading=Said("lime.what.acidity"), method=_named("mehlich_psu"))
    acidity = case.acidity_meq_100g
    rate = m.psu_lb_ac(acidity, case.water_ph, case.target_ph)
    given: dict[str, Value] = {"acidity": acidity, "target_pH": case.target_ph}
    if case.target_ph == m.PSU_GOALS[1]:
        expression = "1000 * acidity"
    else:
        expression = "840 * acidity" if acidity > 4 else "2000, as the acidity is 4 or less"
    notes.step("lime.psu", expression, given, Quantity(rate, "lb_ac"), "psu_agronomy_guide")
    return Way((rate, rate), "lb_ac", 1.0, 7)


def _texture_usda(case: Case, notes: Notes) -> Way:
    known = tuple(row["texture"] for row in rows("lime_soils"))
    texture = checked_choice(case.texture or "", "texture", known)
    soil = m.soil_row(texture)
    assert soil is not None  # noqa: S101  (every known texture has a row)
    low, high = m.usda_span("cool", soil)
    _reaches("texture_usda", case, 5.0, high)
    if case.water_ph < low:
        raise InputProblem("lime.texture_out", ph=case.water_ph, texture=texture, low=low)
    ends = sorted(m.usda_texture_t_ac(region, soil, case.water_ph, case.target_ph) for region in ("warm", "cool"))
    given: dict[str, Value] = {"water_pH": case.water_ph, "target_pH": case.target_ph}
    result = Range(ends[0], ends[1], "short_t_ac")
    notes.step("lime.usda", "the table, from one pH to the other", given, result, "memory_usda_lime")
    notes.say("lime.unchecked", "memory_usda_lime")
    if next(row["match"] for row in rows("lime_soils") if row["texture"] == texture) == "nearest":
        notes.say("lime.nearest_soil", "common_practice")
    return Way((ends[0], ends[1]), "short_t_ac", 1.0, 7)


_WAYS: dict[str, Callable[[Case, Notes], Way]] = {
    "sikora_osu": _sikora_osu,
    "smp_isu": _smp_isu,
    "mehlich_ncda": _mehlich_ncda,
    "mehlich_psu": _mehlich_psu,
    "texture_usda": _texture_usda,
}
