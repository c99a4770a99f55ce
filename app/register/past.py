"""An item's past as a person reads it: every record there is, with what took it out where something did."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from app.register.bodies import Correction, ItemRevised, item_record
from app.register.log import Entry
from app.register.withdrawing import withdrawals
from inspection_rules.record import Person
from inspection_rules.standing import ItemRecord, Judged


@dataclass(frozen=True, slots=True)
class Past:
    """One record of an item.

    Attributes:
        id: the record's.
        on, by: local date, and who made it.
        record: what was seen, done, decided, accepted or happened; the item as it was entered or revised; or that a
            record was wrong.
        struck: the correction that took it out, so that it no longer counts; None while it counts.
    """

    id: str
    on: date
    by: Person
    record: ItemRecord | ItemRevised | Correction
    struck: Correction | None = None


def past(found: Iterable[Entry]) -> tuple[Past, ...]:
    """Return all readable records among an item's entries, in their order: oldest first."""
    found = list(found)
    corrections = withdrawals((one.id, one.body) for one in found)
    struck = {
        body.supersedes: body
        for body in corrections.bodies.values()
        if isinstance(body, Correction)
        and not corrections.refusal(body.supersedes, body.by, corrections.bodies.get(body.replacement))
    }
    return tuple(_past(one, struck.get(one.id)) for one in found if one.body is not None)


def _past(entry: Entry, struck: Correction | None) -> Past:
    body = entry.body
    if isinstance(body, ItemRevised | Correction):
        return Past(entry.id, (body.at + timedelta(minutes=body.utc_offset_minutes)).date(), body.by, body, struck)
    record = None if body is None else item_record(body)
    if record is None:
        raise ValueError(f"record {entry.id} cannot be read")
    dated = record.inspection if isinstance(record, Judged) else record
    return Past(entry.id, dated.on, dated.by, record, struck)
