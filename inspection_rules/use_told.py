"""Telling a use bit by bit: what is worth asking of an item, and a use with one thing more, or less, told.

What is not told is not judged. So nothing here fills in what nobody said.
"""

from collections.abc import Iterable

from inspection_rules.case import Use
from inspection_rules.item import Item
from inspection_rules.measures import MEASURES
from inspection_rules.measures.leg_tension import SLINGS
from inspection_rules.rule import Meets, Pack, Rule
from inspection_rules.words import Scope

# How it hangs: any other item than a sling is reckoned as one part that hangs straight (`leg_tension.lift`).
_OF_SLINGS = frozenset({"legs", "leg_angle", "hitch"})


def askable(item: Item, packs: Iterable[Pack]) -> tuple[str, ...]:
    """Return the fields of `Use` that a rule of these packs can use for this item, in the order of the model.

    Whether a person is held by it is always worth asking: where no rule speaks of that, it is not for that use.
    """
    rules = [rule for pack in packs for rule in pack.rules if rule.scope is Scope.USE and rule.applies.to_item(item)]
    heard = {"persons", *(field for rule in rules for field in _hears(rule, item))}
    if item.kind not in SLINGS:
        heard -= _OF_SLINGS
    return tuple(field for field in Use.model_fields if field in heard)


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


def _hears(rule: Rule, item: Item) -> tuple[str, ...]:
    if rule.limit is not None:
        measure = MEASURES[rule.limit.measure]
        parts = [part for part in item.parts if part.kind in measure.on and rule.applies.to_part(part)]
        return measure.uses if parts or not measure.on else ()
    return _met(rule.meets) if rule.meets is not None else ()


def _met(meets: Meets) -> tuple[str, ...]:
    met = {"chemicals": meets.chemicals, "moisture": meets.moisture, "persons": meets.persons}
    return tuple(field for field, of_it in met.items() if of_it)
