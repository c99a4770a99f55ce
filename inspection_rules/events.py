"""What happens to an item besides inspections: work, decisions, acceptances, incidents, disposal, where it is."""

from typing import Annotated, Any, Self

from pydantic import Field, SerializerFunctionWrapHandler, model_serializer, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.fields import Day, Force, Hash, Length, Model, Name, Text
from inspection_rules.mending import MENDS
from inspection_rules.record import Dated
from inspection_rules.words import (
    COMPETENT,
    DecisionKind,
    Mend,
    Where,
    Work,
)


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
