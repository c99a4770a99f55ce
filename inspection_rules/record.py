"""The record vocabulary: what an item is, what was seen and measured on it, by whom, and the `Case`.

Frozen and validated once, at the edge. One JSON document with the shape of `Case` is everything a
judgement needs. Quantities are texts with their unit (`"24 mm"`); times carry their offset.
"""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from typing import Annotated, Any, Self

from pydantic import (
    AwareDatetime,
    BaseModel,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    StringConstraints,
    field_validator,
    model_validator,
)
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from inspection_rules.quantity import Angle, Dimension, Quantity, QuantityError, parse, parse_angle
from inspection_rules.words import (
    BASELINE_KINDS,
    Competence,
    Construction,
    Duty,
    Fibre,
    InspectionKind,
    ItemKind,
    Method,
    Moisture,
    PartKind,
    Seen,
    Service,
    SpliceKind,
    Tension,
    Thimble,
)

Text = Annotated[str, StringConstraints(strip_whitespace=True, max_length=2000)]
Name = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=120)]
Hash = Annotated[str, StringConstraints(pattern="^[0-9a-f]{64}$")]


class Model(BaseModel):
    """Base of every record: frozen, no unknown fields, no silent conversions of numbers to texts."""

    model_config = ConfigDict(frozen=True, extra="forbid", str_strip_whitespace=True)

    @model_validator(mode="after")
    def _storable(self) -> Self:
        # A record body is stored as UTF-8 text for ever: PostgreSQL takes no NUL, UTF-8 no lone surrogate.
        for name, value in self:
            if isinstance(value, str) and ("\x00" in value or any("\ud800" <= c <= "\udfff" for c in value)):
                raise PydanticCustomError("text", "{name} holds a character that cannot be stored", {"name": name})
        return self


class _Written:
    """Pydantic annotation: a text that `parse` or `parse_angle` reads, kept as it was written."""

    def __init__(self, dimension: Dimension | None, *, signed: bool = False) -> None:
        self.dimension, self.signed = dimension, signed

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(
            self._read, serialization=core_schema.plain_serializer_function_ser_schema(str)
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        if self.dimension is None:
            return {
                "type": "string",
                "description": "an angle with its datum",
                "examples": ["60° from horizontal"],
            }
        examples = {
            "length": "24 mm",
            "force": "24 kN",
            "temperature": "60 °C",
            "fraction": "10 %",
            "count": "4",
        }
        return {
            "type": "string",
            "description": f"a {self.dimension} with its unit, as written",
            "examples": [examples[self.dimension]],
        }

    def _read(self, value: object) -> Quantity | Angle:
        if isinstance(value, Quantity | Angle):
            value = value.text
        try:
            if self.dimension is None:
                return parse_angle(str(value))
            return parse(value, self.dimension, signed=self.signed)  # type: ignore[arg-type]
        except QuantityError as error:
            raise PydanticCustomError("quantity", "{why}", {"why": str(error)}) from None


Length = Annotated[Quantity, _Written("length")]
Force = Annotated[Quantity, _Written("force")]
Temperature = Annotated[Quantity, _Written("temperature")]
SlingAngle = Annotated[Angle, _Written(None)]


class _AnyQuantity(_Written):
    """A reading's quantity: which dimension it must have is the observation's business."""

    def __init__(self) -> None:
        super().__init__("length")

    def _read(self, value: object) -> Quantity:
        try:
            return parse(value.text if isinstance(value, Quantity) else value, signed=True)  # type: ignore[arg-type]
        except QuantityError as error:
            raise PydanticCustomError("quantity", "{why}", {"why": str(error)}) from None

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {
            "type": "string",
            "description": "a number with its unit, as written",
            "examples": ["24 mm", "4"],
        }


AnyQuantity = Annotated[Quantity, _AnyQuantity()]


class Person(Model):
    """Who acts, and with what competence under the regime."""

    name: Name
    competence: Competence


class Part(Model):
    """What is inspected on an item: the body, a termination at its whipped-in end A or B, a fitting.

    The splice's specification stands here, since a splice keeps its own: the bury it must have, who says
    so, and where its reference marks were put.
    """

    id: Name
    kind: PartKind
    end: Annotated[str, StringConstraints(pattern="^[AB]$")] | None = None
    splice: SpliceKind | None = None
    thimble: Thimble = Thimble.NONE
    lock_stitched: bool = False
    chafe_gear: bool = False
    required_bury: Length | None = None
    required_by: Text = ""
    marks_at: Length | None = None

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if self.kind is PartKind.TERMINATION and (self.splice is None or self.end is None):
            raise PydanticCustomError("part", "a termination needs its 'splice' and its 'end', A or B")
        if self.kind is not PartKind.TERMINATION and self.splice is not None:
            raise PydanticCustomError("part", "only a termination has a 'splice'")
        if self.required_bury is not None and not self.required_by:
            raise PydanticCustomError("part", "'required_bury' needs 'required_by': the instruction it comes from")
        return self


class Item(Model):
    """One tagged thing: a line, a sling, a lanyard.

    `diameter` is the nominal one; a rope named by its nominal circumference gives `circumference`, which the
    trade table (about 3 × diameter) converts, never π. Dates are local.
    """

    id: Name
    tag: Name
    description: Text = ""
    place: Text = ""
    kind: ItemKind
    duty: Duty
    fibre: Fibre
    construction: Construction | None = None
    diameter: Length | None = None
    circumference: Length | None = None
    length: Length | None = None
    working_load_limit: Force | None = None
    service: Service = Service.NORMAL
    made: date | None = None
    parts: Annotated[tuple[Part, ...], Field(min_length=1, max_length=24)]

    @model_validator(mode="after")
    def _whole(self) -> Self:
        ids = [part.id for part in self.parts]
        if len(set(ids)) != len(ids):
            raise PydanticCustomError("item", "two parts have the same 'id'")
        roped = any(p.splice not in (None, SpliceKind.SEWN_EYE) for p in self.parts)
        if roped and self.diameter is None and self.circumference is None:
            raise PydanticCustomError("item", "a spliced rope needs its nominal 'diameter' or 'circumference'")
        for name in ("diameter", "circumference"):
            size: Quantity | None = getattr(self, name)
            if size is not None and size.value == 0:
                raise PydanticCustomError("item", "'{name}' is zero", {"name": name})
        return self

    def part(self, part_id: str) -> Part:
        """Return the part with this id.

        Raises:
            KeyError: the item has no such part.
        """
        for part in self.parts:
            if part.id == part_id:
                return part
        raise KeyError(part_id)

    @property
    def terminations(self) -> tuple[Part, ...]:
        """The parts that are terminations."""
        return tuple(part for part in self.parts if part.kind is PartKind.TERMINATION)


class Dropped(Model):
    """A reading that does not count, and why; it stays in the record."""

    value: AnyQuantity
    reason: Name


class Entry(Model):
    """What readings and findings share.

    Attributes:
        observation: id of the observation it answers (`observations.toml`).
        part: id of the part; empty for the item as a whole.
        pictures: hashes of the photographs taken for it.
    """

    observation: Name
    part: Text = ""
    pictures: tuple[Hash, ...] = ()
    note: Text = ""


class Reading(Entry):
    """A number read on one part, with the method and the state it was read in.

    Attributes:
        values: every reading of this visit; their mean is judged.
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
        reason: why it could not be examined.
    """

    seen: Seen
    conditions: tuple[Name, ...] = ()
    reason: Text = ""

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if (self.seen is Seen.PRESENT) != bool(self.conditions):
            raise PydanticCustomError(
                "finding", "'conditions' names what was seen: needed when 'seen' is present, and only then"
            )
        if self.seen is Seen.NOT_EXAMINED and not self.reason:
            raise PydanticCustomError("finding", "say in 'reason' why it could not be examined")
        return self


class Inspection(Model):
    """One visit to one item: who, when, why, and everything seen and measured.

    The three baselines (as made, bedded in, as found) are inspections of those kinds.
    """

    id: Name
    item: Name
    kind: InspectionKind
    at: AwareDatetime
    utc_offset_minutes: Annotated[int, Field(ge=-14 * 60, le=14 * 60)] = 0
    by: Person
    readings: Annotated[tuple[Reading, ...], Field(max_length=400)] = ()
    findings: Annotated[tuple[Finding, ...], Field(max_length=400)] = ()
    pictures: tuple[Hash, ...] = ()
    note: Text = ""

    @field_validator("at")
    @classmethod
    def _utc(cls, value: datetime) -> datetime:
        return value.astimezone(UTC)

    @model_validator(mode="after")
    def _whole(self) -> Self:
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

    @property
    def on(self) -> date:
        """The local date of the visit."""
        return (self.at + timedelta(minutes=self.utc_offset_minutes)).date()

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

    def all_pictures(self) -> Iterator[Hash]:
        """Yield the hash of every picture the inspection names."""
        yield from self.pictures
        for one in self.entries:
            yield from one.pictures


class Use(Model):
    """What the item is about to do; rulings on it leave the item's own answer alone.

    Attributes:
        pin_diameter: what the eye will bear on.
        eye_length: inside length of the eye laid flat, throat to the far inside of the eye.
        leg_angle: with its datum.
    """

    pin_diameter: Length | None = None
    eye_length: Length | None = None
    leg_angle: SlingAngle | None = None


class Site(Model):
    """What the organisation has set for itself.

    Attributes:
        slip_action: the slip at which a splice is no longer serviceable whatever the doubt.
    """

    slip_action: Length | None = None


class Case(Model):
    """Everything one judgement needs, and nothing it does not.

    Attributes:
        on: the local date the judgement speaks for.
        inspection: the one being judged.
        baselines: the as made, bedded in and as found inspections of the item, in any order.
        earlier: the other inspections before this one, in any order.
        regimes: the bodies of rules the organisation answers to; common practice always counts.
    """

    on: date
    item: Item
    inspection: Inspection
    baselines: tuple[Inspection, ...] = ()
    earlier: tuple[Inspection, ...] = ()
    use: Use | None = None
    regimes: tuple[Name, ...] = ()
    site: Site = Site()

    @model_validator(mode="after")
    def _whole(self) -> Self:
        for one in self.baselines:
            if one.kind not in BASELINE_KINDS:
                raise PydanticCustomError(
                    "case",
                    "baselines: {id} is '{kind}', which is no baseline",
                    {"id": one.id, "kind": one.kind.value},
                )
        for one in self.earlier:
            if one.kind in BASELINE_KINDS:
                raise PydanticCustomError("case", "earlier: {id} is a baseline; put it there", {"id": one.id})
        for one in (self.inspection, *self.baselines, *self.earlier):
            self._check_inspection(one)
        if self.inspection.on > self.on:
            raise PydanticCustomError("case", "'on' is before the inspection's own date")
        return self

    def _check_inspection(self, one: Inspection) -> None:
        if one.item != self.item.id:
            raise PydanticCustomError(
                "case", "inspection {id} is of another item, {item}", {"id": one.id, "item": one.item}
            )
        if one.at > self.inspection.at:
            raise PydanticCustomError("case", "inspection {id} is later than the one being judged", {"id": one.id})
        known = {"", *(part.id for part in self.item.parts)}
        for entry in one.entries:
            if entry.part not in known:
                raise PydanticCustomError(
                    "case",
                    "inspection {id}: {observation} is of part '{part}', which the item does not have",
                    {"id": one.id, "observation": entry.observation, "part": entry.part},
                )

    @property
    def history(self) -> tuple[Inspection, ...]:
        """Baselines, earlier inspections and the one being judged, oldest first."""
        past = sorted((*self.baselines, *self.earlier), key=lambda one: (one.at, one.id))
        return (*past, self.inspection)

    def baseline(self, kind: InspectionKind) -> Inspection | None:
        """Return the latest baseline of this kind, the inspection being judged included."""
        found = [one for one in self.history if one.kind is kind]
        return found[-1] if found else None


def mean(values: tuple[Quantity, ...], unit: str) -> Fraction:
    """Return the exact mean of several quantities in one unit."""
    return sum((value.to(unit) for value in values), Fraction(0)) / len(values)
