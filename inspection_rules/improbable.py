"""What value is improbable: typed wrong, read in another unit or in another place, rather than found on the rope.

Nothing here judges the rope. A reading that looks odd is asked about before it is recorded; a person who confirms it is
believed, and its judgement is that of any other. All bounds are judgement without a source, wide enough that a reading
which is only bad news for the rope is seldom asked about.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from inspection_rules.item import Item
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.observation import Observation
from inspection_rules.quantity import Quantity, decimal_text
from inspection_rules.record import Inspection, Reading
from inspection_rules.uncertainty import scattered, spread
from inspection_rules.words import BASELINE_KINDS, Construction, InspectionKind, Method

Key = tuple[str, str]
INCH, TEN, THOUSAND = Fraction("25.4"), Fraction(10), Fraction(1000)
UNIT_OF = {"length": "mm", "count": "", "fraction": "%", "force": "kN", "temperature": "°C"}
NEAR_A_FACTOR = Fraction(4, 100)  # how near to 25.4 or 10 times a value counts as that factor
THICKER = Fraction(5, 100)  # two girths of one rope by two people differ by this much
ALIKE = Fraction(2, 100)  # two girths of one visit by one hand differ by this much
UNLIKE = (Fraction(1, 2), Fraction(3, 2))  # of what the nominal size lets expect
FAR_U, FAR_PART = 5, Fraction(1, 10)  # far from the last value: in standard uncertainties, and as a part of it
FAR_FORCE = (Fraction(1, 10), Fraction(3, 2))  # of the certificate's breaking force
SLACK_PLACE = Fraction(102, 100)
ALONG_THE_MARKS = frozenset({"mark_offset", "mark_tail", "mark_standing", "tip_step"})
ACROSS_THE_WEB = frozenset({"edge_cut", "warp_width", "warp_edge", "weft_width"})
STRANDS = {
    Construction.LAID_3: 3,
    Construction.LAID_4: 4,
    Construction.PLAITED_8: 8,
    Construction.HOLLOW_BRAID_8: 8,
    Construction.HOLLOW_BRAID_12: 12,
}
# Of each pair the first cannot be more than the second.
PAIRS = (("girth_worst", "girth_sound"), ("caliper_narrowest", "caliper_widest"), ("cut_yarns", "strand_yarns"))


@dataclass(frozen=True, slots=True)
class Past:
    """One earlier reading: at which kind of inspection, on which local date."""

    kind: InspectionKind
    on: date
    reading: Reading


def past_readings(inspections: Iterable[Inspection]) -> dict[Key, tuple[Past, ...]]:
    """Gather earlier readings by part and observation, from inspections oldest first."""
    found: dict[Key, tuple[Past, ...]] = {}
    for one in inspections:
        for reading in one.readings:
            key = (reading.part, reading.observation)
            found[key] = (*found.get(key, ()), Past(one.kind, one.on, reading))
    return found


def oddities(
    reading: Reading, observation: Observation, item: Item, visit: Inspection, past: Mapping[Key, Sequence[Past]]
) -> tuple[str, ...]:
    """Say why the newest value of a reading looks wrong, a sentence for each reason; empty when it does not.

    Args:
        reading: as it would be recorded, its newest value last.
        visit: the inspection under way, for what was read in it already.
        past: as `past_readings` gives it.
    """
    new, unit = reading.values[-1], UNIT_OF[observation.dimension or "length"]
    before = _comparable(past.get((reading.part, reading.observation), ()), new.dimension)
    said = [
        *_out_of_range(new, unit, observation, item),
        *_unlike_its_nominal(new, observation, item, reading.part),
        *_half_the_bury(new, reading, item, before, past),
        *_thicker_than_made(new, observation, before),
    ]
    if not observation.damages:
        said += _unlike_the_last(new, unit, reading, item, before)
        said += _apart(reading, unit, item)
    said += _pair(reading, unit, visit)
    return tuple(dict.fromkeys(said))


def odd_place(place: Quantity, item: Item) -> str:
    """Say why a place from end A looks wrong; empty when it does not."""
    if item.length is None or place.to("mm") <= item.length.to("mm") * SLACK_PLACE:
        return ""
    return f"{place.text} from end A lies beyond the item, which is {item.length.text} long."


def _out_of_range(new: Quantity, unit: str, observation: Observation, item: Item) -> Iterator[str]:
    value = new.to(unit)
    if unit == "%" and value > 100:
        yield f"{new.text} is more than all of it."
    if unit == "mm" and value == 0 and not observation.signed and not observation.damages:
        yield f"{new.text} would mean that there is nothing to measure."
    if unit == "mm" and item.length is not None and abs(value) > item.length.to("mm"):
        yield f"{new.text} is longer than the item, which is {item.length.text} long."
    if observation.id in ACROSS_THE_WEB and item.width is not None and value > item.width.to("mm"):
        yield f"{new.text} is wider than the web, which is {item.width.text} wide."
    strands = item.strands or STRANDS.get(item.construction) if item.construction else item.strands
    if observation.id == "cut_strands" and strands is not None and value > strands:
        yield f"{new.text} strands cannot be cut: the rope has {strands}."
    if observation.dimension == "force" and item.breaking_force is not None:
        full = item.breaking_force.to("kN")
        if not FAR_FORCE[0] * full <= value <= FAR_FORCE[1] * full:
            yield f"{new.text} does not fit the breaking force on its certificate, {item.breaking_force.text}."


def _unlike_its_nominal(new: Quantity, observation: Observation, item: Item, part: str) -> Iterator[str]:
    d = nominal_diameter(item)
    if observation.id.startswith("girth") and d is not None:
        around = Fraction(math.pi) * d
        if not UNLIKE[0] * around <= new.to("mm") <= UNLIKE[1] * around:
            yield (
                f"A rope of {decimal_text(d)} mm measures about {decimal_text(around, 0)} mm all the way round; "
                f"{new.text} does not fit it."
            )
    if observation.id.startswith("caliper") and d is not None and not UNLIKE[0] * d <= new.to("mm") <= UNLIKE[1] * d:
        yield f"The rope is {decimal_text(d)} mm thick; {new.text} does not fit it."
    own = item.part(part) if part else None
    thick = own.thickness if own is not None and observation.id == "fitting_thickness" else None
    if thick is not None and new.to("mm") > thick.to("mm") * (1 + THICKER):
        yield f"{new.text} is thicker than it was when new, {thick.text}."
    opened = own.throat_opening if own is not None and observation.id == "hook_throat" else None
    if opened is not None and new.to("mm") < opened.to("mm") * (1 - FAR_PART):
        yield f"{new.text} is narrower than it was when new, {opened.text}."


def _half_the_bury(
    new: Quantity, reading: Reading, item: Item, earlier: Sequence[Past], past: Mapping[Key, Sequence[Past]]
) -> Iterator[str]:
    if reading.observation not in ALONG_THE_MARKS or not reading.part:
        return
    part = item.part(reading.part)
    made = _comparable(past.get((reading.part, "bury"), ()), "length")
    bury = _mean(made[-1].reading, "mm") if made else part.required_bury.to("mm") if part.required_bury else None
    if earlier:
        base = _mean(earlier[0].reading, "mm")
    elif reading.observation == "mark_offset":
        base = Fraction(0)
    elif reading.observation != "tip_step" and part.marks_at is not None:
        base = part.marks_at.to("mm")
    else:
        return
    moved = abs(new.to("mm") - base)
    if bury is not None and bury > 0 and moved >= bury / 2:
        yield (
            f"{new.text} would be a slip of {decimal_text(moved, 0)} mm: half of the bury of "
            f"{decimal_text(bury, 0)} mm or more."
        )


def _thicker_than_made(new: Quantity, observation: Observation, before: Sequence[Past]) -> Iterator[str]:
    if not observation.id.startswith(("girth", "caliper")) or observation.id == "caliper_widest":
        return
    base = next((one for one in reversed(before) if one.kind in BASELINE_KINDS), None)
    if base is not None and new.to("mm") > _mean(base.reading, "mm") * (1 + THICKER):
        was = decimal_text(_mean(base.reading, "mm"))
        yield f"{new.text} is more than the {was} mm read {base.kind.value}; a rope seldom grows thicker."


def _unlike_the_last(new: Quantity, unit: str, reading: Reading, item: Item, before: Sequence[Past]) -> Iterator[str]:
    if not before:
        return
    last = before[-1]
    value, was = new.to(unit), _mean(last.reading, unit)
    then, on = _in_words(was, unit), last.on.isoformat()
    factor = _factor(abs(value), abs(was), reading.observation)
    if factor == INCH:
        yield (
            f"{new.text} beside the last value, {then} of {on}: one is 25.4 times the other. "
            f"Was it read in the other unit?"
        )
    elif factor == TEN:
        yield (
            f"{new.text} beside the last value, {then} of {on}: one is ten times the other. "
            f"Is a digit or the point wrong?"
        )
    elif factor == THOUSAND:
        yield (
            f"{new.text} beside the last value, {then} of {on}: one is a thousand times the other. "
            f"Was it read in another unit?"
        )
    if factor:
        return
    if unit == "mm":
        d = nominal_diameter(item)
        u = math.hypot(
            spread(last.reading, d, unit).of_mean(len(last.reading.values)),
            spread(reading.model_copy(update={"values": (new,)}), d, unit).of_mean(1),
        )
        allowed = max(Fraction(FAR_U * u), FAR_PART * abs(was))
    elif unit == "":
        allowed = max(Fraction(1), FAR_PART * was)
    else:
        allowed = FAR_PART * 3 * abs(was)
    if abs(value - was) > allowed:
        yield f"{new.text} lies far from the last value, {then} of {on}."


def _factor(value: Fraction, was: Fraction, observation: str) -> Fraction | None:
    """Return the factor between two values where it is one that slips of the hand make."""
    if not value or not was or (observation == "mark_offset" and was < 5):
        return None
    ratio = max(value / was, was / value)
    return next((one for one in (INCH, TEN, THOUSAND) if abs(ratio / one - 1) <= NEAR_A_FACTOR), None)


def _apart(reading: Reading, unit: str, item: Item) -> Iterator[str]:
    if len(reading.values) < 2:
        return
    values = [value.to(unit) for value in reading.values]
    if reading.method is Method.COUNTED and len(set(values)) > 1:
        yield f"{_listed(reading)}: counts of one thing agree."
    elif unit == "mm" and scattered(reading, nominal_diameter(item), unit):
        yield f"{_listed(reading)}: they lie farther apart than readings of one thing by {reading.method.value} do."


def _pair(reading: Reading, unit: str, visit: Inspection) -> Iterator[str]:
    for less, more in PAIRS:
        if reading.observation not in (less, more):
            continue
        other = visit.reading(reading.part, more if reading.observation == less else less)
        if other is None or other.values[0].dimension != reading.values[-1].dimension:
            continue
        new, there = reading.values[-1].to(unit), _mean(other, unit)
        small, large = (new, there) if reading.observation == less else (there, new)
        if reading.observation == more and less == "cut_yarns":
            small = max(value.to(unit) for value in other.values)
        if small <= large * (1 + (ALIKE if unit == "mm" else 0)):
            continue
        typed, beside = reading.values[-1].text, _in_words(there, unit)
        if less == "girth_worst":
            yield f"{typed} beside {beside}: the worst place cannot be thicker than the sound one."
        elif less == "caliper_narrowest":
            yield f"{typed} beside {beside}: the narrowest cannot be more than the widest."
        else:
            yield f"{typed} beside {beside}: no more yarns can be cut than the strand has."


def _comparable(before: Sequence[Past], dimension: str) -> tuple[Past, ...]:
    """Leave out what an older set of rules let be read as something else: a count is not compared with a length."""
    return tuple(one for one in before if one.reading.values[0].dimension == dimension)


def _listed(reading: Reading) -> str:
    """The values as typed; where they are in two units, each in millimetres too."""
    if len({value.unit for value in reading.values}) == 1:
        return ", ".join(value.text for value in reading.values)
    return ", ".join(
        value.text if value.unit == "mm" else f"{value.text} ({decimal_text(value.to('mm'))} mm)"
        for value in reading.values
    )


def _mean(reading: Reading, unit: str) -> Fraction:
    return sum((value.to(unit) for value in reading.values), Fraction(0)) / len(reading.values)


def _in_words(value: Fraction, unit: str) -> str:
    return f"{decimal_text(value)} {unit}".strip()
