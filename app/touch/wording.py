"""Dates, people and parts in words, the same on every screen."""

import re
from datetime import date

from app.language import day_text, mark, say
from inspection_rules.item import Item
from inspection_rules.record import Person
from inspection_rules.words import Answer, Door, PartKind, Where

DO_NOT_USE = mark("DO NOT USE")
NOT_YET = "not yet"  # the outlined sign: nobody has looked
LONGEST_LINE = 24  # letters, for the largest type on a phone


def day(value: date | None) -> str:
    """Write a date for people: `12 Oct 2050`; the month as a word, so no order of figures can mislead."""
    return day_text(value) if value else ""


def after_today(span: str) -> str:
    """Write a span of the rules, such as `3 months`, as counted from today."""
    number, unit = span.split()
    if unit == "days":
        return say("{count} days from today", count=number)
    return say("1 month from today") if number == "1" else say("{count} months from today", count=number)


def who(person: Person) -> str:
    """Write a person with the competence they act in."""
    return f"{person.name} · {say(str(person.competence))}"


def part_name(item: Item, part_id: str) -> str:
    """Name a part the way it is called on deck: `end A`, `body`, `connector 2`; empty for the item as a whole."""
    part = next((one for one in item.parts if one.id == part_id), None)
    if part is None:
        return ""
    if part.kind is PartKind.TERMINATION:
        return say("end {end}", end=part.end)
    if part.kind is PartKind.FITTING:
        same = [one.id for one in item.parts if one.fitting is part.fitting]
        name = say(str(part.fitting))
        return f"{name} {same.index(part.id) + 1}" if len(same) > 1 else name
    if part.kind is PartKind.JOINT:
        return say("joint at {place}", place=part.from_a) if part.from_a else say("joint")
    return say("body")


def answer_words(answer: Answer, door: Door | None) -> str:
    """Write an answer; of a hold, what ends it: another look, or to whom it is referred."""
    if answer is Answer.HOLD and door is Door.REFER:
        return say("hold: refer to a competent person")
    if answer is Answer.HOLD and door is Door.LOOK_AGAIN:
        return say("hold: look again")
    return say(str(answer))


def stopped(answer: Answer) -> bool:
    """Whether the answer means: do not use."""
    return answer in (Answer.HOLD, Answer.REMOVE)


def shown_sign(answer: Answer, where: Where) -> str:
    """Return whose sign stands beside an item: what is not here, so cannot be looked at, never looks passed."""
    return answer.value if where is Where.HERE or stopped(answer) else NOT_YET


def station_name(item: Item, part_id: str, station: str) -> str:
    """Name a station in as few words as the spine has room for: a fitting by what it is."""
    part = next((one for one in item.parts if one.id == part_id), None)
    return part_name(item, part_id) if part is not None and part.kind is PartKind.FITTING else say(station)


def place_name(item: Item, part_id: str, station: str) -> str:
    """Name a place on the rope: `end A · marks`; `body` is not said twice."""
    own = part_name(item, part_id)
    return " · ".join(dict.fromkeys(one for one in (own, station_name(item, part_id, station)) if one))


def broken(path: str) -> str:
    """Write a path over several lines, broken after its separators: one long word would be written tiny."""
    lines = [""]
    for piece in re.split(r"(?<=[/\\ -])", path):
        if lines[-1] and len(lines[-1]) + len(piece) > LONGEST_LINE:
            lines.append("")
        lines[-1] += piece
    return "\n".join(lines)
