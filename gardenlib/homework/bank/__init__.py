"""The skills, one module a page."""
