"""What is worth knowing and decides nothing: advice beside a judgement."""

from collections.abc import Iterator

from inspection_rules.case import Case
from inspection_rules.measures import MEASURES
from inspection_rules.rule import Pack
from inspection_rules.use_advice import use_advice
from inspection_rules.words import InspectionKind


def advisories(case: Case, packs: tuple[Pack, ...]) -> tuple[str, ...]:
    """Return the advice that goes with this case and these packs."""
    return (*_surplus(case), *use_advice(case), *_cannot_bite(case, packs), *_keep(case, packs))


def _surplus(case: Case) -> Iterator[str]:
    if case.inspection.kind is not InspectionKind.AS_MADE:
        return
    for part in case.item.terminations:
        if case.inspection.reading(part.id, "bury") is not None and part.required_bury is not None:
            yield f"End {part.end}: a new splice settles; common practice is about two diameters of bury to spare."


def _cannot_bite(case: Case, packs: tuple[Pack, ...]) -> Iterator[str]:
    """A milder limit of one regime changes nothing beside a stricter rule of another: say so."""
    counting = {rule.id: (pack, rule) for pack in packs for rule in pack.rules if rule.applies.to_item(case.item)}
    read = {one.observation for one in case.inspection.readings}
    for pack, rule in counting.values():
        if rule.limit is None or not read & set(MEASURES[rule.limit.measure].observations):
            continue
        for name in rule.cannot_bite_beside:
            if name in counting:
                stricter, by = counting[name]
                yield f"{rule.title} ({pack.title}) makes nothing milder here. {stricter.title}: {by.fires}"
                break


def _keep(case: Case, packs: tuple[Pack, ...]) -> Iterator[str]:
    if case.inspection.kind not in (InspectionKind.PERIODIC, InspectionKind.AFTER_INCIDENT):
        return
    for pack in packs:
        if not any(rule.applies.to_item(case.item) for rule in pack.rules):
            continue
        for duty in pack.retention:
            yield f"Keep {duty.record}: {duty.keep} ({duty.source})."
