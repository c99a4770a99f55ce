"""What an item's records amount to: which of them count, and where they leave the item."""

from collections.abc import Iterable, Sequence
from datetime import date

from app.register.bodies import Inspected, ItemRevised, item_record
from app.register.errors import RegisterError
from app.register.log import Entry, no_item
from app.register.withdrawing import withdrawals
from inspection_rules.item import Item
from inspection_rules.standing import ItemRecord, Judged, Standing, standing
from inspection_rules.words import Answer, Door, State

NOT_JUDGED = ("description", "place")


def heads(found: Iterable[Entry]) -> list[ItemRevised]:
    """Return the revisions nobody has revised since, oldest first; more than one disagree."""
    revisions = [one.body for one in found if isinstance(one.body, ItemRevised)]
    revised = {parent for one in revisions for parent in one.parents}
    return [one for one in revisions if one.id not in revised]


def disputed(revisions: Sequence[ItemRevised]) -> tuple[str, ...]:
    """Return the fields that revisions nobody has revised since disagree in, but for those no rule looks at."""
    fields = [name for name in Item.model_fields if name not in NOT_JUDGED]
    return tuple(name for name in fields if any(_differ(name, one, revisions[0]) for one in revisions[1:]))


def _differ(name: str, one: ItemRevised, other: ItemRevised) -> bool:
    return bool(getattr(one.item, name) != getattr(other.item, name))


def superseded(found: Iterable[Entry]) -> set[str]:
    """Return the ids of records that a correction took out; see `withdrawing.py`."""
    return withdrawals((one.id, one.body) for one in found).out


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
    """Return where an item stands on a local date.

    A record that cannot be read may have stopped the item, so it holds it; so does an own entry that is missing, and
    so do revisions that disagree, since what was judged by one of them was not judged by the other.

    Raises:
        RegisterError: there is no such item.
    """
    found = list(found)
    if not found:
        raise no_item(item_id)
    revisions = heads(found)
    # Without its own entry an item is no more than its id, which is what records name it by.
    item = revisions[-1].item if revisions else Item.model_construct(id=item_id)  # type: ignore[call-arg]
    stands = standing(item, in_force(found), on)
    why = _why_not_trusted(found, revisions)
    if stands.answer is Answer.REMOVE or not why:
        return stands
    held = {
        "state": State.QUARANTINED, "answer": Answer.HOLD, "door": Door.REFER, "next_due": None, "overdue": False,
        "sentence": f"{why}. Keep it out of use.",
    }  # fmt: skip
    return stands.model_copy(update=held)


def _why_not_trusted(found: list[Entry], revisions: list[ItemRevised]) -> str:
    unreadable = next((one for one in found if one.body is None), None)
    if unreadable is not None:
        return f"Record {unreadable.id} cannot be read: {unreadable.fault}"
    if not revisions:
        return "Its own entry is missing"
    fields = disputed(revisions)
    words = ", ".join(name.replace("_", " ") for name in fields)
    return f"Its record was revised in ways that disagree ({words}); revise it once more, as it is" if fields else ""


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
    """Return every record of what was seen, done, decided, accepted or happened, corrected ones included."""
    records = [item_record(one.body) for one in found if one.body is not None]
    return [one for one in records if one is not None]


def judged_of(records: Iterable[ItemRecord]) -> list[Judged]:
    """Return the inspections among some records, in their order."""
    return [one for one in records if isinstance(one, Judged)]
