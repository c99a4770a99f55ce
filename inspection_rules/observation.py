"""The vocabulary of observations: every question the eye and hand answer and every reading taken.

`packs/observations/*.toml` hold them in the order of the rope; rules name them by id. Their wording is the
trade's common practice and has no published source.
"""

from collections.abc import Collection
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.fields import Model, Name, Text
from inspection_rules.item import Item, Part
from inspection_rules.words import (
    SPLICED,
    Construction,
    CoverLoad,
    Duty,
    Fibre,
    FittingKind,
    InspectionKind,
    ItemKind,
    Layout,
    Method,
    PartKind,
    Service,
    SpliceKind,
    Thimble,
)

Place = Literal["item", "splice", "body", "fitting"]
PLACES: dict[Place, tuple[PartKind, ...]] = {
    "item": (),
    "splice": SPLICED,
    "body": (PartKind.BODY,),
    "fitting": (PartKind.FITTING,),
}


class Applies(Model):
    """Which items and parts something applies to; an empty list does not narrow."""

    item: tuple[ItemKind, ...] = ()
    duty: tuple[Duty, ...] = ()
    fibre: tuple[Fibre, ...] = ()
    construction: tuple[Construction, ...] = ()
    cover_load: tuple[CoverLoad, ...] = ()
    continuous: bool | None = None
    one_ended: bool | None = None
    service: tuple[Service, ...] = ()
    has_splice: tuple[SpliceKind, ...] = ()
    has_fitting: tuple[FittingKind, ...] = ()
    part: tuple[PartKind, ...] = ()
    splice: tuple[SpliceKind, ...] = ()
    thimble: tuple[Thimble, ...] = ()
    lock_stitched: bool | None = None
    chafe_gear: bool | None = None
    tails_buried: bool | None = None
    layout: tuple[Layout, ...] = ()
    fitting: tuple[FittingKind, ...] = ()

    def to_item(self, item: Item) -> bool:
        """Whether the item as a whole is meant; `has_splice` and `has_fitting` ask for one such part."""
        return (
            (not self.item or item.kind in self.item)
            and (not self.duty or item.duty in self.duty)
            and (not self.fibre or item.fibre in self.fibre)
            and (not self.construction or item.construction in self.construction)
            and (not self.cover_load or item.cover_load in self.cover_load)
            and (self.continuous is None or item.continuous is self.continuous)
            and (self.one_ended is None or (len(item.terminations) == 1) is self.one_ended)
            and (not self.service or item.service in self.service)
            and (not self.has_splice or any(part.splice in self.has_splice for part in item.parts))
            and (not self.has_fitting or any(part.fitting in self.has_fitting for part in item.parts))
        )

    def to_part(self, part: Part) -> bool:
        """Whether this part is meant."""
        return (
            (not self.part or part.kind in self.part)
            and (not self.splice or part.splice in self.splice)
            and (not self.thimble or part.thimble in self.thimble)
            and (self.lock_stitched is None or part.lock_stitched is self.lock_stitched)
            and (self.chafe_gear is None or part.chafe_gear is self.chafe_gear)
            and (self.tails_buried is None or part.tails_buried is self.tails_buried)
            and (not self.layout or part.layout in self.layout)
            and (not self.fitting or part.fitting in self.fitting)
        )


class Condition(Model):
    """One thing that can be seen where a question looks: its id, and the answer that names it.

    `applies` narrows it where the question is asked of more: a knot is looked for in a sling only.
    """

    id: Name
    say: Name
    applies: Applies = Applies()

    def of(self, item: Item, part: str) -> bool:
        """Whether it is one of the answers for this part of this item."""
        return self.applies.to_item(item) and (part == "" or self.applies.to_part(item.part(part)))


class Said(Model):
    """Other words for one condition, by its id."""

    id: Name
    say: Name


class Wording(Model):
    """Other words for the same observation, where the hand meets something else or a regime asks by name.

    Only words change, never what is answered or judged. Where several fit, the last to give `ask` or `good` is heard;
    `look` is replaced by all that fit, a line each: two regimes may each want their own marks.

    Attributes:
        regime: the regime that wants it so; empty for any.
    """

    applies: Applies = Applies()
    regime: Text = ""
    ask: Text = ""
    look: Text = ""
    good: Text = ""
    conditions: tuple[Said, ...] = ()

    def of(self, item: Item, part: str, regimes: Collection[str]) -> bool:
        """Whether these words are the ones for this part of this item under these regimes."""
        chosen = not self.regime or self.regime in regimes
        return chosen and self.applies.to_item(item) and (part == "" or self.applies.to_part(item.part(part)))


class Observation(Model):
    """A question or a reading at one station of the rope.

    Attributes:
        station: which place along the rope it belongs to, in the trade's words.
        on: what it is asked of: the item as a whole, each termination and joint, the body, each fitting.
        look: how to look, feel or hold the tape.
        good: the answer that names nothing wrong (questions).
        conditions: what can be wrong (questions), worst last.
        substitute: when design may hide it, the observation that stands in for it.
        hidden_on: the parts on which design may hide it.
        instead: readings that together may be taken in its place.
        at: the kinds of inspection it is made at; empty for all.
        state: whether the reading means nothing without its tension and moisture.
        damages: whether each value is one damage of its own instead of a repeat.
        unit, signed, methods: for readings; the first method is the one offered.
        worded: other words for it on other items, parts, or under a regime.
    """

    id: Annotated[str, Field(pattern="^[a-z][a-z0-9_]*$")]
    station: Name
    on: Place
    kind: Literal["question", "reading"]
    ask: Name
    look: Text = ""
    good: Text = ""
    conditions: tuple[Condition, ...] = ()
    substitute: Text = ""
    hidden_on: Applies = Applies()
    instead: tuple[Name, ...] = ()
    dimension: Literal["length", "count", "fraction", "force", "temperature"] | None = None
    unit: Text = ""
    signed: bool = False
    at: tuple[InspectionKind, ...] = ()
    state: bool = False
    damages: bool = False
    repeats: Annotated[int, Field(ge=1, le=20)] = 1
    methods: tuple[Method, ...] = ()
    figure: Text = ""
    applies: Applies = Applies()
    worded: tuple[Wording, ...] = ()

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if self.kind == "question" and not (self.good and self.conditions):
            raise PydanticCustomError("observation", "a question needs 'good' and 'conditions'")
        if self.kind == "reading" and not (self.dimension and self.methods):
            raise PydanticCustomError("observation", "a reading needs 'dimension' and 'methods'")
        known = {condition.id for condition in self.conditions}
        if any(said.id not in known for wording in self.worded for said in wording.conditions):
            raise PydanticCustomError("observation", "'worded' speaks of a condition that this does not have")
        return self

    def parts(self, item: Item) -> tuple[str, ...]:
        """Return the ids of the item's parts this is asked of; `("",)` when asked of the item as a whole."""
        if not self.applies.to_item(item):
            return ()
        if self.on == "item":
            return ("",)
        wanted = PLACES[self.on]
        return tuple(part.id for part in item.parts if part.kind in wanted and self.applies.to_part(part))

    def answers(self, item: Item, part: str) -> tuple[Condition, ...]:
        """Return the conditions that can be answered for this part of this item, worst last."""
        return tuple(condition for condition in self.conditions if condition.of(item, part))

    @property
    def looks(self) -> tuple[str, ...]:
        """How to look, a sentence or two each: more than one where several regimes each ask for something."""
        return tuple(line for line in self.look.split("\n") if line)

    def worded_for(self, item: Item, part: str, regimes: Collection[str] = ()) -> "Observation":
        """Return it in the words for this part of this item under these regimes: same id, same answers."""
        fits = [wording for wording in self.worded if wording.of(item, part, regimes)]
        if not fits:
            return self
        said = {one.id: one.say for wording in fits for one in wording.conditions}
        looks = dict.fromkeys(wording.look for wording in fits if wording.look)
        return self.model_copy(
            update={
                "ask": next((wording.ask for wording in reversed(fits) if wording.ask), self.ask),
                "look": "\n".join(looks) or self.look,
                "good": next((wording.good for wording in reversed(fits) if wording.good), self.good),
                "conditions": tuple(
                    one.model_copy(update={"say": said[one.id]}) if one.id in said else one for one in self.conditions
                ),
            }
        )
