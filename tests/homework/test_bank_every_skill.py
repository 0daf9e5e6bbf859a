"""What holds for every skill: the printed working comes to the key, and the question tells what is needed."""

import bank_checks
import pencil
import pytest
from demo_ground import ground

from gardenlib.homework import question_ids, set_question, skills
from gardenlib.homework.bank import beds, site, soil
from gardenlib.problems import InputProblem
from gardenlib.words import texts

FIRST_PAGES = [*site.SKILLS, *soil.SKILLS, *beds.SKILLS]
LATER_PAGES = [skill for skill in skills() if skill not in FIRST_PAGES]
# Inputs told in words, not as a number: winters by their range, "each week", plants that are clean or left by those
# hit and seen, the shortest life by the first end of the one named, springs counted off the picture.
IN_WORDS = {
    "01": ("winters",),
    "04": ("first", "later", "weeks_apart"),
    "05": ("clean", "clean_left", "plants_left"),
    "06": ("shortest",),
    "07": ("hurt", "late"),
}


def _id(skill):
    return skill.id


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("skill", FIRST_PAGES, ids=_id)
def test_printed_working_holds(skill, units):
    """Each printed expression gives, from printed inputs, what is accepted, and needs only what is printed before."""
    # The days of each month come from the calendar, not from the question.
    pencil.holds(skill, units, *IN_WORDS.get(skill.id[:2], ()), from_elsewhere=skill.id == "01.season")


@pytest.mark.parametrize("skill", LATER_PAGES, ids=_id)
def test_a_pencil_comes_to_the_key(skill):
    """Every arithmetic step follows from its printed inputs."""
    bank_checks.check_pencil(skill)


@pytest.mark.parametrize("skill", LATER_PAGES, ids=_id)
def test_tasks_are_well_made(skill):
    """Steps, slips, panels and sentences are there, and slips differ from the key."""
    bank_checks.check_shape(skill)


@pytest.mark.parametrize("skill", LATER_PAGES, ids=_id)
def test_the_question_tells_enough(skill):
    """Who reads the question alone can begin."""
    bank_checks.check_asked(skill, known=IN_WORDS.get(skill.id[:2], ()))


# Records and replies name the skills by these ids: one may be added, none renamed.
IDS = """
01.risk 01.season 01.degree 01.zone 02.jar 02.lime 02.bag 02.brings 02.compost 03.fit 03.inch 03.hose 03.drip 03.pots
03.lines 04.indoors 04.fall 04.seeds 04.again 05.degree_days 05.share 05.miss 05.cover 05.spores 06.row 06.household
06.two_places 06.weeks 07.replay 07.days 07.weeks
"""


def test_each_skill_has_four_rungs_under_ids_that_stay():
    """At least 36 questions over all seven pages, each skill on four rungs, under the ids that records hold."""
    assert set(IDS.split()) <= {skill.id for skill in skills()}
    assert len(skills()) * 4 == len(set(question_ids())) >= 36
    assert {skill.page[:2] for skill in skills()} == {f"0{page}" for page in range(1, 8)}
    assert all(
        [f"{skill.id}.{rung}" for rung in (1, 2, 3, 4)]
        == [i for i in question_ids(skill.page) if i.rpartition(".")[0] == skill.id]
        for skill in skills()
    )


@pytest.fixture(scope="module")
def foreseen():
    """Gather the foreseen mistakes of all questions, by skill and id, with what is said to each."""
    found = {}
    for units in ("us", "metric"):
        for question_id in question_ids():
            try:
                question = set_question(question_id, ground("A7", units=units))
            except InputProblem:
                continue
            for blank in question.blanks:
                found |= {(question.skill.id, slip.id): slip.reply for slip in blank.slips}
    return found


@pytest.mark.parametrize(
    ("mistake", "skill", "slip"),
    [
        ("the other system's unit", "06.row", "wrong_unit"),
        ("another base of degree days", "01.degree", "other_base"),
        ("another base of degree days", "05.degree_days", "other_base"),
        ("a length taken for an area", "02.lime", "length_for_area"),
        ("a length taken for an area", "03.inch", "length_for_area"),
        ("one end of a range", "06.row", "low_end_only"),
        ("one end of a range", "06.row", "high_end_only"),
        ("the middle of a range", "06.two_places", "middle_of_range"),
        ("weeks counted forward", "04.indoors", "forward"),
        ("per 100 for per 1,000", "02.bag", "per_hundred"),
        ("per 100 for per 1,000", "02.lime", "per_hundred"),
    ],
)
def test_the_mistakes_that_everybody_makes_are_foreseen(foreseen, mistake, skill, slip):
    """Each has a reply of its own that names it, and not the one for whatever else was written."""
    reply = foreseen[skill, slip]
    assert reply, mistake
    assert reply != texts("en")["homework.reply.other"]
    # Both ends of a range share theirs.
    assert all(reply != other for key, other in foreseen.items() if key[0] == skill and key[1][-8:] != slip[-8:])
