"""What the page before a class says of the class folder and of what was printed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import pandas as pd

from gardenlib import charts
from gardenlib.classroom.desk import settled_table
from gardenlib.classroom.ready import Looked
from gardenlib.classroom.stack import Printed, Stack
from gardenlib.panels import controls as c
from gardenlib.problems import InputProblem
from gardenlib.words import Said, Voice


def state(looked: Looked) -> Said:
    """Say whether a class folder is ready, can be printed for, or must be mended first."""
    if looked.stops:
        return Said("prepare.stop", {"n": len(looked.stops)})
    if looked.can_wait:
        return Said("prepare.wait", {"n": len(looked.can_wait), "title": looked.klass.title})
    return Said("check.ready", {"title": looked.klass.title})


def meetings(looked: Looked, voice: Voice) -> list[tuple[str, int]]:
    """List the meetings by day and title, each with its number."""
    return [
        (voice.say("prepare.meeting_line", day=voice.date(one.date, "yMMMMEEEEd"), title=one.title), number)
        for number, one in enumerate(looked.klass.sessions, start=1)
    ]


def refuse(looked: Looked, chosen: str | None, now: str | None) -> None:
    """Refuse to print a class that cannot be read, or another meeting than the one that was seen to be chosen."""
    if not looked.can_be_read:
        raise InputProblem("prepare.stopped", n=len(looked.stops), first=looked.stops[0])
    if now is None:
        raise InputProblem("prepare.no_meeting")
    if now != chosen:
        raise InputProblem("prepare.other_meeting", meeting=now)


def written(stack: Stack) -> Said:
    """Say how much was written, and where it lies."""
    values = {"pages": stack.pages, "folder": str(stack.folder)}
    if stack.homework:
        return Said("prepare.written", {"n": stack.sheets, **values})
    return Said("prepare.written_day", values)


def counted(stack: Stack | None) -> Said:
    """Say how much was written, without its place."""
    if stack is None:
        return Said("prepare.not_written")
    return Said("prepare.count", {"n": stack.sheets, "pages": stack.pages})


def table(settled: Mapping[str, str], voice: Voice) -> charts.View:
    """Lay out what the page settled: pairs of words."""
    names = {
        "folder": voice.say("prepare.folder"),
        "choose": voice.say("prepare.meeting"),
        "learners": voice.say("prepare.learners"),
        "print": voice.say("prepare.printed"),
    }
    return settled_table(voice.say("prepare.results"), [(names[what], value) for what, value in settled.items()], voice)


def files_html(stack: Stack, voice: Voice) -> str:
    """List the files: what could not be printed, what is good to know, and what each is and for whom."""
    say = voice.say
    parts = [c.html(say("prepare.not_all", why=problem), "again") for problem in stack.problems]
    parts += [c.html(say(told), "note") for told in stack.told]
    if stack.homework:
        parts += [c.html(say("prepare.key_apart"), "caution"), _files(say("prepare.sheets"), stack.homework, voice)]
        parts.append(c.html(say("prepare.one_by_one"), "note"))
    if stack.day_folder is not None:
        parts.append(_files(say("prepare.day_files", folder=stack.day_folder.name), stack.day, voice))
    return "".join(parts)


def _files(title: str, files: Sequence[Printed], voice: Voice) -> str:
    say = voice.say
    columns = [say(f"prepare.column_{name}") for name in ("file", "what", "whom")]
    rows = [
        (one.name, say("prepare.pages", paper=one.what, n=one.pages) if one.pages else say(one.what), say(one.whom))
        for one in files
    ]
    return charts.html(charts.View(title, pd.DataFrame(rows, columns=columns), None, ""), voice)
