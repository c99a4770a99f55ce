"""Dates, people and parts in words, the same on every screen."""

from datetime import date

from inspection_rules.record import Item, Person
from inspection_rules.words import Answer, Door, PartKind

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
DO_NOT_USE = "DO NOT USE"


def day(value: date | None) -> str:
    """Write a date for people: `12 Oct 2050`; the month as a word, so no order of figures can mislead."""
    return f"{value.day} {MONTHS[value.month - 1]} {value.year}" if value else ""


def who(person: Person) -> str:
    """Write a person with the competence they act in."""
    return f"{person.name} · {person.competence}"


def part_name(item: Item, part_id: str) -> str:
    """Name a part the way it is called on deck: `end A`, `body`; empty for the item as a whole."""
    part = next((one for one in item.parts if one.id == part_id), None)
    if part is None:
        return ""
    if part.kind is PartKind.TERMINATION:
        return f"end {part.end}"
    return "body" if part.kind is PartKind.BODY else part.id


def answer_words(answer: Answer, door: Door | None) -> str:
    """Write an answer, with the door of a hold."""
    return f"{answer} · {door}" if answer is Answer.HOLD and door else str(answer)


def stopped(answer: Answer) -> bool:
    """Whether the answer means: do not use."""
    return answer in (Answer.HOLD, Answer.REMOVE)


def place_name(item: Item, part_id: str, station: str) -> str:
    """Name a place on the rope: `end A · marks`; `body` is not said twice."""
    return " · ".join(dict.fromkeys(one for one in (part_name(item, part_id), station) if one))
