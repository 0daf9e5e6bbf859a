"""The replay as a plain loop over days, with neither pandas nor arrays: what the library must agree with."""

import math
from datetime import date, timedelta
from itertools import pairwise

from gardenlib.pests.models import START_DAYS, attacks, events_of, pest_names

HAIR_F, NEVER = 0.06, 365


def degree_days(low, high, lower, upper):
    """Add one day's single sine above a lower threshold, flat above the upper one (Zalom et al. 1983)."""

    def above(limit):
        if high <= limit:
            return 0.0
        if low >= limit:
            return (low + high) / 2 - limit
        mean, half = (low + high) / 2, (high - low) / 2
        angle = math.asin((limit - mean) / half)
        return ((mean - limit) * (math.pi / 2 - angle) + half * math.cos(angle)) / math.pi

    return above(lower) - (0.0 if upper is None else above(upper))


def pest_degree_days(low, high, event):
    """Count one day as the event's source counts."""
    upper = math.inf if event.upper_c is None else event.upper_c
    if event.method == "capped-average":
        high = min(high, upper)
        return max((min(low, high) + high) / 2 - event.lower_c, 0.0)
    if event.method == "modified-average":
        return sum(min(max(value, event.lower_c), upper) for value in (low, high)) / 2 - event.lower_c
    return min(max((low + high) / 2, event.lower_c), upper) - event.lower_c


def grass_mm(low, high, latitude, day_of_year):
    """Give one day's use of short grass (FAO-56, equations 21 to 25 and 52)."""
    turn = 2 * math.pi / 365 * day_of_year
    distance, tilt, lat = 1 + 0.033 * math.cos(turn), 0.409 * math.sin(turn - 1.39), math.radians(latitude)
    sunset = math.acos(min(max(-math.tan(lat) * math.tan(tilt), -1), 1))
    sun = sunset * math.sin(lat) * math.sin(tilt) + math.cos(lat) * math.cos(tilt) * math.sin(sunset)
    top = max(24 * 60 / math.pi * 0.0820 * distance * sun, 0)
    return max(0.0023 * ((low + high) / 2 + 17.8) * math.sqrt(high - low) * 0.408 * top, 0)


def on_line(day, points):
    """Read a broken line."""
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 <= day <= x1 and x1 > x0:
            return y0 + (y1 - y0) * (day - x0) / (x1 - x0)
    return points[0][1] if day < points[0][0] else points[-1][1]


def dry_days(thirst, days, latitude):
    """Keep one planting's water account; days are (low, high, rain, day of the year)."""
    start, growing, full, late = (sum(thirst.stage_days[: n + 1]) for n in range(4))
    kc = [(0, thirst.kc[0]), (start, thirst.kc[0]), (growing, thirst.kc[1]), (full, thirst.kc[1]), (late, thirst.kc[2])]
    pot = min(0.1, thirst.root_m)
    roots = [(0, pot), (start, pot), (growing, thirst.root_m), (10_000, thirst.root_m)]
    lack, dry = 0.0, 0
    for age, (low, high, rain, day_of_year) in enumerate(days):
        held = thirst.held_mm_m * on_line(age, roots)
        ready = held * min(max(thirst.ready_fraction, 0.1), 0.8)
        stress = min(max((held - lack) / (held - ready), 0), 1)
        use = min(stress * grass_mm(low, high, latitude, day_of_year) * on_line(age, kc), held - lack + rain)
        lack = max(lack + use - rain, 0)
        dry += lack > ready + 1e-9
    return dry


def calendar(number, year):
    """Give the date of a day counted from 1 January, 29 February left out."""
    plain = date(2001, 1, 1) + timedelta(days=number % 365)
    return date(year + number // 365, plain.month, plain.day)


def season_of(one, weather, row, year_planned):
    """Replay one planting in one season; None where it is not replayed."""
    past = weather.past
    first_day, year = past.first_day, int(past.years[row])
    lows, highs, rains = (list(map(float, values[row])) for values in (past.tmin_c, past.tmax_c, past.rain_mm))
    days = [calendar(first_day + n, year_planned) for n in range(365)]
    if not one.replayed:
        return None
    planted = (
        date(one.planted_on.year, 2, 28) if (one.planted_on.month, one.planted_on.day) == (2, 29) else one.planted_on
    )
    if planted not in days:
        return None
    start = days.index(planted)
    ready = []
    for end in ("low", "high"):
        if one.heat_sum is None:
            ready.append(min(start + math.floor(getattr(one.days, end) + 0.5), NEVER))
            continue
        total, day = 0.0, NEVER
        for n in range(start, 365):
            total += degree_days(lows[n], highs[n], one.base.lower_c, one.base.upper_c)
            if total >= getattr(one.heat_sum, end) - 1e-8:
                day = n
                break
        ready.append(day)
    early, late = ready
    stands = range(start + one.emerge_days + 1, min(late, 364) + 1)
    cold = heat = missing = 0
    rain_mm, frost = 0.0, NEVER
    for n in range(365):
        limit = one.young_c if n < weather.spring_days else one.grown_c
        hurts = lows[n] + weather.night_offset_c <= limit - one.cover_c + HAIR_F
        if hurts and n >= max(stands.start, weather.spring_days):
            frost = min(frost, n)
        if n not in stands:
            continue
        cold += hurts
        heat += one.heat_c is not None and (lows[n] + highs[n]) / 2 > one.heat_c + 1e-6
        missing += math.isnan(rains[n])
        rain_mm += 0.0 if math.isnan(rains[n]) else rains[n]
    spell = None
    if one.cold_below_c is not None:
        weeks = range(start, min(start + 28, 365))
        spell = sum((lows[n] + highs[n]) / 2 < one.cold_below_c - 1e-6 for n in weeks)
    pests = 0
    for pest in pest_names():
        pests += attacks(pest, one.crop) and any(
            _meets(event, lows, highs, stands)
            for event in events_of(pest)
            if event.is_offered and event.start in START_DAYS
        )
    dry = 0
    if not one.watered:
        account = [
            (lows[n], highs[n], 0.0 if math.isnan(rains[n]) else rains[n], (first_day + n) % 365 + 1) for n in stands
        ]
        dry = None if one.thirst is None or missing > 10 else dry_days(one.thirst, account, weather.latitude)
    worked = cold == 0 and late < NEVER
    return {
        "ready_early": None if early >= NEVER else calendar(first_day + early, year),
        "ready_late": None if late >= NEVER else calendar(first_day + late, year),
        "frost_on": None if frost >= NEVER else calendar(first_day + frost, year),
        "cold_nights": cold,
        "heat_days": None if one.heat_c is None else heat,
        "cold_days": spell,
        "may_bolt": None if spell is None else spell >= one.cold_days,
        "dry_days": dry,
        "rain_mm": None if missing > 10 else rain_mm,
        "pests_seen": pests,
        "ready_in_time": late < NEVER and late < frost,
        "worked": worked,
        "kg_low": None if one.kg is None else one.kg.low * worked,
        "kg_high": None if one.kg is None else one.kg.high * worked,
    }


def _meets(event, lows, highs, stands):
    """Tell whether an event's days, from its lower sum to its higher, touch the days on which a planting stands."""
    total, low, high = 0.0, NEVER, NEVER
    for n in range(START_DAYS[event.start], 365):
        total += pest_degree_days(lows[n], highs[n], event)
        if low == NEVER and total >= event.sum_low_c - 1e-9:
            low = n
        if high == NEVER and total >= event.sum_high_c - 1e-9:
            high = n
            break
    return low < NEVER and low < stands.stop and high >= stands.start


def replay(planned, weather, year):
    """Replay every planting in every season: a list of (planting, year, what happened)."""
    return [
        (one.id, int(weather.past.years[row]), season_of(one, weather, row, year))
        for one in planned
        for row in range(weather.seasons)
    ]
