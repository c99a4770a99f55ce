"""Telling a use bit by bit: what is worth asking of an item, and a use with one thing more, or less, told.

What is not told is not judged. So nothing here fills in what nobody said.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from inspection_rules.case import Use
from inspection_rules.item import Item
from inspection_rules.measures import MEASURES
from inspection_rules.measures.leg_tension import SLINGS
from inspection_rules.rule import Meets, Pack, Rule
from inspection_rules.words import Hitch, Scope

# How it hangs: any other item than a sling is reckoned as one part that hangs straight (`leg_tension.lift`).
_OF_SLINGS = frozenset({"legs", "leg_angle", "hitch"})
_LIFT = frozenset({"load", "legs", "leg_angle", "hitch"})


@dataclass(frozen=True, slots=True)
class Needs:
    """What the rules that count for an item have to know together before they can speak of a use.

    Attributes:
        lift: whether one reckons a lift. persons: whether one reckons it only where a person is held by it.
        pin: whether one reckons an eye on what it bears on.
        sling: whether how it goes round the load has to be told. legs: those on record.
    """

    lift: bool
    persons: bool
    pin: bool
    sling: bool
    legs: int


def askable(item: Item, packs: Iterable[Pack]) -> tuple[str, ...]:
    """Return the fields of `Use` that a rule of these packs can use for this item, in the order of the model.

    Whether a person is held by it is always worth asking: where no rule speaks of that, it is not for that use.
    """
    rules = _rules(item, packs)
    heard = {"persons", *(field for rule in rules for field in _hears(rule, item))}
    if item.kind not in SLINGS:
        heard -= _OF_SLINGS
    return tuple(field for field in Use.model_fields if field in heard)


def needs(item: Item, packs: Iterable[Pack]) -> Needs:
    """Return what the rules of these packs need of a use of this item."""
    each = [_hears(rule, item) for rule in _rules(item, packs)]
    lifts = [one for one in each if "load" in one]
    return Needs(
        lift=any("persons" not in one for one in lifts),
        persons=any("persons" in one for one in lifts),
        pin=any("pin_diameter" in one for one in each),
        sling=item.kind in SLINGS,
        legs=item.legs,
    )


def lacking(use: Use | None, each: Iterable[Needs]) -> tuple[str, ...]:
    """Return the fields that were not told and without which a rule about what was told cannot speak, in their order.

    Legs never lack, since those on record count; nor the length of an eye, which may be on record.
    """
    if use is None:
        return ()
    missing = {field for one in each for field in _missing(use, one)} - set(use.told)
    return tuple(field for field in Use.model_fields if field in missing)


def with_told(use: Use | None, field: str, value: object) -> Use | None:
    """Return a use with one thing told, or taken back where `value` is None; None where nothing is told any more.

    Raises:
        ValidationError: it is no value of that field.
    """
    said = {} if use is None else {name: getattr(use, name) for name in use.told}
    said.pop(field, None)
    if value is not None:
        said[field] = value
    made = Use.model_validate(said)
    return made if made.told else None


def joined(first: Use | None, second: Use | None) -> Use | None:
    """Return what was told of either use; where both were told the same thing, the second counts."""
    for field in second.told if second is not None else ():
        first = with_told(first, field, getattr(second, field))
    return first


def differ(one: Use | None, other: Use | None) -> bool:
    """Whether two uses were told the same thing differently."""
    if one is None or other is None:
        return False
    return any(getattr(one, field) != getattr(other, field) for field in set(one.told) & set(other.told))


def _missing(use: Use, one: Needs) -> set[str]:
    missing = {"pin_diameter"} if one.pin and use.eye_length is not None else set()
    begun = bool(_LIFT & set(use.told))
    if (one.lift and begun) or (one.persons and use.persons):
        missing.add("load")
        if one.sling:
            missing.add("hitch")
            if use.hitch is Hitch.BASKET or (use.legs or one.legs) > 1:
                missing.add("leg_angle")
    return missing


def _rules(item: Item, packs: Iterable[Pack]) -> list[Rule]:
    return [rule for pack in packs for rule in pack.rules if rule.scope is Scope.USE and rule.applies.to_item(item)]


def _hears(rule: Rule, item: Item) -> tuple[str, ...]:
    if rule.limit is not None:
        measure = MEASURES[rule.limit.measure]
        parts = [part for part in item.parts if part.kind in measure.on and rule.applies.to_part(part)]
        return measure.uses if parts or not measure.on else ()
    return _met(rule.meets) if rule.meets is not None else ()


def _met(meets: Meets) -> tuple[str, ...]:
    met = {"chemicals": meets.chemicals, "moisture": meets.moisture, "persons": meets.persons}
    return tuple(field for field, of_it in met.items() if of_it)
