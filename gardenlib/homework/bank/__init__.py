"""The skills, one module a page."""

from gardenlib.homework.bank import beds, harvest, pests, season, site, soil, sowing

SKILLS = (
    *site.SKILLS,
    *soil.SKILLS,
    *beds.SKILLS,
    *sowing.SKILLS,
    *pests.SKILLS,
    *harvest.SKILLS,
    *season.SKILLS,
)
