"""Inspections under way: kept with every confirmed tap, gone once logged."""

import time
from dataclasses import dataclass
from typing import Literal

from pydantic import ValidationError
from sqlalchemy import Connection, bindparam, delete, insert
from sqlmodel import Session, col, select

from app.register.bodies import write
from app.register.errors import RegisterError
from app.register.tables import KeptDraft, table
from inspection_rules.case import Use
from inspection_rules.fields import Hash, Model
from inspection_rules.record import Inspection
from inspection_rules.words import InspectionKind

# Rounds under way are kept in the same table; see `rounds.py`.
ROUND = "round"
_DISCARD = delete(table("draft")).where(table("draft").c.id == bindparam("of"))


@dataclass(frozen=True, slots=True)
class Draft:
    """An inspection under way.

    Attributes:
        inspection: what has been answered so far.
        step: part and observation being asked.
        photos: hashes of pictures kept for it.
        use: what was told so far of the use it is made for.
    """

    inspection: Inspection
    step: tuple[str, str]
    photos: tuple[str, ...] = ()
    use: Use | None = None


class _Body(Model):
    version: Literal[1] = 1
    inspection: Inspection
    step: tuple[str, str]
    photos: tuple[Hash, ...] = ()
    use: Use | None = None


def save(connection: Connection, draft: Draft) -> None:
    """Keep a draft in place of the one with the same inspection id, in the caller's transaction."""
    one = draft.inspection
    body = write(_Body(inspection=one, step=draft.step, photos=draft.photos, use=draft.use))
    discard(connection, one.id)
    values = {"id": one.id, "item": one.item, "kind": one.kind.value, "touched": time.time_ns(), "body": body}
    connection.execute(insert(table("draft")), values)


def latest(session: Session, item_id: str, kind: InspectionKind) -> Draft | None:
    """Return the draft of an item and inspection kind that was touched last."""
    query = select(KeptDraft).where(KeptDraft.item == item_id, KeptDraft.kind == kind.value)
    kept = session.exec(query.order_by(col(KeptDraft.touched).desc()).limit(1)).first()
    return _read(kept) if kept else None


def every(session: Session) -> list[Draft]:
    """Return all drafts, the one touched last first."""
    query = select(KeptDraft).where(KeptDraft.kind != ROUND).order_by(col(KeptDraft.touched).desc())
    return [_read(kept) for kept in session.exec(query)]


def discard(connection: Connection, inspection_id: str) -> None:
    """Forget a draft, in the caller's transaction; nothing happens when there is none."""
    connection.execute(_DISCARD, {"of": inspection_id})


def _read(kept: KeptDraft) -> Draft:
    try:
        body = _Body.model_validate_json(kept.body)
    except ValidationError:
        raise RegisterError(
            f"the unfinished inspection {kept.id} of item {kept.item} cannot be read by this version. "
            "It was kept. Update this program, or discard that draft and inspect again."
        ) from None
    return Draft(body.inspection, body.step, body.photos, body.use)
