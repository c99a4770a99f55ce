"""What a record's body says, written once as canonical JSON and read back for ever.

Canonical: keys sorted, no blanks, UTF-8, no floats (numbers stand as texts with their unit, as they were
written), no NUL and no lone surrogate. A body names its version; each version keeps its reader.
"""

import json
from datetime import UTC, datetime
from functools import cache
from typing import Annotated, Literal

from pydantic import AwareDatetime, Field, TypeAdapter, ValidationError, field_validator

from app.register.errors import RegisterError
from inspection_rules.events import Acceptance, Decision, Disposal, Incident, Placed, WorkDone
from inspection_rules.fields import BUILDING, Model, Name, Text
from inspection_rules.item import Item
from inspection_rules.record import Person
from inspection_rules.rounds import Round, RoundSummary
from inspection_rules.standing import ItemRecord, Judged

NEWEST = 2
# What a round stands under in the log: it is about several items, and no item has this id.
NO_ITEM = ""


class _Entered(Model):
    """What the register itself says about an entry: its id, when, by whom."""

    id: Name
    at: AwareDatetime
    utc_offset_minutes: Annotated[int, Field(ge=-14 * 60, le=14 * 60)] = 0
    by: Person

    @field_validator("at")
    @classmethod
    def _utc(cls, value: datetime) -> datetime:
        return value.astimezone(UTC)


class ItemRevised(_Entered):
    """An item as it was entered or revised; `parents` are the revisions it replaces, none for a new item."""

    kind: Literal["item"] = "item"
    version: Literal[1] = 1
    device: Name
    parents: tuple[Name, ...] = ()
    item: Item


class Inspected(Model):
    """An inspection with the judgement made of it then."""

    kind: Literal["inspection"] = "inspection"
    version: Literal[1] = 1
    device: Name
    judged: Judged


class Worked(Model):
    """Work done on an item."""

    kind: Literal["work done"] = "work done"
    version: Literal[1] = 1
    device: Name
    work: WorkDone


class Decided(Model):
    """What a competent person decided; from version 2 on a release may set a date to look again by."""

    kind: Literal["decision"] = "decision"
    version: Literal[1, 2] = 1
    device: Name
    decision: Decision


class AcceptedCondition(Model):
    """What a competent person accepted for a time."""

    kind: Literal["accepted condition"] = "accepted condition"
    version: Literal[1] = 1
    device: Name
    acceptance: Acceptance


class Happened(Model):
    """An incident, recorded on one item; it holds every item that shared the load."""

    kind: Literal["incident"] = "incident"
    version: Literal[1] = 1
    device: Name
    incident: Incident


class Disposed(Model):
    """An item was destroyed."""

    kind: Literal["disposal"] = "disposal"
    version: Literal[1] = 1
    device: Name
    disposal: Disposal


class Whereabouts(Model):
    """Where an item was said to be."""

    kind: Literal["placed"] = "placed"
    version: Literal[1] = 1
    device: Name
    placed: Placed


class Correction(_Entered):
    """A record of an item was wrong.

    Attributes:
        supersedes: the record that no longer counts; it stays readable.
        replacement: the record entered in its place; empty when none was.
    """

    kind: Literal["correction"] = "correction"
    version: Literal[1] = 1
    device: Name
    item: Name
    supersedes: Name
    replacement: Text = ""
    reason: Annotated[Text, Field(min_length=1)]


class RoundMade(Model):
    """A round as it was signed, with the answer it was signed with.

    Attributes:
        regimes: those that counted then.
    """

    kind: Literal["round"] = "round"
    version: Literal[1] = 1
    device: Name
    made: Round
    summary: RoundSummary
    regimes: tuple[Name, ...] = ()


OfItem = ItemRevised | Inspected | Worked | Decided | AcceptedCondition | Happened | Disposed | Whereabouts | Correction
Body = OfItem | RoundMade

Event = WorkDone | Decision | Acceptance | Incident | Disposal | Placed


@cache
def _reader() -> TypeAdapter[Body]:
    with BUILDING:
        return TypeAdapter(Annotated[Body, Field(discriminator="kind")])


def body_of(record: ItemRecord, device: str) -> Body:
    """Return the body that holds an item's record."""
    if isinstance(record, Judged):
        return Inspected(device=device, judged=record)
    if isinstance(record, WorkDone):
        return Worked(device=device, work=record)
    if isinstance(record, Decision):
        return Decided(device=device, version=1 if record.until is None else 2, decision=record)
    if isinstance(record, Acceptance):
        return AcceptedCondition(device=device, acceptance=record)
    if isinstance(record, Incident):
        return Happened(device=device, incident=record)
    if isinstance(record, Placed):
        return Whereabouts(device=device, placed=record)
    return Disposed(device=device, disposal=record)


def item_record(body: Body) -> ItemRecord | None:
    """Return what an item's standing is made of; None for item revisions, corrections and rounds."""
    if isinstance(body, Inspected):
        return body.judged
    return None if isinstance(body, ItemRevised | Correction | RoundMade) else _dated(body)


def _dated(body: Worked | Decided | AcceptedCondition | Happened | Disposed | Whereabouts) -> Event:
    if isinstance(body, Worked):
        return body.work
    if isinstance(body, Decided):
        return body.decision
    if isinstance(body, AcceptedCondition):
        return body.acceptance
    if isinstance(body, Whereabouts):
        return body.placed
    return body.incident if isinstance(body, Happened) else body.disposal


def head_of(body: Body) -> tuple[str, str, datetime]:
    """Return a body's record id, item id (`NO_ITEM` for a round) and time."""
    if isinstance(body, RoundMade):
        return body.made.id, NO_ITEM, body.made.at
    if isinstance(body, ItemRevised):
        return body.id, body.item.id, body.at
    if isinstance(body, Correction):
        return body.id, body.item, body.at
    if isinstance(body, Inspected):
        inspection = body.judged.inspection
        return inspection.id, inspection.item, inspection.at
    dated = _dated(body)
    return dated.id, dated.item, dated.at


def pictures_of(body: Body) -> tuple[str, ...]:
    """Return the hash of every picture a body names, each once."""
    if isinstance(body, Inspected):
        return tuple(dict.fromkeys(body.judged.inspection.all_pictures()))
    if isinstance(body, ItemRevised | Correction | RoundMade):
        return ()
    dated = _dated(body)
    return () if isinstance(dated, Placed) else tuple(dict.fromkeys(dated.pictures))


def files_of(body: Body) -> tuple[tuple[str, str], ...]:
    """Return the pictures of which a body names the original file, each with the hash of that."""
    if not isinstance(body, Inspected):
        return ()
    return tuple((one.picture, one.original) for one in body.judged.inspection.noted_pictures if one.original)


def shared_by(body: Body) -> tuple[str, ...]:
    """Return the ids of the other items a body is about: those that shared an incident's load."""
    return body.incident.items[1:] if isinstance(body, Happened) else ()


def when_text(at: datetime) -> str:
    """Return a time as the fixed-length UTC text that sorts as it happened."""
    return at.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ").zfill(27)


def write(body: Model) -> str:
    """Return the canonical text of a body; its types hold no float, no NUL and no surrogate."""
    return json.dumps(body.model_dump(mode="json"), ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def read(text: str) -> Body:
    """Return the body a text holds.

    Raises:
        RegisterError: a newer program wrote it, or it is no body.
    """
    try:
        return _reader().validate_json(text)
    except ValidationError as error:
        version = _version(text)
        if version is not None and version > NEWEST:
            raise RegisterError(
                f"it was written by a newer version of this program (body {version}; this one reads up to "
                f"{NEWEST}); update this program"
            ) from None
        first = error.errors()[0]
        place = ".".join(map(str, first["loc"]))
        raise RegisterError(f"it cannot be read ({place}: {first['msg']})") from None


def _version(text: str) -> int | None:
    try:
        value = json.loads(text)
    except (ValueError, RecursionError):
        return None
    version = value.get("version") if isinstance(value, dict) else None
    return version if isinstance(version, int) else None
