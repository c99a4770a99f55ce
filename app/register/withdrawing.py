"""What a correction may take out of an item's history, and what it must put in its place.

The same answer is given when a correction is made and when the log is read, so that one that came from another
device counts exactly when it could have been made here.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from app.register.bodies import (
    AcceptedCondition,
    Body,
    Correction,
    Decided,
    Disposed,
    Happened,
    Inspected,
    ItemRevised,
    Worked,
    head_of,
)
from inspection_rules.judgement import Ruling
from inspection_rules.record import Person
from inspection_rules.standing import Judged, looked_at
from inspection_rules.words import COMPETENT, Answer, DecisionKind, Mend

STOPPING = (Answer.HOLD, Answer.REMOVE)


@dataclass(frozen=True, slots=True)
class Withdrawals:
    """The corrections of one item, and the records they are about.

    Attributes:
        bodies: by record id; None where one cannot be read.
        replaces: for a record entered in place of others, their ids.
    """

    bodies: Mapping[str, Body | None]
    replaces: Mapping[str, tuple[str, ...]]

    @property
    def out(self) -> set[str]:
        """The ids of records that a correction took out."""
        corrections = [one for one in self.bodies.values() if isinstance(one, Correction)]
        return {
            one.supersedes
            for one in corrections
            if not self.refusal(one.supersedes, one.by, self.bodies.get(one.replacement))
        }

    def refusal(self, record_id: str, by: Person, replacement: Body | None) -> str:
        """Say why this person's correction cannot take a record out; empty when it can."""
        body = self.bodies.get(record_id)
        if isinstance(body, ItemRevised):
            return "describes the item itself. Nothing was kept. Revise the item instead."
        if isinstance(body, Correction):
            return "is a correction. Nothing was kept. Log the right record instead."
        if body is not None and is_final(body):
            return "ends the item for good, and no correction lifts that. Nothing was kept."
        if isinstance(body, Happened):
            return (
                "records an incident, and no correction lifts that. Nothing was kept. "
                "Have a competent person examine each item it names after the incident."
            )
        if by.competence not in COMPETENT and self._takes_competence(record_id):
            return "warns of the item or keeps it out of use. Nothing was kept. Have a competent person correct it."
        stopped = list(self._stopped(record_id))
        if replacement is not None and head_of(replacement)[0] in self._chain(record_id):
            replacement = None  # nothing stands in for itself
        return _lack(stopped, replacement) if stopped else ""

    def _takes_competence(self, record_id: str) -> bool:
        body = self.bodies.get(record_id)
        warns = isinstance(body, Inspected) and body.judged.judgement.answer is not Answer.SERVICEABLE
        # A new splice is held until it is on record as made.
        spliced = isinstance(body, Worked) and body.work.mends is Mend.RE_SPLICE
        return warns or spliced or isinstance(body, AcceptedCondition) or any(self._stopped(record_id))

    def _stopped(self, record_id: str) -> Iterator[Judged]:
        """The inspection itself where it stops the item, and those that it was entered in place of."""
        for name in self._chain(record_id):
            body = self.bodies.get(name)
            if isinstance(body, Inspected) and body.judged.judgement.answer in STOPPING:
                yield body.judged

    def _chain(self, record_id: str) -> tuple[str, ...]:
        """The record, and all that it was entered in place of, one by one or at once."""
        chain = [record_id]
        for name in chain:
            chain += [one for one in self.replaces.get(name, ()) if one not in chain]
        return tuple(chain)


def withdrawals(found: Iterable[tuple[str, Body | None]]) -> Withdrawals:
    """Return the corrections among an item's records, given by record id."""
    bodies = dict(found)
    replaces: dict[str, tuple[str, ...]] = {}
    for one in bodies.values():
        if isinstance(one, Correction) and one.replacement:
            replaces[one.replacement] = (*replaces.get(one.replacement, ()), one.supersedes)
    return Withdrawals(bodies, replaces)


def is_final(body: Body) -> bool:
    """Tell whether a body ends an item for good: condemned or disposed of."""
    return isinstance(body, Disposed) or (isinstance(body, Decided) and body.decision.kind is DecisionKind.CONDEMN)


def _lack(stopped: list[Judged], replacement: Body | None) -> str:
    """Say what a replacement of inspections that stop the item lacks; empty when nothing."""
    kinds = {one.inspection.kind for one in stopped}
    wanted = f"Enter in its place an inspection of kind '{min(kinds)}' made by a competent person."
    if not isinstance(replacement, Inspected):
        return f"keeps the item out of use. Nothing was kept. {wanted}"
    judged = replacement.judged
    if judged.inspection.by.competence not in COMPETENT or kinds != {judged.inspection.kind}:
        return f"keeps the item out of use, and its replacement is no such look. Nothing was kept. {wanted}"
    for one in stopped:
        for ruling in one.judgement.rulings:
            if ruling.answer in STOPPING and not _looked_there(ruling, judged):
                place = f" of part {ruling.part}" if ruling.part else ""
                return (
                    f"keeps the item out of use for {ruling.observation}{place}, which its replacement does not "
                    "look at. Nothing was kept. Look there, and enter it."
                )
    return ""


def _looked_there(ruling: Ruling, judged: Judged) -> bool:
    return not ruling.observation or looked_at((ruling.rule, ruling.part, ruling.observation), judged)
