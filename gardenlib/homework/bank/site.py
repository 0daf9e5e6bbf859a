"""Page 01: a date at a risk, the days between the freezes, degree days, the hardiness zone."""

from __future__ import annotations

from calendar import monthrange
from datetime import date, timedelta
from typing import TYPE_CHECKING

from gardenlib.homework.bank.by_hand import told_apart, with_steps
from gardenlib.homework.bank.choose import FREEZE_F, middle_freeze
from gardenlib.homework.bank.season_drawing import season_drawing
from gardenlib.homework.skill import Skill, Slip, Task
from gardenlib.problems import InputProblem
from gardenlib.site import FreezeDates, degree_days, hardiness_zone
from gardenlib.site.zone import HALF_ZONE_F, LOWEST_F
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range, c_to_f, f_to_c
from gardenlib.words import Said
from gardenlib.working import COMMON_PRACTICE, Answer, Step

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gardenlib.homework.ground import Ground

RARE = 0.1
RISKS = (2, 3, 4)
DAY_OFFSETS = {
    "us": ((4, 9, -3, 12), (2, -4, 8, 11), (-2, 6, 5, 13), (7, -5, 3, 10)),
    "metric": ((2, 5, -2, 7), (1, -2, 4, 6), (-1, 3, 2, 7), (4, -3, 2, 5)),
}
HALF_SWING = {"us": (8, 9, 10), "metric": (4, 5, 6)}
OTHER_BASE_F = {40.0: 50.0, 50.0: 40.0}
WINTERS = ((-6, 3, -1, 5, -1), (0, -7, 4, 2, 1), (3, -2, -5, 6, -2), (-4, -3, 7, 2, -2))
MEAN_LOWS = {"us": (-18, -14, -12, -8, -7, -3, -2, 2, 3, 7, 8, 12, 13), "metric": (-28, -25, -22, -19, -17, -14, -11)}
HALF_ZONES = 26


# ---- a date at a risk ------------------------------------------------------------------------------


def _risk(ground: Ground) -> Task:
    freezes, year = ground.place.freezes, ground.year
    middle = middle_freeze(ground, "spring")
    late = None
    if freezes is not None and freezes.knows("spring", FREEZE_F, RARE):
        late = freezes.date("spring", FREEZE_F, RARE, year=year)
    if freezes is None or late is None or (late - middle).days < 4:
        raise InputProblem("homework_site.no_spread")
    line = FreezeDates.typed(
        (middle.month, middle.day),
        None,
        source=ground.voice.say(freezes.comes_from),
        latitude=freezes.latitude,
        last_spring_10=(late.month, late.day),
    )
    tenths = ground.draw("risk", RISKS)
    day = line.date("spring", FREEZE_F, tenths / 10, year=year)
    if day is None:
        raise InputProblem("homework_site.no_spread")
    between, moved = late - middle, day - middle
    steps = (
        Step(
            "homework_site.between",
            "late_date - middle_date",
            {"late_date": late, "middle_date": middle},
            _days(between),
            COMMON_PRACTICE,
        ),
        Step(
            "homework_site.moved",
            "days * (5 - risk) / 4, rounded",
            {"days": _days(between), "risk": tenths},
            _days(moved),
            COMMON_PRACTICE,
        ),
        Step(
            "homework_site.at_risk",
            "middle_date + days",
            {"middle_date": middle, "days": _days(moved)},
            day,
            COMMON_PRACTICE,
        ),
    )
    slips = (
        Slip("wrong_way", middle - moved, Said("homework_site.slip_wrong_way"), "01.risk"),
        Slip("wrong_end", late - moved, Said("homework_site.slip_wrong_end"), "01.risk"),
        Slip("middle_kept", middle, Said("homework_site.slip_middle_kept", {"n": tenths}), "01.risk"),
        Slip("latest_taken", late, Said("homework_site.slip_latest_taken", {"n": tenths}), "01.risk"),
    )
    return Task(
        ask=Said("homework_site.risk_ask", {"limit": _limit(), "middle": middle, "late": late, "risk": tenths}),
        answer=with_steps(line, steps),
        steps=steps,
        slips=told_apart(steps, slips, ground.voice),
    )


def _days(span: timedelta) -> Quantity:
    return Quantity(span.days, "days")


def _limit() -> Quantity:
    return Quantity(f_to_c(float(FREEZE_F)), "degC")


# ---- the days between the freezes ------------------------------------------------------------------


def _season(ground: Ground) -> Task:
    last, first = middle_freeze(ground, "spring"), middle_freeze(ground, "fall")
    months = _months_between(last, first)
    if not months or ground.place.freezes is None:
        raise InputProblem("homework_site.short_season")
    in_month = monthrange(last.year, last.month)[1]
    rest, whole, before = in_month - last.day, sum(length for _, length in months), first.day - 1
    free = Quantity((first - last).days - 1, "days")
    names = {ground.voice.month(month): length for month, length in months}
    steps = (
        Step(
            "homework_site.rest",
            "days_of_month - last_freeze",
            {"days_of_month": in_month, "last_freeze": last.day},
            rest,
            COMMON_PRACTICE,
        ),
        Step("homework_site.months", " + ".join(names), names, whole, COMMON_PRACTICE),
        Step("homework_site.before", "first_freeze - 1", {"first_freeze": first.day}, before, COMMON_PRACTICE),
        Step(
            "homework_site.free",
            "rest + months + before",
            {"rest": rest, "months": whole, "before": before},
            free,
            COMMON_PRACTICE,
        ),
    )
    slips = (
        Slip(
            "from_the_first",
            Quantity(in_month + whole + before, "days"),
            Said("homework_site.slip_from_the_first"),
            "01.place",
        ),
        Slip("end_left_out", Quantity(rest + whole, "days"), Said("homework_site.slip_end_left_out"), "01.place"),
        Slip(
            "thirty_each",
            Quantity(rest + 30 * len(months) + before, "days"),
            Said("homework_site.slip_thirty_each"),
            "01.place",
        ),
        Slip("freeze_counted", Quantity((first - last).days, "days"), Said("homework_site.slip_freeze"), "01.place"),
    )
    found = with_steps(ground.place.freezes, steps)
    return Task(
        ask=Said("homework_site.season_ask", {"limit": _limit(), "last": last, "first": first}),
        answer=found,
        steps=steps,
        slips=told_apart(steps, slips, ground.voice),
        drawing=lambda: season_drawing(ground, {"risk.mark_spring": last, "risk.mark_fall": first}),
        alt=Said("homework_site.season_alt", {"last": last, "first": first}),
    )


def _months_between(last: date, first: date) -> list[tuple[date, int]]:
    """List the whole months between two dates, by their first day, with their days."""
    found = []
    month = (last.replace(day=1) + timedelta(31)).replace(day=1)
    while month < first.replace(day=1):
        found.append((month, monthrange(month.year, month.month)[1]))
        month = (month + timedelta(31)).replace(day=1)
    return found


# ---- degree days -----------------------------------------------------------------------------------


def _degree(ground: Ground) -> Task:
    voice, of_crop = ground.voice, {row["crop"]: row for row in rows("degree_day_bases")}
    own = [crop.id for crop in ground.crops if crop.id in of_crop]
    if not own:
        raise InputProblem("homework_site.no_base")
    crop = next(crop for crop in ground.crops if crop.id == ground.draw("degree.crop", own))
    row = of_crop[crop.id]
    base_f = float(row["base_f"])
    base = round(base_f if voice.units == "us" else f_to_c(base_f), 1)
    swing = ground.draw("degree.swing", HALF_SWING[voice.units])
    means = [base + off for off in ground.draw("degree.days", DAY_OFFSETS[voice.units])]
    lows, highs = ([_celsius(ground, mean + way * swing) for mean in means] for way in (-1, 1))
    base_c = _celsius(ground, base)
    each = degree_days(lows, highs, base_c, method="average").tolist()
    steps = tuple(
        Step(
            "homework_site.day",
            "(low + high) / 2 - base, at least 0",
            {"low": Quantity(low, "degC"), "high": Quantity(high, "degC"), "base": Quantity(base_c, "degC")},
            Quantity(found, "degC_days"),
            row["source"].split("|")[0],
        )
        for low, high, found in zip(lows, highs, each, strict=True)
    )
    names = [f"day_{number}" for number in range(1, len(each) + 1)]
    given = {name: step.result for name, step in zip(names, steps, strict=True)}
    steps += (
        Step("homework_site.all_days", " + ".join(names), given, Quantity(sum(each), "degC_days"), COMMON_PRACTICE),
    )

    def slip(name: str, total: float, reply: Said) -> Slip:
        return Slip(name, Quantity(total, "degC_days"), reply, "01.warmth")

    far_below = 100.0
    other_c = f_to_c(OTHER_BASE_F.get(base_f, 50.0))
    slips = (
        slip(
            "base_forgotten",
            float(degree_days(lows, highs, _celsius(ground, 0.0), method="average").sum()),
            Said("homework_site.slip_base_forgotten"),
        ),
        slip(
            "cold_day_taken_off",
            float((degree_days(lows, highs, base_c - far_below, method="average") - far_below).sum()),
            Said("homework_site.slip_cold_day"),
        ),
        slip(
            "highs_only",
            float(degree_days(highs, highs, base_c, method="average").sum()),
            Said("homework_site.slip_highs_only"),
        ),
        slip(
            "other_base",
            float(degree_days(lows, highs, other_c, method="average").sum()),
            Said("homework_site.slip_other_base", {"crop": crop.name, "base": Quantity(base_c, "degC")}),
        ),
    )
    spans = {name: Range(low, high, "degC") for name, low, high in zip(names, lows, highs, strict=True)}
    return Task(
        ask=Said("homework_site.degree_ask", {"crop": crop.name, "base": Quantity(base_c, "degC"), **spans}),
        answer=Answer(steps=steps, sources=tuple(dict.fromkeys(step.source for step in steps))),
        steps=steps,
        slips=told_apart(steps, slips, voice),
    )


def _celsius(ground: Ground, temperature: float) -> float:
    """Take a temperature of the class's scale into the library's."""
    return f_to_c(temperature) if ground.voice.units == "us" else temperature


# ---- the zone --------------------------------------------------------------------------------------


def _zone(ground: Ground) -> Task:
    voice = ground.voice
    middle = ground.draw("zone.mean", MEAN_LOWS[voice.units])
    shown = [middle + off for off in ground.draw("zone.winters", WINTERS)]
    mean_c = _celsius(ground, middle)
    zone = hardiness_zone(mean_c)
    coldest = {f"winter_{number}": Quantity(_celsius(ground, low), "degC") for number, low in enumerate(shown, 1)}
    steps = (
        Step("homework_site.sum", " + ".join(coldest), coldest, sum(shown), COMMON_PRACTICE),
        Step(
            "climate.zone_mean",
            "sum / winters",
            {"sum": sum(shown), "winters": len(shown)},
            Quantity(mean_c, "degC"),
            "daly_2012",
        ),
        Step("climate.zone_name", "zone holding the mean", {"mean": Quantity(mean_c, "degC")}, zone, "daly_2012"),
    )
    unsigned = sum(abs(low) for low in shown) / len(shown)
    slips = (
        Slip("coldest_only", _named(_celsius(ground, min(shown))), Said("homework_site.slip_coldest_only"), "01.zone"),
        Slip("sign_lost", _named(_celsius(ground, unsigned)), Said("homework_site.slip_sign_lost"), "01.zone"),
        Slip(
            "sign_lost_mean",
            Quantity(_celsius(ground, unsigned), "degC"),
            Said("homework_site.slip_sign_lost"),
            "01.zone",
            1,
        ),
        Slip(
            "other_scale",
            _named(middle if voice.units == "us" else f_to_c(middle)),
            Said("homework_site.slip_other_scale"),
            "01.zone",
        ),
    )
    found = Answer(steps=steps, assumptions=(Said("homework_site.zone_winter"),), sources=("daly_2012",))
    return Task(
        ask=Said("homework_site.zone_ask", {**coldest, **_zones_around(ground, mean_c)}),
        answer=found,
        steps=steps,
        slips=told_apart(steps, slips, voice),
    )


def _named(mean_c: float) -> str | None:
    try:
        return hardiness_zone(mean_c)
    except InputProblem:
        return None


def _zones_around(ground: Ground, mean_c: float) -> dict[str, str | Range]:
    """Name four half zones in a row, one of them the right one, with their bounds."""
    at = int((c_to_f(mean_c) - LOWEST_F) // HALF_ZONE_F)
    first = min(max(at - ground.draw("zone.window", range(4)), 0), HALF_ZONES - 4)
    found: dict[str, str | Range] = {}
    for number in range(4):
        low_c, high_c = (f_to_c(float(LOWEST_F + HALF_ZONE_F * (first + number + end))) for end in (0, 1))
        found |= {f"zone_{number + 1}": hardiness_zone(low_c), f"span_{number + 1}": Range(low_c, high_c, "degC")}
    return found


SKILLS: Sequence[Skill] = (
    Skill("01.risk", "01_site_and_zone", Said("homework_site.risk_title"), "01.risk", _risk),
    Skill("01.season", "01_site_and_zone", Said("homework_site.season_title"), "01.place", _season),
    Skill("01.degree", "01_site_and_zone", Said("homework_site.degree_title"), "01.warmth", _degree),
    Skill("01.zone", "01_site_and_zone", Said("homework_site.zone_title"), "01.zone", _zone),
)
