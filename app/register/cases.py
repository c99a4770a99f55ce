"""Putting together what one judgement needs, and what may be corrected."""

from datetime import date

from pydantic import ValidationError
from sqlalchemy import Connection, select

from app.register import effect, log
from app.register.bodies import Body, Correction, Inspected, ItemRevised
from app.register.errors import RegisterError
from app.register.tables import table
from inspection_rules.case import Case, Site, Use
from inspection_rules.record import Inspection, Person
from inspection_rules.words import BASELINE_KINDS, COMPETENT, Answer


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

    Only inspections that count and are not later than this one are its past. What was read on a part that the
    item no longer has, since it was spliced anew, says nothing about the item as it is and is left out.

    Raises:
        RegisterError: the item is not there, a record of it cannot be read, or the inspection does not fit it.
    """
    heads = effect.heads(effect.readable(inspection.item, found))
    item = heads[-1].item
    parts = {"", *(part.id for part in item.parts)}
    past = [
        _of_parts(one.inspection, parts)
        for one in effect.judged_of(effect.in_force(found))
        if one.inspection.id != inspection.id and one.inspection.at <= inspection.at
    ]
    try:
        return Case(
            on=on,
            item=item,
            inspection=inspection,
            baselines=tuple(one for one in past if one.kind in BASELINE_KINDS),
            earlier=tuple(one for one in past if one.kind not in BASELINE_KINDS),
            use=use,
            regimes=regimes,
            site=site,
        )
    except ValidationError as error:
        raise RegisterError(f"inspection {inspection.id}: {error.errors()[0]['msg']}.") from None


def item_of(connection: Connection, record_id: str) -> str:
    """Return the item a record is about.

    Raises:
        RegisterError: there is no such record.
    """
    record = table("record").c
    item = connection.scalar(select(record.item).where(record.id == record_id))
    if item is None:
        raise RegisterError(f"record {record_id} is not in this register. Nothing was kept. Check its id.")
    return str(item)


def check_correctable(record_id: str, found: list[log.Entry], by: Person) -> None:
    """Check that a correction by this person may take a record out, given all records of its item.

    Raises:
        RegisterError: it is no inspection, work or release, was corrected before, or keeps the item out of use
            and is corrected by somebody who could not release it.
    """
    body = next(one.body for one in found if one.id == record_id)
    why = ""
    if isinstance(body, ItemRevised):
        why = "describes the item itself. Nothing was kept. Revise the item instead."
    elif isinstance(body, Correction):
        why = "is a correction. Nothing was kept. Log the right record instead."
    elif body is not None and effect.is_final(body):
        why = "ends the item for good, and no correction lifts that. Nothing was kept."
    elif _stops(body) and by.competence not in COMPETENT:
        why = "warns of the item or keeps it out of use. Nothing was kept. Have a competent person correct it."
    elif record_id in effect.superseded(found):
        why = "was corrected before. Nothing was kept. Correct its replacement instead."
    if why:
        raise RegisterError(f"record {record_id} {why}")


def _stops(body: Body | None) -> bool:
    return isinstance(body, Inspected) and body.judged.judgement.answer is not Answer.SERVICEABLE


def _of_parts(inspection: Inspection, parts: set[str]) -> Inspection:
    readings = tuple(one for one in inspection.readings if one.part in parts)
    findings = tuple(one for one in inspection.findings if one.part in parts)
    return inspection.model_copy(update={"readings": readings, "findings": findings})
