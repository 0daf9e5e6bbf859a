"""The one error that people read."""

from gardenlib.words import Said, Voice


class InputProblem(ValueError):  # noqa: N818  people read it as a problem, not an error
    """Something that was given cannot be used; the text is one plain sentence.

    Parameters
    ----------
    key : str
        Key of the sentence in the words file, below ``problem.``.
    **values
        What the sentence names: the file, the row, the value, the mend.

    Examples
    --------
    >>> str(InputProblem("fraction_over_one", name="germination_fraction", value=75, as_fraction='0.75'))
    'germination_fraction is 75, but a fraction runs from 0 to 1. Did you mean 0.75 (75 %)?'
    """

    def __init__(self, key: str, **values: object) -> None:
        self.key = f"problem.{key}"
        self.values = values
        super().__init__(Voice().say(self.key, **values))

    @property
    def said(self) -> Said:
        """The same sentence as a part of what is told."""
        return Said(self.key, self.values)

    def in_voice(self, voice: Voice) -> str:
        """Say the same sentence in another language or unit system."""
        return voice.say(self.key, **self.values)
