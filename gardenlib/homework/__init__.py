"""Homework: questions from the class's or the learner's own plot, their keys, and how they are marked."""
