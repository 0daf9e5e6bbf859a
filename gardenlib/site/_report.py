"""What the ``station`` command tells of a file: in sentences, or as plain facts for another program."""

from __future__ import annotations

from datetime import date
from typing import Any

from gardenlib.site.freeze_sources import HALVES, THRESHOLDS_F
from gardenlib.site.local_dates import FreezeDates
from gardenlib.site.station import Station
from gardenlib.site.zone import Zone, zone_from_station
from gardenlib.units import Quantity, f_to_c
from gardenlib.words import Voice

RISKS = (0.1, 0.5, 0.9)
_FREEZE = Quantity(0.0, "degC")
_ANY_YEAR = 2001  # not a leap year; only month and day are shown


class Report:
    """One station's file, as it is told.

    Parameters
    ----------
    station : Station
        The record.
    year : int or None
        The season for which dates are written; None writes month and day.
    """

    def __init__(self, station: Station, year: int | None) -> None:
        self.station = station
        self.year = year
        self.voice = Voice(units="us" if _read_in_fahrenheit(station) else "metric")
        self.freezes: FreezeDates | None = None
        self.zone: Zone | None = None
        if station.latitude is not None:
            self.freezes = FreezeDates.from_station(station)
            self.zone = zone_from_station(station)

    def facts(self) -> dict[str, Any]:
        """Give the facts in SI units, thresholds in Fahrenheit, dates as ISO text."""
        station = self.station
        return {
            "name": station.name,
            "station_id": station.station_id,
            "latitude": station.latitude,
            "longitude": station.longitude,
            "elevation_m": station.elevation_m,
            "unit": station.unit,
            "unit_from": station.unit_from,
            "first_day": station.daily.index[0].date().isoformat(),
            "last_day": station.daily.index[-1].date().isoformat(),
            "first_year": station.first_year,
            "last_year": station.last_year,
            "days": len(station.daily),
            "coldest": {"date": station.coldest[0].isoformat(), "tmin_c": round(station.coldest[1], 2)},
            "warmest": {"date": station.warmest[0].isoformat(), "tmax_c": round(station.warmest[1], 2)},
            "dropped": dict(station.dropped),
            "notes": [self.voice.say(note) for note in station.notes],
            "year": self.year,
            "freeze_dates": self._freeze_facts(),
            "zone": self._zone_facts(),
        }

    def _freeze_facts(self) -> list[dict[str, Any]] | None:
        if self.freezes is None:
            return None
        return [
            {
                "half": half,
                "threshold_f": threshold,
                "state": self.freezes.state(half, threshold),
                "dates": {str(risk): self._iso(self._date(half, threshold, risk)) for risk in RISKS},
            }
            for half in HALVES
            for threshold in THRESHOLDS_F
        ]

    def _zone_facts(self) -> dict[str, Any] | None:
        if self.zone is None:
            return None
        low = self.zone.mean_extreme_min_c
        return {
            "zone": self.zone.zone,
            "mean_extreme_min_c": None if low is None else round(low, 2),
            "winters": self.zone.years,
            "reason": self.zone.reason and self.voice.say(self.zone.reason),
        }

    def _date(self, half: Any, threshold_f: int, risk: float) -> date | None:
        assert self.freezes is not None  # noqa: S101
        if not self.freezes.knows(half, threshold_f, risk):
            return None
        return self.freezes.date(half, threshold_f, risk, year=self.year or _ANY_YEAR)

    def _iso(self, day: date | None) -> str | None:
        return None if day is None else day.isoformat() if self.year else f"{day:%m-%d}"

    def lines(self) -> list[str]:
        """Give the report as lines of plain words."""
        say, station = self.voice.say, self.station
        first, last = station.daily.index[0].date(), station.daily.index[-1].date()
        days = self.voice.number(float(len(station.daily)), 0)
        lines = [
            station.name if station.name == station.station_id else f"{station.name} ({station.station_id})",
            say("station.years", days=days, first=self._full(first), last=self._full(last)),
            say(f"station.unit.{station.unit_from}", unit=say(f"station.unit_name.{station.unit}")),
            say("station.coldest", day=self._full(station.coldest[0]), **self._both(station.coldest[1])),
            say("station.warmest", day=self._full(station.warmest[0]), **self._both(station.warmest[1])),
            *(say(note) for note in station.notes),
            "",
        ]
        if self.freezes is None or self.zone is None:
            return [*lines, say("station.needs_latitude")]
        return [*lines, *self._freeze_lines(), *self._zone_lines(self.zone)]

    def _both(self, temp_c: float) -> dict[str, str]:
        quantity = Quantity(temp_c, "degC")
        return {"f": Voice(units="us").quantity(quantity), "c": Voice(units="metric").quantity(quantity)}

    def _full(self, day: date) -> str:
        return self.voice.say("station.full_day", day=day, year=day.year)

    def _freeze_lines(self) -> list[str]:
        assert self.freezes is not None  # noqa: S101
        lines: list[str] = []
        for half in HALVES:
            lines.append(self.voice.say(f"station.table.{half}"))
            if self.freezes.state(half, 32) == "too_few_years":
                lines += [self.voice.say("station.table.too_few", temp=_FREEZE), *self._season_lines(half), ""]
                continue
            head = [self.voice.say("station.table.threshold")]
            head += [self.voice.say(f"station.table.{half}_risk", n=round(risk * 10)) for risk in RISKS]
            rows = [head, *(self._row(half, threshold) for threshold in THRESHOLDS_F)]
            widths = [max(len(row[i]) for row in rows) for i in range(len(head))]
            lines += ["  " + "  ".join(map(str.ljust, row, widths)).rstrip() for row in rows]
            lines.append("")
        return lines

    def _row(self, half: Any, threshold_f: int) -> list[str]:
        assert self.freezes is not None  # noqa: S101
        row = [self.voice.quantity(Quantity(f_to_c(float(threshold_f)), "degC"))]
        for risk in RISKS:
            if self.freezes.state(half, threshold_f) == "every_month":
                row.append(self.voice.say("station.table.any_month"))
                continue
            day = self._date(half, threshold_f, risk)
            row.append(self.voice.say("station.table.no_freeze") if day is None else self._day(day))
        return row

    def _day(self, day: date) -> str:
        return self._full(day) if self.year else self.voice.date(day)

    def _season_lines(self, half: str) -> list[str]:
        assert self.freezes is not None  # noqa: S101
        seasons = self.freezes.springs(32)
        assert seasons is not None  # noqa: S101
        column = "last_spring" if half == "spring" else "first_fall"
        usable = seasons[seasons[f"usable_{half}"]]
        if usable.empty:
            return ["  " + self.voice.say("station.table.no_whole_half")]
        none = self.voice.say("station.table.no_freeze")
        return [
            f"  {season}: {none if day is None else self._full(day)}"
            for season, day in zip(usable.index, _days(usable[column]), strict=True)
        ]

    def _zone_lines(self, zone: Zone) -> list[str]:
        say = self.voice.say
        lines = [say("station.zone_first")]
        if zone.zone is not None and zone.mean_extreme_min_c is not None:
            low = Quantity(zone.mean_extreme_min_c, "degC")
            lines.append(say("station.zone", zone=zone.zone, low=low, n=zone.years))
        if zone.reason is not None:
            lines.append(say(zone.reason))
        return lines


def _days(column: Any) -> list[date | None]:
    return [None if day is None else day.date() for day in column.astype(object).where(column.notna(), None)]


def _read_in_fahrenheit(station: Station) -> bool:
    return station.unit == "F" or any(note.key == "station.note.whole_f" for note in station.notes)
