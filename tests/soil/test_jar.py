"""The jar: layers and marks, times of settling, hostile input."""

import pytest

from gardenlib import InputProblem, soil


@pytest.mark.parametrize("times", [0.5, 2, 3])
def test_size_of_the_jar_does_not_matter(times):
    """The same soil in a wider or narrower jar comes to the same shares (by definition)."""
    assert soil.jar_percents((20 * times, 15 * times, 45 * times), given="layers") == pytest.approx((25, 18.75, 56.25))


def test_marks_and_layers_of_one_jar_agree():
    """The same jar measured both ways gives the same answer; read as the other kind it does not."""
    layers, marks = (30, 20, 10), (30, 50, 60)
    assert soil.jar_percents(marks, given="marks") == pytest.approx(soil.jar_percents(layers, given="layers"))
    assert soil.jar_percents(marks, given="layers") != pytest.approx(soil.jar_percents(marks, given="marks"))


@pytest.mark.parametrize("bad", ["6,2", None, True, float("nan"), float("inf")])
def test_no_number(bad):
    """What is no number is refused, named, with a hint."""
    with pytest.raises(InputProblem, match=r"mark on top of the silt is .*no number"):
        soil.jar_percents((30, bad, 60), given="marks")


@pytest.mark.parametrize(
    ("lengths", "given", "told"),
    [
        ((-1, 50, 60), "marks", "below nothing"),
        ((30, 20, -5), "layers", "layer of clay is .*below nothing"),
        ((30, 20, 60), "marks", "silt is at .* below the one under it"),
        ((30, 50, 40), "marks", "clay is at .* below the one under it"),
        ((0, 0, 0), "layers", "high in all"),
        ((1, 1, 1), "layers", "high in all"),
        ((3000, 2000, 1000), "layers", "high in all"),
        ((30, 20, 10), "thickness", "layers or marks"),
        ((30, 20), "layers", "three lengths"),
    ],
)
def test_lengths_that_cannot_be(lengths, given, told):
    """Negative, falling, nothing, far too much, two lengths, another way: one sentence each."""
    with pytest.raises(InputProblem, match=told) as problem:
        soil.jar_percents(lengths, given=given)
    assert "\n" not in str(problem.value)


def test_a_layer_may_be_missing():
    """A jar without clay is a jar: two equal marks."""
    assert soil.jar_percents((50, 60, 60), given="marks")[2] == 0
    assert soil.jar_texture((60, 0, 0), given="layers").texture == "sand"


def test_jar_says_what_it_leaves_open():
    """The answer says that clay looks like more than it is, and names a class with less clay."""
    jar = soil.jar_texture((30, 40, 30), given="layers")
    assert jar.texture == "clay loam"
    assert "loam" in jar.neighbours
    assert {"jar.volume", "texture.clay_over", "texture.doubt"} <= {said.key for said in jar.assumptions}


def test_working_of_marks_has_two_steps_more():
    """From marks the working first takes the mark below off."""
    by_marks = soil.jar_texture((30, 50, 60), given="marks").steps
    by_layers = soil.jar_texture((30, 20, 10), given="layers").steps
    assert [step.key for step in by_marks[:2]] == ["jar.layer_silt", "jar.layer_clay"]
    assert by_marks[2:] == by_layers


@pytest.mark.parametrize("height_m", [0, 0.01, -0.1, 4.0, 400, float("nan")])
def test_height_that_no_jar_has(height_m):
    """A height of 0, of 400, below nothing or no number is refused."""
    with pytest.raises(InputProblem, match="a jar holds"):
        soil.jar_times(height_m)


@pytest.mark.parametrize("water_temp_c", [-5, 0, 68, float("nan")])
def test_water_that_no_jar_has(water_temp_c):
    """Ice, a number in Fahrenheit, and no number are refused."""
    with pytest.raises(InputProblem, match="The water is at"):
        soil.jar_times(0.1, water_temp_c)


def test_deeper_and_colder_take_longer():
    """Twice the height takes twice as long; colder water takes longer (Stokes: time is height over speed)."""
    times = soil.jar_times(0.1, 20)
    assert soil.jar_times(0.2, 20).silt_hours == pytest.approx(2 * times.silt_hours)
    assert soil.jar_times(0.1, 10).silt_hours > 1.25 * times.silt_hours
    assert times.sand_seconds * (0.05 / 0.002) ** 2 == pytest.approx(times.silt_hours * 3600)


def test_working_gives_the_answer():
    """The last steps for sand and silt hold the two times."""
    times = soil.jar_times(0.15, 12)
    results = {step.key: step.result for step in times.steps}
    assert results["settling.time_sand"].value == times.sand_seconds
    assert results["settling.time_silt"].value == times.silt_hours
    assert set(times.sources) == {"patek_2009", "mccutcheon_1993", "stokes_1851"}


@pytest.mark.parametrize(
    ("grain", "height", "warm"), [(0, 0.1, 20), (-0.05, 0.1, 20), (0.05, -0.1, 20), (0.05, 0.1, -5)]
)
def test_grains_that_cannot_sink_are_refused(grain, height, warm):
    """No grain, a height below nothing and ice give one sentence, never a time."""
    with pytest.raises(InputProblem, match="must be"):
        soil.settling_seconds(grain, height, warm)
