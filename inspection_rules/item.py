"""What an item is: its parts, how each is made, what it is for. Frozen and validated once, at the edge."""

from fractions import Fraction
from typing import Annotated, Self

from pydantic import Field, StringConstraints, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.fields import Day, Force, Length, Model, Name, Text
from inspection_rules.words import (
    JOINTS,
    SPLICED,
    UNSPLICED,
    Construction,
    CoverLoad,
    Duty,
    Fibre,
    FittingKind,
    Hitch,
    ItemKind,
    Layout,
    PartKind,
    Service,
    SpliceKind,
    Thimble,
)

SMALLEST_ROPE_MM, LARGEST_ROPE_MM = 1, 500


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
