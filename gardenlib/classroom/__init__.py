"""The class: packs to print, the day itself, and the pages of the instructor."""
