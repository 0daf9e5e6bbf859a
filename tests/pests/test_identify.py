"""The key: no dead end, no loop, every name reached, and answers that do not fit refused."""

import pytest

from gardenlib import InputProblem, tables
from gardenlib.charts import sketch
from gardenlib.pests import what_is_it
from gardenlib.pests.identify import NONE

KEY, RESULTS = tables.table("id_key"), tables.table("id_results")
LONGEST_WALK = 8


def _walks(answers=()):
    """Follow each sign of each question to its end."""
    found = what_is_it(answers)
    if found.question is None:
        yield answers, found
        return
    assert len(answers) < LONGEST_WALK, answers
    for sign in found.signs:
        yield from _walks((*answers, sign.name))


WALKS = list(_walks())


def test_every_sign_leads_somewhere_and_only_once():
    """Each row goes to a question of the key or to a result of the table, never to both or to neither."""
    for row in KEY.to_dict("records"):
        goes, ends = (row[part] if isinstance(row[part], str) else None for part in ("leads_to", "result"))
        assert bool(goes) != bool(ends), row
        assert goes in set(KEY["question"]) if goes else ends in set(RESULTS["result"])


@pytest.mark.parametrize(
    ("answers", "found"), WALKS, ids=lambda part: "-".join(part) if isinstance(part, tuple) else ""
)
def test_every_walk_ends_without_a_question_asked_twice(answers, found):
    """Each walk comes to a match, and meets no question a second time."""
    asked = [what_is_it(answers[:n]).question for n in range(len(answers))]
    assert found.match is not None
    assert len(set(asked)) == len(asked)


def test_every_result_and_every_question_is_reached():
    """Nothing in the tables is out of reach, and each result is reached."""
    assert {found.match.name for _, found in WALKS} == set(RESULTS["result"])
    assert {what_is_it(answers[:n]).question for answers, _ in WALKS for n in range(len(answers))} == set(
        KEY["question"]
    )


@pytest.mark.parametrize("entry", ["animal", "eggs"])
def test_both_entries_lead_to_pests_and_helpers(entry):
    """From an animal as from eggs, a walk may end at a pest or at a helper."""
    assert {found.match.kind for answers, found in WALKS if answers[0] == entry} == {"pest", "helper"}


def test_helpers_are_left_and_pests_are_not():
    """What helps is left alone; what harms is picked, rubbed or washed off, covered, dug, lifted or looked for."""
    for _, found in WALKS:
        assert (found.match.first == "leave") == (found.match.kind == "helper"), found.match


def test_where_no_sign_fits_the_extension_office_is_asked():
    """At every question after the first "none" ends outside the key, with no basis, and asks for help."""
    for answers, _ in WALKS:
        for n in range(len(answers)):
            found = what_is_it((*answers[:n], NONE))
            assert (found.match.name, found.match.first, found.basis) == ("outside", "ask", None)


def test_a_name_is_no_surer_than_its_last_sign():
    """A match never has a better basis than the row that leads to it."""
    order = ["published", "common_practice", "memory"]
    status = {(row["question"], row["sign"]): row["status"] for row in KEY.to_dict("records")}
    for answers, found in WALKS:
        last = status[what_is_it(answers[:-1]).question, answers[-1]]
        assert order.index(found.basis) >= order.index(last)
        said = [one.key for one in found.assumptions]
        assert said == ([] if found.basis == "published" else [f"ident.basis_{found.basis}"])


def test_figures_from_memory_are_marked():
    """The diamondback's sign is published but its count of legs is from memory, so the match says memory."""
    found = what_is_it(["animal", "chewed", "worm", "leaf", "green", "four", "tapered"])
    assert found.match.name == "diamondback_moth"
    assert found.basis == "memory"


@pytest.mark.parametrize("name", ["id_key", "id_features"])
def test_no_row_is_surer_than_its_source(name):
    """A row whose source is from memory says memory, and only such a row does."""
    for row in tables.table(name).to_dict("records"):
        statuses = {tables.source(key).status for key in row["source"].split("|")}
        assert (row["status"] == "memory") == ("memory" in statuses), row
        assert row["status"] != "published" or statuses == {"published"}, row


def test_every_picture_is_there():
    """Each picture that a row names is one of our sketches."""
    for name in {*KEY["picture"].dropna(), *RESULTS["picture"]}:
        assert sketch(f"pest_{name}").startswith("<svg ")


@pytest.mark.parametrize(
    ("answers", "said"),
    [
        (["egg"], ["egg", "animal", "eggs"]),
        (["animal", "6,2"], ["6,2", "chewed"]),
        (["eggs", 7], ["7", "barrels"]),
        (["eggs", float("nan")], ["nan", "barrels"]),
        ([["eggs"]], ["eggs", "animal"]),
        ([None], ["None"]),
        (None, ["None", "square brackets"]),
        (7, ["7", "square brackets"]),
        ("eggs", ["eggs", "square brackets"]),
        (["eggs", "stalk", "many"], ["many", "ended"]),
        (["eggs", NONE, NONE], [NONE, "ended"]),
        (["x" * 500], ["x" * 40]),
    ],
)
def test_answers_that_do_not_fit_are_refused(answers, said):
    """An answer that is not among the signs, or comes after the end, gets one sentence that names it."""
    with pytest.raises(InputProblem) as problem:
        what_is_it(answers)
    assert all(part in str(problem.value) for part in said)
    assert "x" * 41 not in str(problem.value)
