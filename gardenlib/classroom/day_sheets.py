"""What stands on the papers of one meeting, as words for the templates."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from gardenlib.class_folder import ClassFolder, Contact, Meeting
from gardenlib.classroom.day_lessons import MINUTES, Lesson, numbered

Data = dict[str, Any]
# For how many learners one of a thing is enough; what the class needs once stands apart.
SHARES = {"each": 1, "two": 2, "four": 4}
AGES = ("small", "middle", "older", "teens")


def run_sheet(klass: ClassFolder, meeting: Meeting, lesson: Lesson) -> Data:
    """Lay out the 90 minutes of a meeting, and say what to skip first."""
    say = lesson.voice.say
    rows, start = [], 0
    for part, minutes in lesson.parts():
        rows.append(
            {
                "from": say("day.minute", minute=start),
                "minutes": say("day.minutes", minutes=minutes),
                "part": say(f"day.part.{part}"),
                "what": lesson.own_words(part),
            }
        )
        start += minutes
    return {
        "title": say("day.run.title", title=lesson.title),
        "date": lesson.voice.date(meeting.date, "yMMMMEEEEd"),
        "begins": say("day.run.begins"),
        "goal": say("day.run.goal", goal=lesson.own_words("goal")),
        "rows": rows,
        "total": say("day.run.total", minutes=MINUTES),
        "short_title": say("day.run.short"),
        "short": lesson.all("skip"),
        "papers_title": say("day.run.papers"),
        "papers": numbered(lesson.voice, "run.paper"),
    }


def bring_list(klass: ClassFolder, meeting: Meeting, lesson: Lesson) -> Data:
    """List what to bring, counted for the learners of the class."""
    say, learners = lesson.voice.say, len(klass.learners)
    items: list[list[str]] = []
    for share, people in SHARES.items():
        # Rounded up; without a list of learners the number is left to write in.
        how_many = str(-(-learners // people)) if learners else ""
        items += [[how_many, thing, say(f"day.bring.for_{share}")] for thing in lesson.all(share)]
    items += [["1", thing, say("day.bring.for_class")] for thing in lesson.all("class")]
    return {
        "title": say("day.bring.title", title=lesson.title),
        "date": lesson.voice.date(meeting.date, "yMMMMEEEEd"),
        "counted": say("day.bring.counted", n=learners) if learners else say("day.bring.not_counted"),
        "head": [say("day.bring.how_many"), say("day.bring.thing"), say("day.bring.for")],
        "items": items,
        "always_title": say("day.bring.always"),
        "always": numbered(lesson.voice, "bring.always"),
    }


def station_cards(klass: ClassFolder, meeting: Meeting, lesson: Lesson) -> Data:
    """Write one card a station, for whoever helps there."""
    say, cards = lesson.voice.say, lesson.cards()
    return {
        "title": say("day.card.sheet", title=lesson.title),
        "how": say("day.card.how"),
        "labels": {part: say(f"day.card.{part}") for part in ("do", "notice", "say", "slip", "reply")},
        "cards": [
            {**card, "title": say("day.card.title", number=number, title=card["title"])}
            for number, card in enumerate(cards, start=1)
        ],
    }


def safety_talk(klass: ClassFolder, meeting: Meeting, lesson: Lesson) -> Data:
    """Write the talk of one minute, with the class's own numbers or lines to write them on."""
    say = lesson.voice.say
    urgent = [who for who in klass.contacts if who.phone and _is_emergency(who, lesson)]
    others = [who for who in klass.contacts if who.phone and who not in urgent]
    rules = [say("day.safety.rule", rule=klass.spray_rule)] if klass.spray_rule else []
    if klass.lead is not None:
        said = {"line": klass.lead.line, "authority": klass.lead.authority, "date": klass.lead.date}
        rules.append(say("day.safety.lead", **said))
    return {
        "title": say("day.safety.title"),
        "call_title": say("day.safety.call"),
        "numbers": [_number(who, lesson) for who in (*urgent, *others)],
        "blanks": [
            *([] if urgent else [say("day.safety.emergency_blank")]),
            *([] if others else [say("day.safety.person_blank")]),
            *(say(f"day.safety.{what}_blank") for what in ("place", "kit", "clinic")),
        ],
        "talk_title": say("day.safety.talk_title"),
        "talk": [*numbered(lesson.voice, "safety.talk"), say("day.safety.today", today=lesson.own_words("today"))],
        "more_title": say("day.safety.more"),
        "more": numbered(lesson.voice, "safety.more"),
        "rules_title": say("day.safety.rules"),
        "rules": [*rules, say("day.safety.first")],
    }


def _is_emergency(who: Contact, lesson: Lesson) -> bool:
    """Tell a contact whose role is the emergency number, in English or the class's language."""
    return who.role.strip().casefold() in {"emergency", lesson.voice.say("day.safety.emergency_role").casefold()}


def _number(who: Contact, lesson: Lesson) -> list[str]:
    return [lesson.voice.say("day.safety.who", name=who.name, role=who.role) if who.role else who.name, who.phone]


def rain_plan(klass: ClassFolder, meeting: Meeting, lesson: Lesson) -> Data:
    """Write the indoor lesson that takes the place of hands in soil."""
    say, minutes = lesson.voice.say, dict(lesson.parts())["hands"]
    need = "; ".join(lesson.all("rain.need"))
    data: Data = {
        "title": say("day.rain.title", title=lesson.own_words("rain.title")),
        "intro": say("day.rain.about", about=lesson.own_words("rain.about"), minutes=minutes, need=need),
        "steps": lesson.all("rain.step"),
        "after": say("day.rain.close", question=lesson.own_words("rain.close")),
    }
    if head := lesson.all("rain.column"):
        data |= {"table_head": head, "table_rows": [[""] * len(head)] * 4}
    return data


def without_power(klass: ClassFolder, meeting: Meeting, lesson: Lesson) -> Data:
    """Say how the meeting goes with paper alone."""
    say = lesson.voice.say
    return {
        "title": say("day.power.title"),
        "intro": say("day.power.about"),
        "steps": [*numbered(lesson.voice, "power.step"), lesson.own_words("power")],
        "after": say("day.power.after"),
    }


def jobs(klass: ClassFolder, meeting: Meeting, lesson: Lesson) -> Data:
    """List the jobs that a child may do, those for adults only, and those done sitting down."""
    say = lesson.voice.say
    return {
        "title": say("day.jobs.title", title=lesson.title),
        "adults_title": say("day.jobs.adults"),
        "adults": say("day.jobs.adults_only"),
        "children_title": say("day.jobs.children"),
        "children": say("day.jobs.children_about"),
        "ages": [[say(f"day.jobs.{age}"), say(f"day.jobs.{age}_may")] for age in AGES],
        "today_title": say("day.jobs.today"),
        "today": lesson.all("child"),
        "sitting_title": say("day.jobs.sitting"),
        "sitting": [*lesson.all("sit"), *numbered(lesson.voice, "jobs.sit")],
        "source": say("day.jobs.source"),
    }


# Each paper: the name of its file, its template, and what makes its words.
PAPERS: Mapping[str, tuple[str, Callable[[ClassFolder, Meeting, Lesson], Data]]] = {
    "1_run_sheet": ("day_run", run_sheet),
    "2_bring_list": ("day_bring", bring_list),
    "3_station_cards": ("day_cards", station_cards),
    "4_safety_talk": ("day_safety", safety_talk),
    "5_rain_plan": ("steps_and_table", rain_plan),
    "6_without_power": ("steps_and_table", without_power),
    "7_jobs": ("day_jobs", jobs),
}
