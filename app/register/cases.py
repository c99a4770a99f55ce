"""Putting together what one judgement needs, and what may be corrected."""

from collections.abc import Iterable
from datetime import date

from pydantic import ValidationError
from sqlalchemy import Connection, select

from app.register import effect, log
from app.register.bodies import NO_ITEM, Body
from app.register.errors import RegisterError
from app.register.tables import table
from app.register.withdrawing import withdrawals
from inspection_rules.case import Case, Site, Use
from inspection_rules.events import Acceptance, Reference, WorkDone
from inspection_rules.record import Inspection, Person
from inspection_rules.standing import INCIDENT, Judged, may_accept
from inspection_rules.words import BASELINE_KINDS


def case(
    inspection: Inspection,
    found: list[log.Entry],
    *,
    on: date,
    use: Use | None,
    regimes: tuple[str, ...],
    site: Site,
) -> Case:
    """Return the case of an inspection from all records of its item.

    Only records that count and are not later than this one are its past. What was read on a part that the
    item no longer has, since it was spliced anew, says nothing about the item as it is and is left out.

    Raises:
        RegisterError: the item is not there, a record of it cannot be read, or the inspection does not fit it.
    """
    heads = effect.heads(effect.readable(inspection.item, found))
    item = heads[-1].item
    parts = {"", *(part.id for part in item.parts)}
    records = effect.in_force(found)
    judged = effect.judged_of(records)
    past = [
        _of_parts(one.inspection, parts)
        for one in judged
        if one.inspection.id != inspection.id and one.inspection.at <= inspection.at
    ]
    events = [
        one
        for one in records
        if (isinstance(one, WorkDone) or (isinstance(one, Acceptance) and not unacceptable(one, judged)))
        and one.at <= inspection.at
    ]
    try:
        return Case(
            on=on,
            item=item,
            inspection=inspection,
            baselines=tuple(one for one in past if one.kind in BASELINE_KINDS),
            earlier=tuple(one for one in past if one.kind not in BASELINE_KINDS),
            accepted=tuple(one for one in events if isinstance(one, Acceptance)),
            work=tuple(one for one in events if isinstance(one, WorkDone)),
            use=use,
            regimes=regimes,
            site=site,
        )
    except ValidationError as error:
        raise RegisterError(f"inspection {inspection.id}: {error.errors()[0]['msg']}.") from None


def item_of(connection: Connection, record_id: str) -> str:
    """Return the item a record is about.

    Raises:
        RegisterError: there is no such record, or it is a round, which is about several.
    """
    record = table("record").c
    item = connection.scalar(select(record.item).where(record.id == record_id))
    if item is None:
        raise RegisterError(f"record {record_id} is not in this register. Nothing was kept. Check its id.")
    if item == NO_ITEM:
        raise RegisterError(
            f"record {record_id} is a round: it says what was found then, and no correction changes it. Nothing was "
            "kept. Correct the inspection that was wrong, and make the round again."
        )
    return str(item)


def check_correctable(record_id: str, found: list[log.Entry], by: Person, replacement: Body | None) -> None:
    """Check that a correction by this person may take a record out, given all records of its item.

    Raises:
        RegisterError: it is no inspection, work, acceptance, release or whereabouts, was corrected before, or keeps the
            item out of use and is corrected by somebody who could not release it, or with no inspection in its place.
    """
    corrections = withdrawals((one.id, one.body) for one in found)
    why = corrections.refusal(record_id, by, replacement)
    if record_id in corrections.out:
        why = "was corrected before. Nothing was kept. Correct its replacement instead."
    if why:
        raise RegisterError(f"record {record_id} {why}")


def unacceptable(acceptance: Acceptance, judged: Iterable[Judged]) -> list[Reference]:
    """Return what an acceptance names that is no hold on record, or none that may be accepted."""
    judged = [one for one in judged if one.inspection.at <= acceptance.at]
    return [one for one in acceptance.examined if may_accept(one, judged) is None]


def check_acceptable(acceptance: Acceptance, found: list[log.Entry]) -> None:
    """Check that an acceptance names holds that may be accepted, given all records of its item.

    Raises:
        RegisterError: it names something else.
    """
    wrong = unacceptable(acceptance, effect.judged_of(effect.in_force(found)))
    if wrong:
        one = wrong[0]
        place = f" of part {one.part}" if one.part else ""
        raise RegisterError(
            f"acceptance {acceptance.id}: inspection {one.inspection} has no hold by {one.rule}{place} that may be "
            "accepted. Nothing was kept. A removal, a number beyond its limit, and what was not looked at are never "
            "accepted; for a hold, name the inspection that found it."
        )


def check_disposable(item_id: str, found: list[log.Entry]) -> None:
    """Check that an item is no evidence of an incident that is still open.

    Raises:
        RegisterError: it shared the load of an incident and was not examined after it.
    """
    stands = effect.standing_of(item_id, found, date.max)
    kept = next((one for one in stands.open if one.ruling.rule == INCIDENT), None)
    if kept is not None:
        raise RegisterError(
            f"item {item_id} is evidence of the incident of {kept.on}, {kept.inspection}. Nothing was kept. Keep the "
            "item until a competent person has examined it after the incident; that record lets it be disposed of."
        )


def _of_parts(inspection: Inspection, parts: set[str]) -> Inspection:
    readings = tuple(one for one in inspection.readings if one.part in parts)
    findings = tuple(one for one in inspection.findings if one.part in parts)
    return inspection.model_copy(update={"readings": readings, "findings": findings})
