"""A round: the set of items looked at together, a kit before a climb or a vessel before arrival, and its one answer.

Every item of the round gets an answer; also one that was not found, lies ashore or is on loan. The round is ready only
when nothing stops it: an item that is not to be used, one nobody found, one nobody looked at, or a use it is not for.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.fields import Model, Moment, Name, Text
from inspection_rules.judgement import Ruling
from inspection_rules.record import Item, Person
from inspection_rules.standing import Standing
from inspection_rules.words import Answer, State


class Whereabouts(StrEnum):
    """What became of an item in a round."""

    INSPECTED = "inspected"
    NOT_FOUND = "not found"
    ASHORE = "ashore"
    ON_LOAN = "on loan"


class RoundEntry(Model):
    """One item's place in a round.

    Attributes:
        inspection: id of the look that was made of it; needed when it was inspected, and only then.
        not_for_this_use: what that look's judgement said against the use the round is made for.
    """

    item: Name
    whereabouts: Whereabouts
    inspection: Text = ""
    not_for_this_use: tuple[Ruling, ...] = ()
    note: Text = ""

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if (self.whereabouts is Whereabouts.INSPECTED) != bool(self.inspection):
            raise PydanticCustomError("round", "an inspected item names its 'inspection', and no other does")
        return self


class Round(Model):
    """A round as it was made.

    Attributes:
        place: the vessel or kit. purpose: what it is made for, as the person says it.
        expected: ids of the items that belong to the place, in walking order, when the round began.
    """

    id: Name
    at: Moment
    utc_offset_minutes: Annotated[int, Field(ge=-14 * 60, le=14 * 60)] = 0
    by: Person
    place: Name
    purpose: Text = ""
    expected: Annotated[tuple[Name, ...], Field(min_length=1, max_length=2000)]
    entries: Annotated[tuple[RoundEntry, ...], Field(max_length=2000)] = ()

    @model_validator(mode="after")
    def _whole(self) -> Self:
        named = [entry.item for entry in self.entries]
        if len(set(named)) != len(named):
            raise PydanticCustomError("round", "an item has two entries in one round")
        return self


@dataclass(frozen=True, slots=True)
class RoundLine:
    """What one item adds to the round's answer; `stops` when it is one of the reasons why it is not ready."""

    item: str
    tag: str
    description: str
    answer: Answer | None
    sentence: str
    stops: bool


@dataclass(frozen=True, slots=True)
class RoundSummary:
    """Ready or not, and what stops it first; then every item in walking order."""

    ready: bool
    stops: tuple[RoundLine, ...]
    lines: tuple[RoundLine, ...]


def sum_up(made: Round, items: Mapping[str, Item], standings: Mapping[str, Standing]) -> RoundSummary:
    """Return a round's answer from where each of its items stands.

    An item that was met without belonging to the place counts too. What is ashore or on loan is not here to be used,
    so it is told and does not stop; what was not found does, and so does what nobody has looked at.
    """
    entries = {entry.item: entry for entry in made.entries}
    names = dict.fromkeys((*made.expected, *entries))
    lines = tuple(_line(name, entries.get(name), items.get(name), standings.get(name)) for name in names)
    stops = tuple(sorted((line for line in lines if line.stops), key=_weight, reverse=True))
    return RoundSummary(not stops, stops, lines)


def _line(name: str, entry: RoundEntry | None, item: Item | None, standing: Standing | None) -> RoundLine:
    tag, description = (item.tag, item.description) if item else (name, "")

    def line(sentence: str, *, stops: bool) -> RoundLine:
        return RoundLine(name, tag, description, standing.answer if standing else None, sentence, stops)

    if entry is not None and entry.whereabouts in (Whereabouts.ASHORE, Whereabouts.ON_LOAN):
        return line(f"{entry.whereabouts.capitalize()}; not here to be used.", stops=False)
    if standing is not None and standing.state in (State.CONDEMNED, State.DISPOSED):
        here = "met in this round" if entry is not None and entry.inspection else "still listed here"
        return line(f"{standing.state.capitalize()}, and {here}: take it away.", stops=True)
    if entry is None:
        return line("Not looked at in this round.", stops=True)
    if entry.whereabouts is Whereabouts.NOT_FOUND:
        return line("Not found.", stops=True)
    if standing is None or standing.answer in (Answer.HOLD, Answer.REMOVE):
        return line(standing.sentence if standing else "Nothing is on record of it.", stops=True)
    if entry.not_for_this_use:
        return line(f"Not for this use. {entry.not_for_this_use[0].sentence}", stops=True)
    return line(standing.sentence, stops=False)


def _weight(line: RoundLine) -> int:
    return line.answer.severity if line.answer is not None else Answer.HOLD.severity
