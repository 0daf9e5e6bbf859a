"""Page 05, the check of the fold on a big plot: what ten plants from one place tell."""

from __future__ import annotations

from gardenlib.panels.check import Check, Reply
from gardenlib.words import Said

CHECK = Check(
    "05.big.check1",
    lambda session: Said("big.check1_question"),
    lambda session: [
        Reply("clean", Said("big.check1_clean"), False, Said("big.check1_clean_reply")),
        Reply("gate", Said("big.check1_gate"), True, Said("big.check1_gate_reply")),
        Reply("limit", Said("big.check1_limit"), False, Said("big.check1_limit_reply")),
    ],
)
