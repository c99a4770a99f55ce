"""What was seen and measured on an item, by whom.

Frozen and validated once, at the edge. Quantities are texts with their unit (`"24 mm"`); times carry their
offset. `case.py` puts these together for one judgement.
"""

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Annotated, Self

from pydantic import Field, SerializerFunctionWrapHandler, model_serializer, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.fields import AnyQuantity, Hash, Length, Model, Moment, Name, Text
from inspection_rules.pictures import PictureNote
from inspection_rules.words import (
    Competence,
    InspectionKind,
    Method,
    Moisture,
    Seen,
    Tension,
)


class Person(Model):
    """Who acts, and with what competence under the regime."""

    name: Name
    competence: Competence


class Dropped(Model):
    """A reading that does not count, and why; it stays in the record."""

    value: AnyQuantity
    reason: Name


class Entry(Model):
    """What readings and findings share.

    Attributes:
        observation: id of the observation it answers (`observations/*.toml`).
        part: id of the part; empty for the item as a whole.
        places: where along the rope it is, from end A; of several damages, one for each, in the order of the values.
        pictures: hashes of the photographs taken for it.
    """

    observation: Name
    part: Text = ""
    places: Annotated[tuple[Length, ...], Field(max_length=20)] = ()
    pictures: tuple[Hash, ...] = ()
    note: Text = ""


class Reading(Entry):
    """A number read on one part, with the method and the state it was read in.

    Attributes:
        values: every reading of this visit; their mean is judged. Where the observation is of damages, each value is
            one damage: the worst is judged, and together they may add up.
        u: standard uncertainty of one reading from the site's own measurement study, with `u_study` naming
            the study; without one the tool's default holds.
    """

    values: Annotated[tuple[AnyQuantity, ...], Field(min_length=1, max_length=20)]
    method: Method
    tension: Tension = Tension.HAND_TAUT
    moisture: Moisture = Moisture.DRY
    u: Length | None = None
    u_study: Text = ""
    dropped: tuple[Dropped, ...] = ()

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if len({value.dimension for value in self.values}) != 1:
            raise PydanticCustomError("reading", "'values' measure different things")
        if self.u is not None and self.u.value == 0:
            raise PydanticCustomError("reading", "'u' is zero; no reading of a rope is without doubt")
        if self.u is not None and not self.u_study:
            raise PydanticCustomError("reading", "'u' needs 'u_study': the measurement study it comes from")
        return self

    @property
    def state(self) -> tuple[Tension, Moisture]:
        """Readings are compared only in the same state."""
        return self.tension, self.moisture


class Finding(Entry):
    """The answer to one condition question about one part.

    Attributes:
        seen: absent, present, hidden by design (its substitute is a finding of its own), or could not be
            examined.
        conditions: what was seen, by the observation's own condition ids; not empty exactly when present.
        accepted: ids of the accepted conditions this is, no bigger than they were accepted.
        reason: why it could not be examined.
    """

    seen: Seen
    conditions: tuple[Name, ...] = ()
    accepted: Annotated[tuple[Name, ...], Field(max_length=10)] = ()
    reason: Annotated[Text, Field(max_length=300)] = ""

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if (self.seen is Seen.PRESENT) != bool(self.conditions):
            raise PydanticCustomError(
                "finding", "'conditions' names what was seen: needed when 'seen' is present, and only then"
            )
        if self.accepted and self.seen is not Seen.PRESENT:
            raise PydanticCustomError("finding", "only what is present can be as it was accepted: 'accepted'")
        if self.seen is Seen.NOT_EXAMINED and not self.reason:
            raise PydanticCustomError("finding", "say in 'reason' why it could not be examined")
        return self


class Dated(Model):
    """What every record of something done to an item has: its id, the item, when, where on the clock, by whom.

    `at` is kept in UTC; `utc_offset_minutes` gives the local clock then, and so the local date.
    """

    id: Name
    item: Name
    at: Moment
    utc_offset_minutes: Annotated[int, Field(ge=-14 * 60, le=14 * 60)] = 0
    by: Person

    @property
    def on(self) -> date:
        """The local date."""
        return (self.at + timedelta(minutes=self.utc_offset_minutes)).date()


class Inspection(Dated):
    """One visit to one item: who, when, why, and everything seen and measured.

    The three baselines (as made, bedded in, as found) are inspections of those kinds.

    Attributes:
        noted_pictures: what is said of single pictures: their view, and what was laid over them.
    """

    kind: InspectionKind
    readings: Annotated[tuple[Reading, ...], Field(max_length=400)] = ()
    findings: Annotated[tuple[Finding, ...], Field(max_length=400)] = ()
    pictures: tuple[Hash, ...] = ()
    note: Text = ""
    noted_pictures: Annotated[tuple[PictureNote, ...], Field(max_length=200)] = ()

    @model_serializer(mode="wrap")
    def _as_before(self, handler: SerializerFunctionWrapHandler) -> dict[str, object]:
        """Leave out what is empty and came later: an inspection without it is written as it always was."""
        written: dict[str, object] = handler(self)
        if not self.noted_pictures:
            written.pop("noted_pictures", None)
        return written

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if len({one.picture for one in self.noted_pictures}) != len(self.noted_pictures):
            raise PydanticCustomError("inspection", "a picture is noted twice; put all its markings into one note")
        groups: tuple[tuple[Entry, ...], ...] = (self.readings, self.findings)
        for what in groups:
            keys = [(one.part, one.observation) for one in what]
            if len(set(keys)) != len(keys):
                twice = next(key for key in keys if keys.count(key) > 1)
                raise PydanticCustomError(
                    "inspection",
                    "{observation} of part '{part}' is answered twice; put all readings into one 'values'",
                    {"observation": twice[1], "part": twice[0]},
                )
        return self

    def reading(self, part: str, observation: str) -> Reading | None:
        """Return the reading of this observation on this part, if one was taken."""
        return next((r for r in self.readings if (r.part, r.observation) == (part, observation)), None)

    def finding(self, part: str, observation: str) -> Finding | None:
        """Return the finding of this observation on this part, if one was made."""
        return next((f for f in self.findings if (f.part, f.observation) == (part, observation)), None)

    @property
    def entries(self) -> tuple[Entry, ...]:
        """All readings and findings."""
        return (*self.readings, *self.findings)

    def noted(self, picture: str) -> PictureNote | None:
        """Return what is said of a picture, if anything."""
        return next((one for one in self.noted_pictures if one.picture == picture), None)

    def all_pictures(self) -> Iterator[Hash]:
        """Yield the hash of every picture the inspection names."""
        yield from self.pictures
        for one in self.entries:
            yield from one.pictures
