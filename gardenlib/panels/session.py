"""The page's session: the plot that is open, its class, and who watches them."""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any

from gardenlib import class_folder, plot
from gardenlib.carried import carried
from gardenlib.learner_place import place_of
from gardenlib.problems import InputProblem
from gardenlib.site import FreezeDates, LaidOut, Place, lay_out
from gardenlib.site.freeze import day_in_season
from gardenlib.tables import Crop, crop, crops
from gardenlib.words import Said, Voice

PLOT_FILE = "my_plot.json"
_LOG = logging.getLogger("gardenlib.pages")


class Session:
    """What a page knows: the open plot, the class, the place, the voice and today's date.

    Parameters
    ----------
    page : str
        Name of the page, kept with each answer.
    plot_path : Path
        The plot file; it need not exist before the first save.
    class_path : Path or None
        The class folder; None takes the invented demo class.
    today : date
        Which day it is; the season is that of the next spring to plan.
    language : str, optional
        Language of the page's prose, which counts where the learner has chosen none.
    """

    def __init__(
        self, page: str, plot_path: Path, class_path: Path | None, today: date, language: str | None = None
    ) -> None:
        self.page, self.today, self._language = page, today, language
        self._class_problem: InputProblem | None = None
        try:
            self.klass = class_folder.read(class_path or carried("data_demo"))
        except InputProblem as problem:
            self._class_problem = problem
            self.klass = class_folder.read(carried("data_demo"))
        self._on_plot: list[Callable[[], None]] = []
        self._on_change: list[Callable[[], None]] = []
        self._on_saved: list[Callable[[], None]] = []
        self._read(plot_path)

    # ---- the open plot -------------------------------------------------------------------

    def _read(self, path: Path) -> None:
        self.path = path
        self.plot = plot.read(path) if path.exists() else plot.empty()
        self._forget_place()

    def _forget_place(self) -> None:
        for name in ("place", "laid_out"):
            self.__dict__.pop(name, None)

    def load(self, path: str | Path) -> None:
        """Open another plot file; every part of the page redraws."""
        self._read(Path(path))
        self._tell(self._on_plot)

    def start_over(self) -> Path:
        """Begin anew; the old plot file is kept beside the new one.

        Returns
        -------
        Path
            Where the copy lies.
        """
        copy = plot.start_over(self.path)
        self.load(self.path)
        return copy

    @cached_property
    def _stand_in(self) -> plot.Plot:
        return self.klass.class_plot

    # ---- what is said and where ----------------------------------------------------------

    @property
    def voice(self) -> Voice:
        """How this learner is spoken to."""
        household = self.plot.household
        return Voice(
            language=household.language or self._language or self.klass.languages[0],
            units=household.units or self.klass.units,
            local=self.klass.words_local,
        )

    @property
    def year(self) -> int:
        """The calendar year of the spring that is planned: this year's until its summer, then the next."""
        south = self.latitude < 0
        late = self.today.month >= (8 if not south else 13)
        early = south and self.today.month < 2
        return self.today.year + int(late) - int(early)

    @property
    def opens(self) -> date | None:
        """First day on which the garden is open in the season that is planned."""
        return self.klass.garden_opens and self.day_in_season(self.klass.garden_opens)

    @property
    def closes(self) -> date | None:
        """Last day on which the garden is open in the season that is planned."""
        return self.klass.garden_closes and self.day_in_season(self.klass.garden_closes)

    @property
    def season(self) -> tuple[date, date]:
        """First and last day of the growing year that is planned: from midwinter to midwinter."""
        if self.latitude < 0:
            return date(self.year, 7, 1), date(self.year + 1, 6, 30)
        return date(self.year, 1, 1), date(self.year, 12, 31)

    def day_in_season(self, month_day: tuple[int, int]) -> date:
        """Give the day of the season that is planned which has this month and day."""
        return day_in_season(self.latitude, self.year, month_day)

    @property
    def latitude(self) -> float:
        """Latitude of the learner's place, degrees, north positive."""
        return self.klass.sites[self.site_name].latitude

    @property
    def site_name(self) -> str:
        """Name of the class's site that the learner uses, the class's first where none was chosen."""
        chosen = self.plot.site.name
        return chosen if chosen and chosen in self.klass.sites else next(iter(self.klass.sites))

    @cached_property
    def place(self) -> Place:
        """What is known of the learner's place."""
        return place_of(self.klass, self.site_name, self.plot.site, self.folder)

    @cached_property
    def laid_out(self) -> LaidOut | None:
        """The daily record of the learner's place by season and day, if there is one."""
        station = self.place.station
        return None if station is None else lay_out(station.daily, self.latitude)

    @property
    def freezes(self) -> FreezeDates:
        """The freeze dates of the learner's plot.

        Raises
        ------
        InputProblem
            When nobody has given any for this place.
        """
        if self.place.freezes is None:
            raise InputProblem("place.no_dates", place=self.site_name)
        return self.place.freezes

    @property
    def way(self) -> str:
        """Where the learner's dates come from: ``class``, ``typed`` or ``file``."""
        return self.plot.site.way

    @property
    def folder(self) -> Path:
        """The learner's folder."""
        return self.path.parent

    def plot_files(self) -> list[Path]:
        """List the plot files of the learner's folder."""
        return sorted(path for path in self.folder.glob("*.json") if path.is_file())

    def notes(self) -> list[Said]:
        """List what the reader should know about the class and the plot file."""
        told = [*self.klass.notes, *self.plot.notes]
        if self._class_problem is not None:
            why = self._class_problem
            told.append(Said("page.class_unusable", {"why": Said(why.key, why.values)}))
        if self.voice.language != "en" and not self.klass.translation_read_by:
            told.append(Said("page.draft_translation"))
        if self.klass.invented:
            told.append(Said("page.invented"))
        if self.crops_are_stand_in:
            told.append(Said("page.class_stands_in"))
        return [*told, *self.record_elsewhere()]

    def record_elsewhere(self) -> list[Said]:
        """Say so where freeze dates were typed but past years come from a station that may lie elsewhere."""
        station = self.place.station if self.way == "typed" else None
        return [] if station is None else [Said("page.record_elsewhere", {"name": station.name})]

    def language_name(self, language: str) -> str:
        """Name a language in itself."""
        return Voice(language=language).say("page.language_name")

    # ---- what we eat ---------------------------------------------------------------------

    @property
    def crop_ids(self) -> list[str]:
        """The learner's crops; the class's where none were chosen yet."""
        eaten = self.plot.household.eat or self._stand_in.household.eat
        return [item.crop for item in eaten if item.crop]

    @property
    def crops_are_stand_in(self) -> bool:
        """Tell whether the crops shown are the class's, not the learner's."""
        return not self.plot.household.eat

    def crop(self, crop_id: str) -> Crop:
        """Find a crop, the class's own before the table's."""
        return self.klass.crops.get(crop_id) or crop(crop_id)

    @property
    def all_crop_ids(self) -> list[str]:
        """Every crop that can be chosen."""
        return list(dict.fromkeys([*self.klass.crops, *crops().index]))

    @property
    def crops_own_first(self) -> list[str]:
        """Every crop that can be chosen, the learner's before the others."""
        return list(dict.fromkeys([*self.crop_ids, *self.all_crop_ids]))

    def crop_name(self, crop_id: str) -> str:
        """Name a crop in the learner's language."""
        return self.voice.value(self.crop(crop_id).name)

    @property
    def people(self) -> int:
        """How many people eat from the plot; the class's number where none was given."""
        return self.plot.household.people or self._stand_in.household.people or 1

    # ---- guesses, answers, controls --------------------------------------------------------

    def guess(self, question: str) -> Any:
        """Read the guess kept for a question, or None."""
        return self.plot.guesses.get(question)

    def keep_guess(self, question: str, value: Any) -> None:
        """Keep a guess; the first one stays."""
        if self.guess(question) is None:
            self.save("guesses", {question: value})

    def answer(self, question: str) -> Any:
        """Read what was answered last, or None."""
        return self._entry(question).get("choice")

    def keep_answer(self, question: str, choice: Any, *, holds: bool) -> None:
        """Keep an answer and how many tries it took."""
        tries = self._entry(question).get("tries", 0) + 1
        self.save("answers", {question: {"choice": choice, "holds": holds, "tries": tries, "page": self.page}})

    def kept(self, panel: str) -> Mapping[str, Any]:
        """Read the values of a panel's controls as they were left."""
        controls: Mapping[str, Any] = self._entry(panel).get("controls", {})
        return controls

    def _entry(self, entry: str) -> Mapping[str, Any]:
        found = self.plot.answers.get(entry)
        return found if isinstance(found, dict) else {}

    def keep(self, panel: str, values: Mapping[str, Any]) -> None:
        """Keep the values of a panel's controls."""
        self.save("answers", {panel: {"controls": dict(values)}})

    def save_fields(self, section: str, **fields: Any) -> None:
        """Save some fields of a section and leave its other fields as they are."""
        before = self.voice
        self.save(section, {**getattr(self.plot, section).model_dump(mode="json"), **fields})
        if self.voice != before:
            self._tell(self._on_plot)

    def save(self, section: str, value: Any) -> None:
        """Save one section of the plot file and tell those who watch."""
        if not self.path.exists():
            plot.new(self.path)
        self.plot = plot.update(self.path, section, value, seen_revision=self.plot.revision)
        if section in {"site", "household"}:
            self._forget_place()
        if section in {"site", "household", "soil", "beds", "plantings"}:
            self._tell(self._on_change)
        self._tell(self._on_saved)

    # ---- watching ------------------------------------------------------------------------

    def watch(
        self,
        *,
        on_plot: Callable[[], None] | None = None,
        on_change: Callable[[], None] | None = None,
        on_saved: Callable[[], None] | None = None,
    ) -> None:
        """Ask to be told when another plot is open, when place or crops change, when something was saved."""
        for listeners, listener in ((self._on_plot, on_plot), (self._on_change, on_change), (self._on_saved, on_saved)):
            if listener is not None:
                listeners.append(listener)

    @staticmethod
    def _tell(listeners: list[Callable[[], None]]) -> None:
        for listener in list(listeners):
            listener()

    def log_error(self, where: str) -> None:
        """Write the trace of an unforeseen error to the log beside the plot file."""
        handler = logging.FileHandler(self.path.with_suffix(".log"), encoding="utf-8", delay=True)
        _LOG.addHandler(handler)
        try:
            _LOG.exception("page %s, panel %s", self.page, where)
        finally:
            _LOG.removeHandler(handler)
            handler.close()
