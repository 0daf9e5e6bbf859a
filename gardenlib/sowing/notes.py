"""What one answer gathers while it is worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from gardenlib.words import Said
from gardenlib.working import Step, Value


@dataclass
class Notes:
    """Steps, assumptions and sources, each once, in the order in which they came up."""

    steps: list[Step] = field(default_factory=list)
    assumptions: list[Said] = field(default_factory=list)
    sources: list[str] = field(default_factory=list)

    def step(self, key: str, expression: str, inputs: Mapping[str, Value], result: Value, source: str) -> None:
        """Keep a step of the working."""
        step = Step(key, expression, inputs, result, source)
        if step not in self.steps:
            self.steps.append(step)
        self.cite(source)

    def say(self, key: str, *cited: str, **values: Any) -> None:
        """Keep an assumption and the sources it leans on."""
        said = Said(key, values)
        if said not in self.assumptions:
            self.assumptions.append(said)
        self.cite(*cited)

    def cite(self, *keys: str) -> None:
        """Keep the keys of sources."""
        self.sources.extend(key for key in dict.fromkeys(keys) if key not in self.sources)

    def parts(self) -> dict[str, Any]:
        """Give what every answer has."""
        return {
            "steps": tuple(self.steps),
            "assumptions": tuple(self.assumptions),
            "sources": tuple(self.sources),
        }
