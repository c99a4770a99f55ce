"""The `Case`: one JSON document with everything a judgement needs, and nothing it does not."""

from fractions import Fraction
from typing import Annotated, Self

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.events import Acceptance, WorkDone
from inspection_rules.fields import Day, Force, Length, Model, Name, SlingAngle, Temperature
from inspection_rules.item import Item
from inspection_rules.quantity import Quantity
from inspection_rules.record import Inspection
from inspection_rules.words import BASELINE_KINDS, COMPETENT, Chemical, Hitch, InspectionKind, Moisture, PartKind


class Use(Model):
    """What the item is about to do; rulings on it leave the item's own answer alone.

    Attributes:
        pin_diameter: what the eye will bear on.
        eye_length: inside length of the eye laid flat, throat to the far inside of the eye.
        load: the whole load of this lift.
        legs: how many legs carry it; the item's own number where it is not said.
        leg_angle: with its datum.
        hitch: how the sling goes round the load.
        persons: whether a person is raised, lowered or held by it.
        hottest, coldest: what the rope will meet.
        chemicals: what it will meet.
        moisture: its state in use.
    """

    pin_diameter: Length | None = None
    eye_length: Length | None = None
    load: Force | None = None
    legs: Annotated[int, Field(ge=1, le=4)] | None = None
    leg_angle: SlingAngle | None = None
    hitch: Hitch | None = None
    persons: bool = False
    hottest: Temperature | None = None
    coldest: Temperature | None = None
    chemicals: tuple[Chemical, ...] = ()
    moisture: Moisture | None = None

    @property
    def told(self) -> tuple[str, ...]:
        """The names of what was said; nothing is judged of the rest. That no person is held by it cannot be said."""
        return tuple(name for name in type(self).model_fields if getattr(self, name) not in (None, (), False))


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
        accepted: conditions a competent person accepted. work: what was done to the item.
        regimes: the bodies of rules the organisation answers to; common practice always counts.
    """

    on: Day
    item: Item
    inspection: Inspection
    baselines: tuple[Inspection, ...] = ()
    earlier: tuple[Inspection, ...] = ()
    accepted: tuple[Acceptance, ...] = ()
    work: tuple[WorkDone, ...] = ()
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
        for record in (*self.accepted, *self.work):
            if record.item != self.item.id:
                raise PydanticCustomError(
                    "case", "record {id} is of another item, {item}", {"id": record.id, "item": record.item}
                )
        if self.inspection.on > self.on:
            raise PydanticCustomError(
                "case",
                "'on' is {on}, before the date of the inspection judged, {id} of {day}",
                {"on": self.on.isoformat(), "id": self.inspection.id, "day": self.inspection.on.isoformat()},
            )
        ids = [one.id for one in (self.inspection, *self.baselines, *self.earlier)]
        if len(set(ids)) != len(ids):
            twice = next(name for name in ids if ids.count(name) > 1)
            raise PydanticCustomError("case", "inspection {id} stands twice; keep one", {"id": twice})
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

    def since_made(self, part: str) -> tuple[Inspection, ...]:
        """Return the history of a part since it was last made: from the last as-made record that speaks of it.

        Only a competent person's record makes a part new, and never the rope between the splices: that is as old as
        the item.
        """
        visits = self.history
        if part and self.item.part(part).kind is PartKind.BODY:
            return visits
        made = [
            index
            for index, one in enumerate(visits)
            if one.kind is InspectionKind.AS_MADE
            and one.by.competence in COMPETENT
            and any(entry.part == part for entry in one.entries)
        ]
        return visits[made[-1] :] if made else visits


def mean(values: tuple[Quantity, ...], unit: str) -> Fraction:
    """Return the exact mean of several quantities in one unit."""
    return sum((value.to(unit) for value in values), Fraction(0)) / len(values)
