"""What an item's records amount to: which of them count, and where they leave the item."""

from collections.abc import Iterable
from datetime import date

from app.register.bodies import Body, Correction, Decided, Disposed, Inspected, ItemRevised, item_record
from app.register.errors import RegisterError
from app.register.log import Entry, no_item
from inspection_rules.record import Item
from inspection_rules.standing import ItemRecord, Judged, Standing, standing
from inspection_rules.words import Answer, DecisionKind, Door, State


def heads(found: Iterable[Entry]) -> list[ItemRevised]:
    """Return the revisions nobody has revised since, oldest first; more than one disagree."""
    revisions = [one.body for one in found if isinstance(one.body, ItemRevised)]
    revised = {parent for one in revisions for parent in one.parents}
    return [one for one in revisions if one.id not in revised]


def superseded(found: Iterable[Entry]) -> set[str]:
    """Return the ids of records that a correction took out; what ends an item for good is never among them."""
    found = list(found)
    final = {one.id for one in found if one.body is not None and is_final(one.body)}
    return {one.body.supersedes for one in found if isinstance(one.body, Correction)} - final


def is_final(body: Body) -> bool:
    """Tell whether a body ends an item for good: condemned or disposed of."""
    return isinstance(body, Disposed) or (isinstance(body, Decided) and body.decision.kind is DecisionKind.CONDEMN)


def in_force(found: Iterable[Entry]) -> list[ItemRecord]:
    """Return what counts for the standing: everything readable that no correction took out."""
    found = list(found)
    out = superseded(found)
    records = [item_record(one.body) for one in found if one.body is not None and one.id not in out]
    return [one for one in records if one is not None]


def inspected(found: Iterable[Entry]) -> dict[str, Judged]:
    """Return the inspections that count, by their record ids.

    The id is the entry's own, which is unique even where a forged body repeats another's.
    """
    found = list(found)
    out = superseded(found)
    return {one.id: one.body.judged for one in found if isinstance(one.body, Inspected) and one.id not in out}


def standing_of(item_id: str, found: Iterable[Entry], on: date) -> Standing:
    """Return where an item stands on a local date; of several heads the stricter standing.

    A record that cannot be read may have stopped the item, so it holds it; so does an own entry that is missing.

    Raises:
        RegisterError: there is no such item.
    """
    found = list(found)
    if not found:
        raise no_item(item_id)
    # Without its own entry an item is no more than its id, which is what records name it by.
    items = [head.item for head in heads(found)] or [Item.model_construct(id=item_id)]  # type: ignore[call-arg]
    records = in_force(found)
    strictest = max((standing(item, records, on) for item in items), key=lambda one: one.answer.severity)
    unreadable = next((one for one in found if one.body is None), None)
    if strictest.answer is Answer.REMOVE or (unreadable is None and heads(found)):
        return strictest
    why = f"Record {unreadable.id} cannot be read: {unreadable.fault}" if unreadable else "Its own entry is missing"
    held = {
        "state": State.QUARANTINED, "answer": Answer.HOLD, "door": Door.REFER, "next_due": None, "overdue": False,
        "sentence": f"{why}. Keep it out of use.",
    }  # fmt: skip
    return strictest.model_copy(update=held)


def readable(item_id: str, found: list[Entry]) -> list[Entry]:
    """Return an item's records when all of them can be read.

    Raises:
        RegisterError: there are none, or one cannot be read.
    """
    for one in found:
        if one.body is None:
            raise RegisterError(
                f"item {item_id}: record {one.id} cannot be read: {one.fault}. The others were kept. "
                "Keep the item out of use, and check the register"
            )
    if not heads(found):
        raise no_item(item_id)
    return found


def all_records(found: Iterable[Entry]) -> list[ItemRecord]:
    """Return every inspection, work, decision and disposal among some records, corrected ones included."""
    records = [item_record(one.body) for one in found if one.body is not None]
    return [one for one in records if one is not None]


def judged_of(records: Iterable[ItemRecord]) -> list[Judged]:
    """Return the inspections among some records, in their order."""
    return [one for one in records if isinstance(one, Judged)]
