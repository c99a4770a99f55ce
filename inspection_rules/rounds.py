"""A round: the set of items looked at together, a kit before a climb or a vessel before arrival, and its one answer.

Every item of the round gets an answer; also one that was not found, lies ashore or is on loan. The round is ready only
when nothing stops it: an item that is not to be used, one nobody found, one nobody looked at, or a use it is not for.
"""

from collections.abc import Mapping
from datetime import date, timedelta
from enum import StrEnum
from typing import Annotated, Protocol, Self

from pydantic import Field, SerializerFunctionWrapHandler, model_serializer, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.case import Use
from inspection_rules.fields import Model, Moment, Name, Text
from inspection_rules.judgement import Ruling
from inspection_rules.record import Person
from inspection_rules.standing import Standing
from inspection_rules.words import Answer, InspectionKind, State, worst

# A look of these kinds answers for its item in a round; a baseline says how an item is made, not that it may be used.
COUNTING = frozenset({InspectionKind.BEFORE_USE, InspectionKind.PERIODIC, InspectionKind.AFTER_INCIDENT})
MOST_ITEMS = 2000


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
        begun: when the first step was made; `at` is when it was signed.
        place: the vessel or kit. purpose: what it is made for, as the person says it.
        expected: ids of the items that belong to the place, in walking order, when the round began.
        met: ids of items that were met there and belong elsewhere, in the order they were met.
        use: what the items are about to do, as far as it was told; each of them is judged for it.
    """

    id: Name
    begun: Moment | None = None
    at: Moment
    utc_offset_minutes: Annotated[int, Field(ge=-14 * 60, le=14 * 60)] = 0
    by: Person
    place: Name
    purpose: Text = ""
    expected: Annotated[tuple[Name, ...], Field(min_length=1, max_length=MOST_ITEMS)]
    met: Annotated[tuple[Name, ...], Field(max_length=MOST_ITEMS)] = ()
    entries: Annotated[tuple[RoundEntry, ...], Field(max_length=2 * MOST_ITEMS)] = ()
    use: Use | None = None

    @model_serializer(mode="wrap")
    def _as_before(self, handler: SerializerFunctionWrapHandler) -> dict[str, object]:
        """Leave out a use that was not told: a round without one is written as it always was."""
        written: dict[str, object] = handler(self)
        if self.use is None:
            written.pop("use", None)
        return written

    @model_validator(mode="after")
    def _whole(self) -> Self:
        named = [entry.item for entry in self.entries]
        if len(set(named)) != len(named):
            raise PydanticCustomError("round", "an item has two entries in one round")
        return self

    @property
    def on(self) -> date:
        """The local date it was signed."""
        return (self.at + timedelta(minutes=self.utc_offset_minutes)).date()

    @property
    def items(self) -> tuple[str, ...]:
        """Ids of all its items: those of the place in walking order, then those that were met."""
        return tuple(dict.fromkeys((*self.expected, *self.met, *(entry.item for entry in self.entries))))

    def entry(self, item: str) -> RoundEntry | None:
        """Return what was said of an item; None when nothing was yet."""
        return next((one for one in self.entries if one.item == item), None)


class Tagged(Protocol):
    """What a round must know of an item itself."""

    @property
    def tag(self) -> str:
        """Its tag."""

    @property
    def description(self) -> str:
        """What it is."""


class RoundLine(Model):
    """What one item adds to the round's answer; `stops` when it is one of the reasons why it is not ready."""

    item: Name
    tag: Text
    description: Text = ""
    answer: Answer | None = None
    sentence: Text
    stops: bool


class RoundSummary(Model):
    """Ready or not, and what stops it first; then every item in walking order."""

    ready: bool
    stops: tuple[RoundLine, ...]
    lines: tuple[RoundLine, ...]

    @property
    def sign(self) -> Answer:
        """The answer whose sign stands beside it: hold where nothing heavier stops it."""
        if self.ready:
            watched = any(line.answer is Answer.WATCH for line in self.lines)
            return Answer.WATCH if watched else Answer.SERVICEABLE
        return worst([Answer.HOLD, *(line.answer for line in self.stops if line.answer is not None)])


def sum_up(made: Round, items: Mapping[str, Tagged], standings: Mapping[str, Standing]) -> RoundSummary:
    """Return a round's answer from where each of its items stands.

    An item that was met without belonging to the place counts too. What is ashore or on loan is not here to be used,
    so it is told and does not stop; what was not found does, and so does what nobody has looked at.
    """
    entries = {entry.item: entry for entry in made.entries}
    lines = tuple(_line(name, entries.get(name), items.get(name), standings.get(name)) for name in made.items)
    stops = tuple(sorted((line for line in lines if line.stops), key=_weight, reverse=True))
    return RoundSummary(ready=not stops, stops=stops, lines=lines)


def shown_answer(made: Round, line: RoundLine) -> Answer | None:
    """Return the answer whose sign stands beside an item in a round's summary.

    What stops the round without being stopped itself, since nobody found it or looked at it, is a hold. What is not
    here to be used has no sign.
    """
    entry = made.entry(line.item)
    if line.stops:
        return Answer.REMOVE if line.answer is Answer.REMOVE else Answer.HOLD
    return line.answer if entry is not None and entry.inspection else None


def stops_by_use_alone(made: Round, line: RoundLine) -> bool:
    """Whether an item stops a round only by the use it is not for: its own answer lets it be used."""
    entry = made.entry(line.item)
    against = entry is not None and entry.not_for_this_use
    return bool(against) and line.stops and line.answer in (Answer.SERVICEABLE, Answer.WATCH)


def _line(name: str, entry: RoundEntry | None, item: Tagged | None, standing: Standing | None) -> RoundLine:
    tag, description = (item.tag, item.description) if item else (name, "")

    def line(sentence: str, *, stops: bool) -> RoundLine:
        answer = standing.answer if standing else None
        return RoundLine(item=name, tag=tag, description=description, answer=answer, sentence=sentence, stops=stops)

    if entry is not None and entry.whereabouts in (Whereabouts.ASHORE, Whereabouts.ON_LOAN):
        return line(f"{entry.whereabouts.capitalize()}; not here to be used.", stops=False)
    if standing is not None and standing.state in (State.CONDEMNED, State.DISPOSED):
        here = "met in this round" if entry is not None and entry.inspection else "still listed here"
        return line(f"{standing.state.capitalize()}, and {here}: take it away.", stops=True)
    if entry is None:
        return line(_and_on_record("Not looked at in this round.", standing), stops=True)
    if entry.whereabouts is Whereabouts.NOT_FOUND:
        return line(_and_on_record("Not found.", standing), stops=True)
    if standing is None or standing.answer in (Answer.HOLD, Answer.REMOVE):
        return line(standing.sentence if standing else "Nothing is on record of it.", stops=True)
    if entry.not_for_this_use:
        return line(f"Not for this use. {entry.not_for_this_use[0].sentence}"[:2000], stops=True)
    return line(standing.sentence, stops=False)


def _and_on_record(sentence: str, standing: Standing | None) -> str:
    """Add what stops the item anyway: finding it, or looking at it, would not be enough.

    Of an item that nobody has ever inspected there is no more to say than that nobody looked.
    """
    if standing is None or standing.latest_on is None or standing.answer not in (Answer.HOLD, Answer.REMOVE):
        return sentence
    return f"{sentence} {standing.sentence}"[:2000]


def _weight(line: RoundLine) -> int:
    return line.answer.severity if line.answer is not None else Answer.HOLD.severity
