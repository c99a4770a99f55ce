"""What was measured on an item over time: one series for each rule that has judged a number on a part.

Taken from the judgements as they were made then: nothing is computed anew, smoothed or carried on.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from statistics import fmean

from inspection_rules.item import Item
from inspection_rules.judgement import Ruling
from inspection_rules.measures import MEASURES
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.quantity import Quantity, QuantityError, decimal_text
from inspection_rules.record import Inspection, Reading
from inspection_rules.rulings.numbers import Z
from inspection_rules.standing import Judged
from inspection_rules.uncertainty import spread
from inspection_rules.words import BASELINE_KINDS, Answer, InspectionKind, Moisture, Tension

State = tuple[Tension, Moisture]
_ROUNDING = Decimal("0.00001")  # value, limit and margin are rounded one by one when they are recorded


@dataclass(frozen=True, slots=True)
class Taken:
    """One number, as it was judged at one inspection.

    Attributes:
        on: local date.
        kind: of the inspection.
        limit: what it was judged by then; None where the rule gave none.
        good: what the number is good to, ± in its unit, with 95 % on the side that counts; 0 where it is exact.
        state: tension and moisture it was read in; None where it was not read at this inspection but reckoned from
            what was read before.
    """

    on: date
    kind: InspectionKind
    value: float
    limit: float | None
    good: float
    answer: Answer
    state: State | None


@dataclass(frozen=True, slots=True)
class Series:
    """What one rule judged on one part, oldest first.

    Attributes:
        pack, rule, part: which rule, on which part; the part is empty for the item.
        unit: of every number; empty for counts.
        at_least: whether a number must stay above its limit rather than below it.
        baselines: local dates and kinds of the baselines it was read at.
        latest: the ruling on the last number; None for what was read and nothing judges.
    """

    pack: str
    rule: str
    part: str
    title: str
    unit: str
    at_least: bool
    taken: tuple[Taken, ...]
    baselines: tuple[tuple[date, InspectionKind], ...]
    latest: Ruling | None


def measured(judged: Iterable[Judged]) -> tuple[Series, ...]:
    """Return the series of all that was read and judged as a number, the one nearest to its limit first.

    Worst answer first, then the least margin as a share of the limit. What stands in the papers and was never read,
    and what speaks of a use, is left out.
    """
    inspections = list(judged)
    found: dict[tuple[str, str, str, str], list[tuple[Judged, Ruling]]] = {}
    for one in inspections:
        for ruling in one.judgement.rulings:
            if ruling.value is not None and ruling.measure in MEASURES:
                key = (ruling.pack, ruling.rule, ruling.part, ruling.unit)
                found.setdefault(key, []).append((one, ruling))
    series = [_series(several, inspections) for several in found.values() if _was_read(several)]
    return tuple(sorted(series, key=_nearest))


def as_read(judged: Iterable[Judged], item: Item, part: str) -> tuple[Series, ...]:
    """Return the readings of a part as they were taken, the mean of each visit; nothing is judged by them.

    `rule` and `title` are the id of the observation. What cannot be given in the unit it was read in last is left out.
    Of what is neither a length, a count nor a share, what it is good to is not known here.
    """
    inspections = list(judged)
    names = dict.fromkeys(r.observation for one in inspections for r in one.inspection.readings if r.part == part)
    return tuple(series for name in names if (series := _readings(inspections, item, part, name)) is not None)


def _readings(inspections: Sequence[Judged], item: Item, part: str, name: str) -> Series | None:
    read = [(one.inspection, got) for one in inspections if (got := one.inspection.reading(part, name)) is not None]
    unit = read[-1][1].values[-1].unit
    taken = []
    for inspection, reading in read:
        try:
            mean = fmean(float(value.to(unit)) for value in reading.values)
        except QuantityError:
            continue
        good = Z * _u(reading, item, unit)
        taken.append(Taken(inspection.on, inspection.kind, mean, None, good, Answer.SERVICEABLE, reading.state))
    kinds = tuple((one.on, one.kind) for one, _ in read if one.kind in BASELINE_KINDS)
    return Series("", name, part, name, unit, False, tuple(taken), kinds, None) if taken else None


def _u(reading: Reading, item: Item, unit: str) -> float:
    """The standard uncertainty of a reading's mean, in `unit`; 0 where none is known."""
    dimension = reading.values[0].dimension
    reckoned = {"length": "mm", "count": "", "fraction": "%"}.get(dimension)
    if reckoned is None:
        return 0.0
    u = spread(reading, nominal_diameter(item), reckoned).of_mean(len(reading.values))
    return u / float(Quantity("", Fraction(1), unit).to("mm")) if dimension == "length" else u


def number(value: Fraction | Decimal | float, unit: str) -> str:
    """Write a number with its unit for people: at most one decimal."""
    gap = "" if not unit or unit.startswith("°") else " "
    return f"{decimal_text(Fraction(value))}{gap}{unit}"


def _was_read(several: Sequence[tuple[Judged, Ruling]]) -> bool:
    return any(_read(one.inspection, ruling) for one, ruling in several)


def _read(inspection: Inspection, ruling: Ruling) -> bool:
    return any(inspection.reading(ruling.part, name) for name in MEASURES[ruling.measure].observations)


def _series(several: Sequence[tuple[Judged, Ruling]], inspections: Sequence[Judged]) -> Series:
    worst: dict[str, tuple[Judged, Ruling]] = {}
    for one, ruling in several:
        before = worst.get(one.inspection.id)
        if before is None or (ruling.margin or 0) < (before[1].margin or 0):
            worst[one.inspection.id] = (one, ruling)
    latest = list(worst.values())[-1][1]
    return Series(
        pack=latest.pack,
        rule=latest.rule,
        part=latest.part,
        title=latest.title,
        unit=latest.unit,
        at_least=any(_at_least(ruling) for _, ruling in worst.values()),
        taken=tuple(_taken(one.inspection, ruling) for one, ruling in worst.values()),
        baselines=tuple(
            (one.inspection.on, one.inspection.kind)
            for one in inspections
            if one.inspection.kind in BASELINE_KINDS and _read(one.inspection, latest)
        ),
        latest=latest,
    )


def _at_least(ruling: Ruling) -> bool:
    """Whether the margin counts upwards from the limit; a number exactly at its limit does not tell."""
    if ruling.value is None or ruling.limit is None or not ruling.margin:
        return ruling.limit is not None and "limit at least" in ruling.sentence
    return abs(ruling.margin - (ruling.value - ruling.limit)) <= _ROUNDING


def _taken(inspection: Inspection, ruling: Ruling) -> Taken:
    reading = inspection.reading(ruling.part, ruling.observation)
    value, limit = float(ruling.value or 0), None if ruling.limit is None else float(ruling.limit)
    if limit is not None and MEASURES[ruling.measure].moves and value < 0 and (ruling.margin or 0) < 0:
        limit = -limit  # it was held for moving into the bury, by the same distance
    state = reading.state if reading else None
    if state is None and _read(inspection, ruling):
        state = next(
            one.state
            for name in MEASURES[ruling.measure].observations
            if (one := inspection.reading(ruling.part, name)) is not None
        )
    return Taken(inspection.on, inspection.kind, value, limit, Z * float(ruling.u or 0), ruling.answer, state)


def _nearest(series: Series) -> tuple[int, float, str, str]:
    ruling = series.latest
    if ruling is None:
        return 0, float("inf"), series.part, series.rule
    margin, limit = float(ruling.margin or 0), abs(float(ruling.limit or 0))
    share = margin / limit if limit else margin
    return -ruling.answer.severity, share if ruling.limit is not None else float("inf"), series.part, series.rule
