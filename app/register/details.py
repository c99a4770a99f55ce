"""The rows that repeat what an item's records say one by one, so that it can be asked for without reading bodies.

Each is a function of one revision, of one inspection, or of the standing; none looks at a rule book, so that rows
do not change when the rules do.
"""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from app.register.bodies import when_text
from inspection_rules.item import Item
from inspection_rules.judgement import Judgement
from inspection_rules.quantity import Dimension, Quantity
from inspection_rules.record import Inspection
from inspection_rules.standing import Judged, Open

Row = dict[str, object]
# What an inspection has rows in.
OF_INSPECTION = ("reading", "finding", "ruling")
_UNITS: dict[Dimension, str] = {
    "length": "mm", "force": "N", "mass": "kg", "temperature": "°C", "fraction": "%", "count": "",
    "angle": "° included",
}  # fmt: skip


def of_parts(item_id: str, item: Item) -> list[Row]:
    """Return the rows of an item's parts."""
    return [
        {
            "item": item_id,
            "part": part.id,
            "kind": part.kind.value,
            "end": part.end,
            "splice": part.splice.value if part.splice else None,
            "thimble": part.thimble.value,
            "lock_stitched": part.lock_stitched,
            "chafe_gear": part.chafe_gear,
            "required_bury": part.required_bury.text if part.required_bury else None,
            "required_by": part.required_by,
            "marks_at": part.marks_at.text if part.marks_at else None,
        }
        for part in item.parts
    ]


def of_inspections(item_id: str, counted: Mapping[str, Judged]) -> dict[str, list[Row]]:
    """Return the rows of inspections, given by record id, for each table named in `OF_INSPECTION`."""
    rows: dict[str, list[Row]] = {name: [] for name in OF_INSPECTION}
    for record_id, judged in counted.items():
        inspection = judged.inspection
        shared: Row = {
            "item": item_id, "inspection": record_id, "on": inspection.on, "at": when_text(inspection.at),
        }  # fmt: skip
        rows["reading"] += [{**shared, **row} for row in _readings(inspection)]
        rows["finding"] += [{**shared, **row} for row in _findings(inspection)]
        rows["ruling"] += [{**shared, **row} for row in _rulings(judged.judgement)]
    return rows


def of_open(item_id: str, still: Iterable[Open]) -> list[Row]:
    """Return the rows of the holds and removals that are still open, in the order of the standing."""
    return [
        {
            "item": item_id,
            "position": position,
            "inspection": one.inspection,
            "on": one.on,
            "rule": one.ruling.rule,
            "pack": one.ruling.pack,
            "part": one.ruling.part,
            "answer": one.ruling.answer.value,
            "door": one.ruling.door.value if one.ruling.door else None,
            "sentence": one.ruling.sentence,
            "mends": one.ruling.mends.value,
        }
        for position, one in enumerate(still, 1)
    ]


def _readings(inspection: Inspection) -> Iterable[Row]:
    for reading in inspection.readings:
        for position, quantity in enumerate(reading.values, 1):
            value, unit = _drawn(quantity)
            yield {
                "part": reading.part,
                "observation": reading.observation,
                "position": position,
                "text": quantity.text,
                "value": value,
                "unit": unit,
                "method": reading.method.value,
                "tension": reading.tension.value,
                "moisture": reading.moisture.value,
            }


def _findings(inspection: Inspection) -> Iterable[Row]:
    for finding in inspection.findings:
        yield {
            "part": finding.part,
            "observation": finding.observation,
            "seen": finding.seen.value,
            "conditions": ", ".join(finding.conditions),
        }


def _rulings(judgement: Judgement) -> Iterable[Row]:
    for position, ruling in enumerate((*judgement.rulings, *judgement.not_for_this_use), 1):
        yield {
            "position": position,
            "rule": ruling.rule,
            "pack": ruling.pack,
            "part": ruling.part,
            "scope": ruling.scope.value,
            "answer": ruling.answer.value,
            "door": ruling.door.value if ruling.door else None,
            "value": _written(ruling.value),
            "limit": _written(ruling.limit),
            "u": _written(ruling.u),
            "unit": ruling.unit,
            "sentence": ruling.sentence,
        }


def _drawn(quantity: Quantity) -> tuple[float, str]:
    """A value in one unit for all of its dimension; days and months do not convert, so durations keep theirs."""
    unit = _UNITS.get(quantity.dimension, quantity.unit)
    return float(quantity.to(unit)), unit


def _written(number: Decimal | None) -> str | None:
    return None if number is None else f"{number:f}"
