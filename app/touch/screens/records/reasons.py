"""What keeps an item out of use, each reason once however often it was found, and what would close it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.widgets.reason import ruling_card
from inspection_rules.events import Reference
from inspection_rules.item import Item
from inspection_rules.judgement import Ruling
from inspection_rules.mending import WORK_MENDS
from inspection_rules.standing import INCIDENT, NEW_SPLICE, Open
from inspection_rules.words import Answer, Door, Mend

CLOSES_BY_LOOK = mark("No signature closes this: it closes when what was not seen is looked at.")
CLOSES_BY_INCIDENT = mark("No signature closes this: it closes by a competent person's examination after the incident.")
CLOSES_BY_RECORD = mark("No signature closes this: it closes when a competent person records the new splice as made.")
CLOSES_BY_EXAMINATION = mark("No signature closes this: it closes by the examination that is due.")
CLOSES_BY_SPLICE = mark(
    "No signature alone closes this. First the work: {mend}; then the new splice is recorded as made."
)
CLOSES_BY_WORK = mark("No signature alone closes this. First the work on record: {mend}.")
NOTHING_CLOSES = mark("Nothing brings it back: condemn it.")


@dataclass(frozen=True, slots=True)
class Reason:
    """One hold or removal: the newest finding of it, and when it was found first.

    Attributes:
        releasable: whether a competent person's release may close it now.
    """

    newest: Open
    since: date
    releasable: bool

    @property
    def ruling(self) -> Ruling:
        """What the rule said when it was found last."""
        return self.newest.ruling

    @property
    def reference(self) -> Reference:
        """How a decision names it: all that was found up to the newest goes with it."""
        return Reference(inspection=self.newest.inspection, rule=self.ruling.rule, part=self.ruling.part)


def reasons(still_open: Sequence[Open], releasable: Iterable[Open]) -> list[Reason]:
    """Return the reasons in the order they stand, each once."""
    may = list(releasable)
    found: dict[tuple[str, str, bool], list[Open]] = {}
    for one in still_open:
        found.setdefault((one.ruling.rule, one.ruling.part, one in may), []).append(one)
    return [
        Reason(max(several, key=lambda one: (one.at, one.inspection)), min(one.on for one in several), may_be)
        for (_, _, may_be), several in found.items()
    ]


def what_closes(ruling: Ruling) -> str:
    """Say what closes a hold or removal that no release may close now."""
    if ruling.rule == INCIDENT:
        return say(CLOSES_BY_INCIDENT)
    if ruling.rule == NEW_SPLICE:
        return say(CLOSES_BY_RECORD)
    if ruling.door is Door.LOOK_AGAIN:
        return say(CLOSES_BY_LOOK)
    if ruling.mends is Mend.EXAMINE:
        return say(CLOSES_BY_EXAMINATION)
    if ruling.mends is Mend.RE_SPLICE:
        return say(CLOSES_BY_SPLICE, mend=say(ruling.mends.value))
    if ruling.mends in WORK_MENDS:
        return say(CLOSES_BY_WORK, mend=say(ruling.mends.value))
    return say(NOTHING_CLOSES) if ruling.answer is Answer.REMOVE else say(CLOSES_BY_EXAMINATION)


def reason_card(reason: Reason, item: Item) -> Widget:
    """Show one reason as everywhere else, since it was found first."""
    return ruling_card(reason.ruling, item, since=reason.since)
