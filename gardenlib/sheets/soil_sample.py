"""What stands on the page for taking a soil sample."""

from __future__ import annotations

from typing import Any

from gardenlib.charts import sketch
from gardenlib.soil import SamplingPlan
from gardenlib.words import Voice


def sampling_sketches(plan: SamplingPlan, voice: Voice, *, lettered: bool = True) -> tuple[str, str]:
    """Draw where to dig, and what to take from a hole.

    Parameters
    ----------
    plan : SamplingPlan
        The plan.
    voice : Voice
        Language and units of the reader.
    lettered : bool
        Whether words stand in the drawings; paper sets them below, in its own size.

    Returns
    -------
    tuple of (str, str)
        Two SVG texts.
    """
    depth = voice.say("sample.depth", depth=voice.range(plan.depth, 0))
    words = {
        "old": voice.say("sample.old"),
        "new": voice.say("sample.fresh"),
        "slice": voice.say("sample.slice"),
        "depth": depth,
        "hole": voice.say("sample.hole"),
    }
    drawn = {**words, "leaders": "1"} if lettered else {**dict.fromkeys(words, ""), "leaders": "0"}
    places = sketch("soil_zigzag", **{slot: drawn.pop(slot) for slot in ("old", "new")})
    return places, sketch("soil_slice", **drawn)


def soil_sample_data(plan: SamplingPlan, voice: Voice, *, lab_name: str = "", lab_form: str = "") -> dict[str, Any]:
    """Gather the words of the page `soil_sample`.

    Parameters
    ----------
    plan : SamplingPlan
        The plan.
    voice : Voice
        Language and units of the reader.
    lab_name, lab_form : str
        The class's laboratory and its form; where empty the page has a line to write on.

    Returns
    -------
    dict
        Data for `sheet_pdf`.
    """
    say = voice.say
    places, cut = sampling_sketches(plan, voice, lettered=False)
    lead = "lead" in plan.tests
    named = [say("sample.sheet.lab", lab=lab_name)] if lab_name else []
    named += [say("sample.sheet.form", form=lab_form)] if lab_form else []
    blanks = [] if lab_name else [say("sample.sheet.lab_blank")]
    blanks += [] if lab_form else [say("sample.sheet.form_blank")]
    return {
        "title": say("sample.sheet.title"),
        "caution": say("sample.caution_lead" if lead else "sample.caution"),
        "steps": [
            say("sample.sheet.step_when", span=plan.before_planting),
            say("sample.sheet.step_dig", places=plan.places, depth=voice.range(plan.depth, 0)),
            say("sample.sheet.step_slice"),
            say("sample.sheet.step_mix"),
            say("sample.sheet.step_apart"),
            say("sample.sheet.step_dry", amount=plan.amount),
            say("sample.sheet.step_send"),
        ],
        "places": places,
        "places_alt": say("sample.alt"),
        "slice": cut,
        "slice_alt": say("sample.slice_alt"),
        "old": say("sample.old"),
        "fresh": say("sample.fresh"),
        "cut": say("sample.sheet.cut", depth=voice.range(plan.depth, 0)),
        "label_title": say("sample.sheet.label"),
        "labels": [say(f"sample.sheet.label_{what}") for what in ("name", "bed", "day", "last")],
        "boxes_title": say("sample.sheet.boxes"),
        "lab_lines": named,
        "lab_blanks": blanks,
        "boxes": [say(f"sample.test.{test}") for test in plan.tests],
    }
