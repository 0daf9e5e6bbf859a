"""What people read: one keyed file per language, spoken in the class's units."""

from gardenlib.words.voice import Said, Voice, languages, texts

__all__ = ["Said", "Voice", "languages", "texts"]
