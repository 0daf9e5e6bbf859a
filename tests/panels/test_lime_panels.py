"""Page 02: the lime panel in its states, its checks, and the fold on lowering pH."""

import re

import pytest

from gardenlib.panels.check import CheckBox
from gardenlib.panels.panel import Panel
from gardenlib.panels.soil import acid, lime, settled

GUESSED = {"02.lime.guess": "little"}
SHEET = {"sheet": "in_hand", "water_ph": 5.6, "buffer": "sikora", "buffer_ph": 6.2}
WEIGHT = re.compile(r"\d (lb|kg|g|oz)\b|per 100 sq ft|per m²|per acre")


def _panel(open_session, *, guesses=GUESSED, units=None, texture_on=False, **soil):
    session = open_session(guesses=guesses)
    if texture_on:
        object.__setattr__(session.klass, "lime_from_texture", True)
    if units is not None:
        session.save_fields("household", units=units)
    panel = lime.panel(session)
    if soil:
        session.save_fields("soil", **soil)
    return session, panel


def _all_words(panel):
    table = "" if panel.view.table is None else panel.view.table.to_string()
    return " ".join([panel.view.finding, table, panel.notes.value, panel.message.value, panel.picture.value])


def test_the_guess_comes_first(open_session):
    """Before a guess nothing is drawn, but the caution stands there already."""
    _, panel = _panel(open_session, guesses={})
    assert panel.view is None
    assert "goggles" in panel.children[0].value


@pytest.mark.parametrize("soil", [{}, SHEET])
def test_caution_stands_before_the_number(open_session, soil):
    """Dust, hydrated lime, quicklime, wood ash and children stand before the picture, in one box."""
    _, panel = _panel(open_session, **soil)
    caution = panel.children[0].value
    for word in ("goggles", "gloves", "still day", "hydrated", "quicklime", "Wood ash", "children", "extension"):
        assert word in caution
    assert panel.children.index(panel.picture) > 0


@pytest.mark.parametrize(
    "soil",
    [
        {},
        {"water_ph": 5.2},
        {"sheet": "none", "water_ph": 5.2, "texture": "loam"},
        {"sheet": "in_hand", "water_ph": 5.2, "buffer": "other", "buffer_ph": 6.0},
        {"sheet": "in_hand", "water_ph": 5.2, "buffer": "none"},
        {"sheet": "in_hand"},
        {"sheet": "in_hand", "water_ph": 5.2, "buffer": "sikora", "buffer_ph": 6.0, "ph_method": "kcl"},
        {"sheet": "in_hand", "water_ph": 7.6, "buffer": "sikora", "buffer_ph": 6.9},
    ],
)
def test_no_weight_without_a_sheet_that_allows_it(open_session, soil):
    """Without a buffer reading that has a table, or the lab's rate, no weight is shown anywhere."""
    _, panel = _panel(open_session, **soil)
    panel._fold.opener.value = True
    assert not WEIGHT.search(_all_words(panel) + panel._working.value)


def test_without_a_sheet_it_says_send_a_sample(open_session):
    """The open state draws the line, shows how far methods lie apart as factors, and asks for a sample."""
    _, panel = _panel(open_session, water_ph=5.2)
    assert "needs much lime" in panel.view.finding
    assert "send a sample first" in panel.view.finding
    assert "<svg" in panel.view.chart
    assert "2.9 times the least" in panel.view.table.to_string()


def test_trying_a_ph(open_session):
    """Without any pH one can be tried; none, little and much follow it."""
    _, panel = _panel(open_session)
    for ph, words in ((6.8, "do not need"), (6.3, "needs little"), (5.0, "needs much"), (8.0, "which is high")):
        panel.controls["ph"].value = ph
        assert words in panel.view.finding


def test_a_sheet_gives_the_doses(open_session):
    """Sikora 6.2 to pH 6.5: 3.025 tons an acre (EM 9585, by hand), 48 square feet, bag 90 %: 7.4 pounds, two doses."""
    _, panel = _panel(open_session, **SHEET)
    by_hand = 3.025 * 2000 / 43560 * 48 / 0.9
    assert f"Put {by_hand:.1f} lb" in panel.view.finding
    assert "48 sq ft" in panel.view.finding
    assert len(panel.view.table) == 2
    assert "Mar 1, 2027" in panel.view.table.to_string()
    assert "scale" in panel.notes.value
    assert "new sample from" in panel.notes.value


def test_the_bag_and_the_bed_count(open_session):
    """A weaker bag and a larger bed take more; hydrated lime is refused by name."""
    _, panel = _panel(open_session, **SHEET)
    panel.controls["cce"].value = 100
    assert "Put 6.7 lb" in panel.view.finding
    panel.controls["area_us"].value = 96
    assert "Put 13.3 lb" in panel.view.finding
    panel.controls["cce"].value = 136
    assert "hydrated" in panel.message.value
    assert panel.picture.value == ""


def test_the_learner_s_bed_comes_first(open_session):
    """The first bed of the plot file with both sides gives the area."""
    session = open_session(guesses=GUESSED)
    session.save("beds", [{"id": "a", "name": "No sides"}, {"id": "b", "length_m": 3.0, "width_m": 1.0}])
    session.save_fields("household", units="metric")
    session.save_fields("soil", **SHEET)
    assert lime.panel(session).controls["area_metric"].value == 3.0


def test_units_keep_their_own_number(open_session):
    """After a change to metric the bed is in square metres and the weight in kilograms."""
    session, panel = _panel(open_session, **SHEET)
    session.save_fields("household", units="metric")
    assert "area_metric" in panel.controls
    assert " kg " in panel.view.finding


@pytest.mark.parametrize(
    ("magnesium", "told"), [("", "no magnesium result"), ("low", "dolomitic lime"), ("very_high", "calcitic lime")]
)
def test_magnesium_decides_the_kind(open_session, magnesium, told):
    """No kind is named without a magnesium result."""
    _, panel = _panel(open_session, **SHEET, magnesium=magnesium)
    assert told in panel.notes.value
    if not magnesium:
        assert "dolomitic" not in panel.notes.value
        assert "calcitic" not in panel.notes.value


def test_the_lab_s_rate_wins(open_session):
    """With a rate on the sheet the buffer is left alone."""
    _, panel = _panel(open_session, **SHEET, lab_lime_kg_m2=0.1)
    assert "own rate" in panel.notes.value
    assert len(panel.view.table) == 1


@pytest.mark.parametrize("soil", [{"lab_lime_kg_m2": 0.0}, {"buffer": "smp", "buffer_ph": 7.2}])
def test_a_sheet_that_asks_for_none(open_session, soil):
    """The lab's rate of 0, or a buffer reading above the equation's zero, is said as none now."""
    _, panel = _panel(open_session, **{**SHEET, **soil})
    assert panel.view.finding.startswith("Your sheet asks for no lime now")
    assert not WEIGHT.search(_all_words(panel))


def test_a_small_bed_is_weighed_more_finely(open_session):
    """Below a kilogram the weight has two decimals: 3.025 tons an acre on 4 square feet, bag 90 %, is 0.62 pounds."""
    _, panel = _panel(open_session, **SHEET)
    panel.controls["area_us"].value = 4
    assert "Put 0.62 lb" in panel.view.finding


def test_alkaline_soil_turns_the_question_round(open_session):
    """From 7.3 the finding opens with no lime and goes on to salts, whatever else the sheet says."""
    _, panel = _panel(open_session, **{**SHEET, "water_ph": 7.3})
    assert panel.view.finding.startswith("You do not need lime.")
    assert "salts" in panel.notes.value
    assert panel.controls == {}


def test_another_ph_is_refused(open_session):
    """A pH in potassium chloride gets one sentence and no picture."""
    _, panel = _panel(open_session, **SHEET, ph_method="kcl")
    assert "another way" in panel.message.value
    assert panel.picture.value == ""


@pytest.mark.parametrize(
    ("soil", "told"),
    [
        ({**SHEET, "buffer": "smp", "buffer_ph": 5.0}, "which buffer"),
        ({**SHEET, "buffer_ph": None}, "needs the buffer pH"),
        ({**SHEET, "buffer": "mehlich_pa"}, "needs the acidity"),
        ({**SHEET, "water_ph": 2.1}, "runs from 3 to 10"),
    ],
)
def test_odd_sheets_get_a_sentence(open_session, soil, told):
    """A reading that has no figure is one plain sentence, never a trace."""
    session, panel = _panel(open_session, **soil)
    assert told in " ".join(str(getattr(part, "value", "")) for part in panel.children)
    assert not session.path.with_suffix(".log").exists()


def test_texture_only_where_the_class_allows_it(open_session):
    """Unchecked figures by texture: marked so, one first dose of at most 5 pounds in 100 square feet, a new sample."""
    soil = {"water_ph": 4.6, "texture": "clay loam"}
    _, closed = _panel(open_session, **soil)
    assert not WEIGHT.search(_all_words(closed))
    _, panel = _panel(open_session, texture_on=True, **soil)
    assert panel.view.finding.startswith("Unchecked")
    assert len(panel.view.table) == 1
    most = 5 * 48 / 100
    weights = [float(part) for part in re.findall(r"[\d.]+", panel.view.table.iloc[0, 2])]
    assert max(weights) <= most + 0.05
    assert "new sample from" in panel.notes.value
    assert "from memory" in panel.notes.value


@pytest.mark.parametrize(
    ("choice", "told"), [("buffer", "buffer pH"), ("bag", "pure lime"), ("area", "a tenth"), ("right", "Yes.")]
)
def test_mistakes_with_lime_are_named(open_session, choice, told):
    """The buffer taken for the pH, the rate for 1,000 square feet, and the bag's quality get their own reply."""
    box = lime.check(open_session(guesses=GUESSED))
    box.answers.value = choice
    box.children[2].click()
    assert told in box.reply.value


def test_check_by_hand(open_session):
    """80 pounds in 1,000 square feet are 8 in 100; of a bag of 80 % that is 10 pounds; the mistake gives 100."""
    box = lime.check(open_session(guesses=GUESSED))
    assert [words for words, _ in box.answers.options][1:] == ["8 lb", "10 lb", "100 lb"]


def test_check_in_metric(open_session):
    """0.4 kg on a square metre are 4 kg on ten; of a bag of 80 % that is 5 kg."""
    session = open_session(guesses=GUESSED)
    session.save_fields("household", units="metric")
    box = lime.check(session)
    assert [words for words, _ in box.answers.options][1:] == ["4 kg", "5 kg", "0.5 kg"]


@pytest.mark.parametrize(("choice", "told"), [("one", "not even"), ("little", "times ten"), ("ten", "Yes.")])
def test_steps_of_ph_are_not_even(open_session, choice, told):
    """Each step of pH is times ten (the definition of pH)."""
    box = lime.check2(open_session(guesses=GUESSED))
    box.answers.value = choice
    box.children[2].click()
    assert told in box.reply.value


# ---- lowering pH --------------------------------------------------------------------------------------


def _acid(open_session, **soil):
    session = open_session(guesses=GUESSED)
    if soil:
        session.save_fields("soil", **soil)
    fold = acid.fold(session)
    fold.opener.value = True
    inside = fold._body.children[0].children
    return session, next(p for p in inside if isinstance(p, Panel)), next(p for p in inside if isinstance(p, CheckBox))


@pytest.mark.parametrize("ph", [3.0, 6.5, 7.4, 7.5, 8.4, 10.0])
@pytest.mark.parametrize("fizz", ["", "yes", "no"])
def test_no_amount_of_sulphur_is_ever_shown(open_session, ph, fizz):
    """Whatever the pH and the test, the fold shows no amount; the cautions come first."""
    _, panel, _ = _acid(open_session, water_ph=ph, fizz=fizz)
    words = panel.view.finding + panel.notes.value + panel.picture.value + panel.message.value
    assert not WEIGHT.search(words)
    assert "goggles" in "".join(part.value for part in panel.children[:2])


def test_the_fizz_test_is_saved_and_decides(open_session):
    """The fizz test goes into the soil section; free lime ends it, no fizz sends to who has the figure."""
    session, panel, _ = _acid(open_session, water_ph=8.0)
    assert "fizz test first" in panel.view.finding
    panel.controls["fizz"].value = "yes"
    assert session.plot.soil.fizz == "yes"
    assert "do not try" in panel.view.finding
    panel.controls["fizz"].value = "no"
    assert "extension office" in panel.view.finding


def test_mistakes_with_free_lime_are_named(open_session):
    """More sulphur, and vinegar, get their own reply."""
    _, _, box = _acid(open_session)
    for choice, told in (("more", "uses up"), ("vinegar", "soon gone"), ("leave", "Yes.")):
        box.answers.value = choice
        box.children[2].click()
        assert told in box.reply.value


# ---- what is carried to the end of the page, and whose bed it is ----------------------------------------


def _settled(session):
    return settled.results(session)[-1][1]


def test_an_unchecked_weight_is_not_carried_to_the_end(open_session):
    """With the switch on the panel shows a weight as unchecked; the table at the end shows none at all."""
    session, panel = _panel(open_session, texture_on=True, water_ph=5.2, texture="sandy loam")
    assert WEIGHT.search(panel.view.finding)
    assert _settled(session) == "send a sample first"


def test_a_checked_weight_is_carried_to_the_end(open_session):
    """The sheet's dose stands in the table at the end."""
    session, _ = _panel(open_session, **SHEET)
    assert "of this bag" in _settled(session)


def test_a_buffer_outside_the_table_leaves_the_rest_of_the_end(open_session):
    """The SMP table starts at 5.8 (PM 1688): the end of the page sends to the lab and keeps its other rows."""
    session, _ = _panel(open_session, sheet="in_hand", water_ph=5.0, buffer="smp", buffer_ph=5.3)
    assert len(settled.results(session)) == 4
    assert _settled(session) == "ask the lab"


def test_a_bed_that_stands_in_is_named(open_session):
    """The dose is for the class's bed, or for a usual one, only where the page says so."""
    session, panel = _panel(open_session, **SHEET)
    assert "The class&#x27;s bed stands in" in panel.notes.value
    object.__setattr__(session.klass, "class_bed", "")
    panel.redraw()
    assert "usual size stands in" in panel.notes.value
    session.save("beds", [{"id": "bed-1", "name": "Mine", "length_m": 3.0, "width_m": 1.0}])
    panel.redraw()
    assert "stands in" not in panel.notes.value


def test_no_compost_is_advised_against_a_high_ph(open_session):
    """The same sheet may forbid compost for its phosphorus, so a high pH asks for none."""
    _, panel = _panel(open_session, sheet="in_hand", water_ph=8.1, phosphorus="high")
    assert "do not need lime" in panel.view.finding
    assert "salts" in panel.notes.value
    assert "ompost" not in panel.notes.value


# ---- clubroot --------------------------------------------------------------------------------------------

BED = {"id": "bed-1", "length_m": 3.048, "width_m": 3.048}


def _named(open_session, disease="clubroot", **soil):
    """Open the panel for a bed of 10 by 10 feet in which a disease was named."""
    session = open_session(guesses=GUESSED)
    session.save("beds", [{**BED, "known_disease": disease}])
    session.save_fields("soil", **soil)
    return session, lime.panel(session)


def test_clubroot_with_a_sheet_aims_at_its_own_ph(open_session):
    """Sikora 6.2 to 7.2 is 4.9 tons an acre in EM 9585, Table 1; here on 100 square feet, with a bag of 90 %."""
    _, panel = _named(open_session, **SHEET)
    pounds = 4.9 * 2000 / 43560 * 100 / 0.9
    assert f"Put {round(pounds, 1):g} lb" in panel.view.finding
    for words in ("stops new infection only", "spores stay for years", "pages 03 and 05", "not for ordinary cabbage"):
        assert words in panel.children[0].value
    assert "goggles" in panel.children[0].value
    assert panel.children.index(panel.picture) > 0
    for words in ("target is pH 7.2", "not for ordinary cabbage beds", "does not kill it"):
        assert words in panel.notes.value


@pytest.mark.parametrize("disease", ["", "club root, seen 2024", "cabbage wilt", "no clubroot"])
def test_nothing_vaguer_than_a_named_clubroot_lifts_the_target(open_session, disease):
    """A disease that was only seen, or another one, leaves the ordinary target and its caution."""
    _, panel = _named(open_session, disease, **SHEET)
    assert f"Put {3.025 * 2000 / 43560 * 100 / 0.9:.1f} lb" in panel.view.finding
    assert "lubroot" not in panel.children[0].value + panel.notes.value


@pytest.mark.parametrize(
    "soil",
    [
        {"water_ph": 6.8},
        {"sheet": "none", "water_ph": 6.8},
        {"sheet": "in_hand", "water_ph": 6.8, "buffer": "none"},
        {"sheet": "in_hand", "water_ph": 6.8, "buffer": "other", "buffer_ph": 6.9},
    ],
)
def test_clubroot_without_a_sheet_keeps_the_ordinary_target(open_session, soil):
    """At 6.8 a mixed bed needs none (EM 9057: 6.5); the higher target waits for a lab, and rotation does not."""
    _, panel = _named(open_session, **soil)
    assert panel.view.finding.startswith("You do not need lime. Your pH is 6.8, and the target is 6.5")
    assert "takes a lab&#x27;s sheet" in panel.notes.value
    assert not WEIGHT.search(_all_words(panel))
    assert "lubroot" not in panel.children[0].value


def test_clubroot_and_texture_never_go_together(open_session):
    """Figures from memory stay at the ordinary target, whatever was named."""
    session = open_session(guesses=GUESSED)
    object.__setattr__(session.klass, "lime_from_texture", True)
    session.save("beds", [{**BED, "known_disease": "clubroot"}])
    session.save_fields("soil", water_ph=5.6, texture="loam")
    panel = lime.panel(session)
    assert panel.view.finding.startswith("Unchecked")
    assert "target is pH 7.2" not in panel.notes.value


@pytest.mark.parametrize(
    "soil",
    [
        {"buffer": "smp", "buffer_ph": 6.4},
        {"buffer": "mehlich_nc", "buffer_ph": 6.2},
        {"buffer": "mehlich_pa", "acidity_meq_100g": 4.6},
    ],
)
def test_a_method_that_does_not_reach_it_says_so(open_session, soil):
    """No other printed method runs to 7.2: a sentence stands in place of a weight, and the end sends to the lab."""
    session, panel = _named(open_session, **{**SHEET, "buffer_ph": None, **soil})
    assert "target of pH" in panel.message.value
    assert "7.2" in panel.message.value
    assert panel.picture.value == ""
    assert not WEIGHT.search(panel.message.value)
    assert _settled(session) == "ask the lab"


def test_the_lab_s_own_rate_against_clubroot_is_asked_after(open_session):
    """The lab's rate stands, but whether it aims as high only the lab can tell."""
    _, panel = _named(open_session, **SHEET, lab_lime_kg_m2=0.1)
    assert "Ask whether it reaches pH 7.2" in panel.notes.value
    assert len(panel.view.table) == 1


def test_naming_clubroot_makes_the_panel_anew(open_session):
    """The caution follows the bed as soon as it is saved, and goes again."""
    session, panel = _named(open_session, "", **SHEET)
    assert "lubroot" not in panel.children[0].value
    for disease in ("clubroot", ""):
        session.save("beds", [{**BED, "known_disease": disease}])
        assert ("lubroot" in panel.children[0].value) == bool(disease)
