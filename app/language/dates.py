"""A date for people, in the language in use; the month as a word, so no order of figures can mislead."""

from datetime import date

from app.language.speaking import mark, say

MONTHS = (
    mark("Jan"),
    mark("Feb"),
    mark("Mar"),
    mark("Apr"),
    mark("May"),
    mark("Jun"),
    mark("Jul"),
    mark("Aug"),
    mark("Sep"),
    mark("Oct"),
    mark("Nov"),
    mark("Dec"),
)


def day_text(value: date) -> str:
    """Write a date: `12 Oct 2050` in English."""
    return say("{day} {month} {year}", day=value.day, month=say(MONTHS[value.month - 1]), year=value.year)
