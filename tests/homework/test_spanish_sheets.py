"""A class that speaks Spanish: its sheets, its key and its replies, as they are printed."""

import re
import shutil
import subprocess
from datetime import date
from pathlib import Path

import pytest

from gardenlib import class_folder
from gardenlib.carried import carried
from gardenlib.classroom.pack_print import pack
from gardenlib.homework import PackRecord, ground_for, set_question, sheet_record
from gardenlib.homework.replies import mark_pack
from gardenlib.words import Voice

LEARNERS = ["L01,Inés Ñandú,es,plot-1", "L02,José,es,plot-2"]
# Words of English sentences that no formula has and that are no Spanish words.
ENGLISH = re.compile(
    r"\b(?:the|your|you|answer|name|which|how|many|from|to|with|look|again|side|print|write|wrote|question|reply"
    r"|sheet|page|that|this|is|are|it|needs?|holds|May|June|July|pounds?|feet|inch|inches|gallons?)\b",
    re.IGNORECASE,
)


def _text(path):
    told = subprocess.run(["pdftotext", path, "-"], check=True, capture_output=True).stdout.decode()
    return re.sub(r"\s+", " ", told.replace("\u00ad\n", ""))


def _english(text):
    return sorted({found.lower() for found in ENGLISH.findall(text)})


@pytest.fixture(scope="module")
def packs(tmp_path_factory):
    """Print a pack of each kind for a class whose learners read Spanish."""
    folder = tmp_path_factory.mktemp("es")
    klass = Path(shutil.copytree(carried("data_demo"), folder / "klass"))
    settings = (klass / "class.toml").read_text("utf-8")
    settings = settings.replace('["en"]', '["es", "en"]').replace('"When to sow"', '"Nuestro suelo"')
    (klass / "class.toml").write_text(settings.replace("04_sowing_calendar", "02_soil"), "utf-8")
    made = {}
    for kind, rows in (("class", LEARNERS[:1]), ("plot", LEARNERS[:1]), ("pair", LEARNERS)):
        (klass / "learners.csv").write_text("\n".join(["id,display_name,language,plot", *rows, ""]), "utf-8")
        made[kind] = pack(klass, folder / kind, today=date(2027, 2, 1), session=2, kind=kind).folder
    return made


@pytest.mark.parametrize("kind", ["class", "plot", "pair"])
def test_a_sheet_is_in_spanish(packs, kind):
    """Heads, questions and feet are Spanish with their accents, and numbers stand with the point."""
    (sheet,) = (packs[kind] / "learners").iterdir()
    text, record = _text(sheet), PackRecord.read(packs[kind] / "key" / "record.json").sheets[0]
    assert _english(text) == []
    for said in ("Nombre: Inés Ñandú", "cara 1", "¿Se imprimió al 100 %?", "La clase, el lugar y los números"):
        assert said in text
    assert all(question.ask[:40] in text for question in record.questions)
    assert re.search(r"\d\.\d", text)
    assert not re.search(r"\d,\d(?!\d\d)", text)


def test_the_key_is_in_spanish(packs):
    """The key names the sheet, the answers and the replies in Spanish; only the titles of sources are English."""
    folder = packs["class"] / "key"
    text, answers = _text(folder / "key_1.pdf"), _text(folder / "self_check_1.pdf")
    assert "Clave: Nuestro suelo" in text
    assert _english(answers) == []
    for blank in PackRecord.read(folder / "record.json").sheets[0].blanks().values():
        assert f"{blank.id} {blank.shown}" in answers
        assert f"{blank.id}: {blank.shown}" in text
        assert all(f"Si dice {slip.shown}: {slip.reply[:20]}" in text for slip in blank.slips)


def test_a_reply_is_in_spanish(tmp_path):
    """A slip, an answer that is asked back and an empty one are replied to in Spanish."""
    ground = ground_for(class_folder.read(carried("data_demo")), code="A7", year=2027, voice=Voice(language="es"))
    sheet = sheet_record([set_question(f"{skill}.4", ground) for skill in ("02.bag", "03.fit", "02.jar")], ground)
    for part in ("key", "handed_in"):
        (tmp_path / part).mkdir()
    record = PackRecord(library="0", class_title="inventada", made_on=date(2027, 2, 1), sheets=(sheet,))
    record.save(tmp_path / "key" / "record.json")
    bag, fit, _ = sheet.blanks().values()
    slip = next(slip for slip in bag.slips if slip.id == "length_for_area")
    rows = f"sheet_code,blank_id,answer\nA7,{bag.id},{slip.shown}\nA7,{fit.id},3 o 4\n"
    (tmp_path / "handed_in" / "answers.csv").write_text(rows, "utf-8")
    (name,) = mark_pack(tmp_path).replies
    text = _text(tmp_path / "marked" / name)
    assert _english(text) == []
    for said in ("Comentarios para la hoja A7", slip.reply, "Usted escribió 3 o 4.", "Falta 1 respuesta."):
        assert said in text
