"""The record vocabulary: what an item is, what was seen and measured on it, by whom, and what was done.

Frozen and validated once, at the edge. Quantities are texts with their unit (`"24 mm"`); times carry their
offset. `case.py` puts these together for one judgement.
"""

from collections.abc import Iterator
from datetime import date, timedelta
from fractions import Fraction
from typing import Annotated, Any, Self

from pydantic import Field, SerializerFunctionWrapHandler, StringConstraints, model_serializer, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.fields import AnyQuantity, Day, Force, Hash, Length, Model, Moment, Name, Text
from inspection_rules.mending import MENDS
from inspection_rules.pictures import PictureNote
from inspection_rules.words import (
    COMPETENT,
    JOINTS,
    SPLICED,
    UNSPLICED,
    Competence,
    Construction,
    CoverLoad,
    DecisionKind,
    Duty,
    Fibre,
    FittingKind,
    Hitch,
    InspectionKind,
    ItemKind,
    Layout,
    Mend,
    Method,
    Moisture,
    PartKind,
    Seen,
    Service,
    SpliceKind,
    Tension,
    Thimble,
    Where,
    Work,
)

SMALLEST_ROPE_MM, LARGEST_ROPE_MM = 1, 500


class Person(Model):
    """Who acts, and with what competence under the regime."""

    name: Name
    competence: Competence


class Part(Model):
    """What is inspected on an item: the body, a termination at its whipped-in end A or B, a joint, a fitting.

    The splice's specification stands here, since a splice keeps its own: the bury it must have, who says
    so, and where its reference marks were put.

    Attributes:
        required_core_bury: of a double-braid eye, the bury its core's tail must have; `required_bury` is then its
            cover's.
        tails_buried: whether a tucked splice's strand tails are tapered and buried instead of standing out.
        layout: the method it says it was made by; empty for any other.
        from_a: where a joint lies, from end A.
        fitting: what a fitting is.
        throat_opening, thickness: a hook's opening when new, and a fitting's thickness when new where it wears.
    """

    id: Name
    kind: PartKind
    end: Annotated[str, StringConstraints(pattern="^[AB]$")] | None = None
    splice: SpliceKind | None = None
    thimble: Thimble = Thimble.NONE
    lock_stitched: bool = False
    chafe_gear: bool = False
    required_bury: Length | None = None
    required_core_bury: Length | None = None
    required_by: Text = ""
    marks_at: Length | None = None
    tails_buried: bool = False
    layout: Layout | None = None
    from_a: Length | None = None
    fitting: FittingKind | None = None
    throat_opening: Length | None = None
    thickness: Length | None = None

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if self.kind is PartKind.TERMINATION and (self.splice is None or self.end is None):
            raise PydanticCustomError("part", "a termination needs its 'splice' and its 'end', A or B")
        if self.kind is PartKind.TERMINATION and self.splice in JOINTS:
            raise PydanticCustomError("part", "a short or end-to-end splice joins two lengths: its kind is 'joint'")
        if self.kind is PartKind.JOINT and self.splice not in JOINTS:
            raise PydanticCustomError("part", "a joint needs its 'splice': tucked short or end-to-end")
        if self.kind not in SPLICED and self.splice is not None:
            raise PydanticCustomError("part", "only a termination or a joint has a 'splice'")
        if (self.kind is PartKind.FITTING) != (self.fitting is not None):
            raise PydanticCustomError("part", "a fitting needs 'fitting': what it is; no other part has one")
        needs_source = self.required_bury is not None or self.required_core_bury is not None
        if needs_source and not self.required_by:
            raise PydanticCustomError("part", "'required_bury' needs 'required_by': the instruction it comes from")
        return self


class Rated(Model):
    """What the tag says it may carry in one hitch."""

    hitch: Hitch
    force: Force


class Instruction(Model):
    """A maker's written instruction that lets a worn or cut item go to a competent person instead of out of service.

    Attributes:
        rules: ids of the rules it speaks of; only rules on wear and cuts yield to it, and only from remove to hold.
        document: title, edition and page.
        reason: why it applies to this item.
    """

    rules: Annotated[tuple[Name, ...], Field(min_length=1, max_length=20)]
    document: Name
    reason: Annotated[Text, Field(min_length=1)]


class Item(Model):
    """One tagged thing: a line, a sling, a lanyard.

    `diameter` is the nominal one; a rope named by its nominal circumference gives `circumference`, which the
    trade table (about 3 × diameter) converts, never π. Dates are local.

    Attributes:
        strands: how many load-bearing strands the rope has, where its construction does not say.
        cover_load: for a rope with a cover, how much of the load that carries.
        continuous: whether it stays under tension all the time, as a mooring that is never slacked.
        width, thickness: of a web sling or webbing lanyard; the thickness is of all plies.
        legs: how many legs a sling has.
        working_load_limit: of one leg, straight. `rated`: what its tag says for other hitches.
        breaking_force: the minimum breaking force on its certificate, `breaking_spliced` telling whether it was
            tested spliced.
        ship_design_force: a mooring line's ship design minimum breaking load.
        first_used: when its use began.
        maker_criteria: the maker's criteria for retirement, where they are kept: title and edition.
        maker_pack: id of the pack that holds them as rules.
        instructions: the maker's written instructions that bear on wear and cut rules.
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
    strands: Annotated[int, Field(ge=1, le=200)] | None = None
    cover_load: CoverLoad | None = None
    continuous: bool = False
    width: Length | None = None
    thickness: Length | None = None
    legs: Annotated[int, Field(ge=1, le=4)] = 1
    working_load_limit: Force | None = None
    rated: Annotated[tuple[Rated, ...], Field(max_length=3)] = ()
    breaking_force: Force | None = None
    breaking_spliced: bool | None = None
    ship_design_force: Force | None = None
    service: Service = Service.NORMAL
    made: Day | None = None
    first_used: Day | None = None
    maker_criteria: Text = ""
    maker_pack: Text = ""
    instructions: Annotated[tuple[Instruction, ...], Field(max_length=20)] = ()
    parts: Annotated[tuple[Part, ...], Field(min_length=1, max_length=24)]

    @model_validator(mode="after")
    def _whole(self) -> Self:
        ids = [part.id for part in self.parts]
        if len(set(ids)) != len(ids):
            raise PydanticCustomError("item", "two parts have the same 'id'")
        roped = any(p.splice is not None and p.splice not in UNSPLICED for p in self.parts)
        if roped and self.diameter is None and self.circumference is None:
            raise PydanticCustomError("item", "a spliced rope needs its nominal 'diameter' or 'circumference'")
        if self.made is not None and self.first_used is not None and self.first_used < self.made:
            raise PydanticCustomError("item", "'first_used' is before 'made'; check both dates")
        ends = [part.end for part in self.terminations]
        if len(set(ends)) != len(ends):
            raise PydanticCustomError("item", "two terminations have the same 'end'")
        self._check_size()
        return self

    def _check_size(self) -> None:
        given = {"diameter": (self.diameter, 1), "circumference": (self.circumference, 3)}
        sizes = {name: size.to("mm") / times for name, (size, times) in given.items() if size is not None}
        for name, size in sizes.items():
            if not SMALLEST_ROPE_MM <= size <= LARGEST_ROPE_MM:
                raise PydanticCustomError(
                    "item",
                    "'{name}' is {text}: no rope has that size; check the number and its unit",
                    {"name": name, "text": str(getattr(self, name))},
                )
        if len(sizes) == 2 and not Fraction(4, 5) <= sizes["diameter"] / sizes["circumference"] <= Fraction(5, 4):
            raise PydanticCustomError("item", "'diameter' and 'circumference' are not of one rope; check both")

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

    @property
    def spliced(self) -> tuple[Part, ...]:
        """The parts that are terminations or joints."""
        return tuple(part for part in self.parts if part.kind in SPLICED)


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


class Reference(Model):
    """One ruling of one recorded inspection, as a decision names it."""

    inspection: Name
    rule: Name
    part: Text = ""


class WorkDone(Dated):
    """What was done to an item between inspections.

    Attributes:
        part: the part it was done to; empty for the item.
        work: which of the trade's works it was.
        mends: what kind of mending it was; a hold or removal whose rule asks for it may close after it. Which works
            can be which mending stands in `mending.py`.
        cut_from_a: how much was cut off at end A: places further on are reckoned from the new end (`places.py`).
        proof_load: what it was loaded to afterwards.
        known_by: for an item re-identified, what of its record it was known again by.
    """

    part: Text = ""
    work: Work | None = None
    mends: Mend
    what: Name
    cut_from_a: Length | None = None
    proof_load: Force | None = None
    known_by: Text = ""
    pictures: tuple[Hash, ...] = ()

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if self.work is None:
            return self
        if self.mends not in MENDS[self.work]:
            raise PydanticCustomError(
                "work",
                "'{work}' mends {can}, not '{mends}'",
                {
                    "work": self.work.value,
                    "can": " or ".join(f"'{one}'" for one in sorted(MENDS[self.work])),
                    "mends": self.mends.value,
                },
            )
        if self.work is Work.REPAIRED and self.proof_load is None:
            raise PydanticCustomError("work", "a repair needs 'proof_load': what it was loaded to afterwards")
        if self.work is Work.RE_TAGGED and not self.known_by:
            raise PydanticCustomError("work", "a new tag needs 'known_by': what of its record it was known again by")
        if self.cut_from_a is not None and self.work not in (Work.CUT_BACK, Work.RE_SPLICED):
            raise PydanticCustomError("work", "only cutting back or re-splicing has 'cut_from_a'")
        return self


class Decision(Dated):
    """What a competent person decided about an item, with the reason.

    Attributes:
        kind: release the named holds and removals, or condemn the item for good.
        examined: the rulings this decision examined; a release closes only those.
        until: the last local day a release holds for; a competent person looks there again by then. It never puts
            off an ordinary date. None: the release sets no date of its own.
    """

    kind: DecisionKind
    examined: tuple[Reference, ...] = ()
    reason: Annotated[Text, Field(min_length=1)]
    pictures: tuple[Hash, ...] = ()
    until: Day | None = None

    @model_serializer(mode="wrap")
    def _without_no_date(self, plainly: SerializerFunctionWrapHandler) -> dict[str, Any]:
        # A decision without a date is written as it was before there were such dates: older programs read it.
        said: dict[str, Any] = plainly(self)
        if self.until is None:
            said.pop("until", None)
        return said

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if self.by.competence not in COMPETENT:
            raise PydanticCustomError("decision", "only a competent or a qualified person decides this")
        if self.until is not None and self.kind is not DecisionKind.RELEASE:
            raise PydanticCustomError("decision", "only a release has 'until'")
        if self.until is not None and self.until < self.on:
            raise PydanticCustomError("decision", "'until' is before the day it was released")
        if self.kind is DecisionKind.RELEASE and not self.examined:
            raise PydanticCustomError("decision", "a release names in 'examined' the holds it examined")
        return self


class Acceptance(Dated):
    """Damage or age that a competent person examined and accepted for a time: an accepted condition.

    It closes the holds it names and turns later ones of those rules into watches, while each look finds it no bigger.
    The newest acceptance of a rule on a part speaks for all of it there. A removal cannot be accepted, nor a number
    beyond its limit, nor what was not looked at.

    Attributes:
        examined: the holds that were examined.
        extent: how big it was, in words or numbers, so that the next person can tell whether it has grown.
        until: the last local day it is accepted for.
    """

    examined: Annotated[tuple[Reference, ...], Field(min_length=1, max_length=20)]
    extent: Annotated[Text, Field(min_length=1)]
    reason: Annotated[Text, Field(min_length=1)]
    until: Day
    pictures: tuple[Hash, ...] = ()

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if self.by.competence not in COMPETENT:
            raise PydanticCustomError("acceptance", "only a competent or a qualified person accepts a condition")
        if self.until < self.on:
            raise PydanticCustomError("acceptance", "'until' is before the day it was accepted")
        return self


class Incident(Dated):
    """A shock, overload, fall or exposure that everything in the same load path shared.

    Each of these items is held until a competent person has examined that item after the incident; no signature
    stands in for it. Evidence is kept: an item of an open incident is not disposed of.

    Attributes:
        item: the item it is recorded on. load_path: ids of the other items that shared the load.
    """

    what: Name
    load_path: Annotated[tuple[Name, ...], Field(max_length=60)] = ()
    evidence: Text = ""
    pictures: tuple[Hash, ...] = ()

    @property
    def items(self) -> tuple[str, ...]:
        """Every item it holds, each once: its own first."""
        return tuple(dict.fromkeys((self.item, *self.load_path)))


class Disposal(Dated):
    """A condemned item was destroyed; the photograph proves it."""

    how: Name
    pictures: Annotated[tuple[Hash, ...], Field(min_length=1)]


class Placed(Dated):
    """Where an item is now: here, ashore, on loan, or not found.

    It changes no answer and no due date: what is overdue ashore is overdue. An inspection made later says that the
    item is here again.

    Attributes:
        note: to whom it is lent, or where ashore it lies.
    """

    where: Where
    note: Text = ""
