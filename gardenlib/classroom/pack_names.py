"""Names that can be printed, and names of files that no id can lead astray."""

from __future__ import annotations

import re
from collections.abc import Iterable

from gardenlib.class_folder import Learner
from gardenlib.sheets.printing import typefaces
from gardenlib.words import Said


def printed_names(learners: Iterable[Learner]) -> tuple[dict[str, str], list[Said]]:
    """Give each learner's name as it can be printed, and what to say where it is not the name.

    A letter that the typeface lacks does not stop the class: the id is printed, else a line to write the name on.
    """
    learners = list(learners)
    plain = {one.id: (_plain(one.name), _plain(one.id)) for one in learners}
    lacking = _lacking({text for both in plain.values() for text in both})
    names, told = {}, []
    for learner_id, (name, own_id) in plain.items():
        missing = [letters for letters in lacking if letters in name]
        if not missing:
            names[learner_id] = name
        elif not any(letters in own_id for letters in lacking):
            names[learner_id] = own_id
            told.append(Said("pack.name_as_id", {"id": own_id, "letters": " ".join(missing)}))
        else:
            names[learner_id] = ""
            told.append(Said("pack.name_blank", {"letters": " ".join(missing)}))
    return names, told


def _plain(name: str) -> str:
    """Leave out signs that are not printed, such as those that turn the direction of writing."""
    return " ".join("".join(sign for sign in name if sign.isprintable()).split())


def _lacking(texts: Iterable[str]) -> list[str]:
    """Name the letters that a printed page cannot show; all of them come from one look at the typeface."""
    import typst

    foreign = sorted({sign for text in texts for sign in text if not sign.isascii()})
    if not foreign:
        return []
    source = '#set document(title: "-")\n#set text(font: "Cabin")\n#for sign in sys.inputs.signs { [#sign ] }'
    try:
        typst.compile(
            source.encode(), font_paths=typefaces(), sys_inputs={"signs": "".join(foreign)}, pdf_standards="ua-1"
        )
    except typst.TypstError as error:
        found = re.findall(r'the text `"(.+?)"` could not be displayed', error.diagnostic)
        if not found:
            raise
        return list(dict.fromkeys(found))
    return []


def file_name(number: int, learner_id: str) -> str:
    """Name a learner's file by its place and what of the id is safe in a name."""
    safe = re.sub(r"[^A-Za-z0-9]+", "-", learner_id)[:40].strip("-")
    return f"{number:04d}_{safe}.pdf" if safe else f"{number:04d}.pdf"
