"""Whether a site's or a maker's pack only tightens.

Its rules count beside all others and the worst answer stands, so none can make an answer milder. What this check
refuses is a rule that *says* something milder than one that stands anyway: whoever reads it would believe the milder.

Each rule of the pack is set beside each rule that speaks of the same subject on items both may apply to, of common
practice or of the regime the pack names. The same subject is: the same measure limited to the same side, followed as a
movement or as another route; the same condition of the same question; an interval since and until the same kinds of
inspection; an age since the same day; the same fact at the same kind of inspection; combined damage. What an
inspection needs, and what a use must not meet, is only ever added. Two rules apply to the same items unless one of
their filters rules that out.

Beside such a rule it must not have a looser bound or a longer time, nor at the same bound a milder outcome, nor pass
at equality where the other does not. A stricter bound may have a milder outcome: an earlier step before the other's.
So may a maker's binding life, whatever its length, stand behind an age that only holds. Formulas are compared by
their parameters; what cannot be compared is refused, and says so.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from inspection_rules.observation import Applies
from inspection_rules.quantity import Quantity
from inspection_rules.rule import Formula, Pack, Rule, span
from inspection_rules.words import Answer, Service

STRICTER, AS_STRICT, LOOSER = 1, 0, -1
Order = int | None  # None: it cannot be told


@dataclass(frozen=True, slots=True)
class Looser:
    """In which field a rule is looser than another, or cannot be compared with it, and why."""

    field: str
    why: str


def loosening(pack: Pack, others: Iterable[Pack]) -> Iterator[str]:
    """Yield each way in which a pack says something milder than what stands: rule, field, and the rule it loosens."""
    standing = [
        (other, rule)
        for other in others
        if not other.tightens and (not other.regime or other.regime == pack.regime)
        for rule in other.rules
    ]
    for mine in pack.rules:
        for other, known in standing:
            if mine.scope is known.scope and _overlap(mine.applies, known.applies):
                for one in _beside(mine, known, maker=pack.maker):
                    yield f"rule {mine.id}: {one.field}: {one.why}; it would loosen {known.id} of pack {other.id}"


def _overlap(one: Applies, other: Applies) -> bool:
    """Whether some part of some item may be meant by both: nothing that is asked of both rules it out."""
    for name in Applies.model_fields:
        mine, known = getattr(one, name), getattr(other, name)
        if isinstance(mine, bool) and isinstance(known, bool) and mine is not known:
            return False
        # An item may have splices and fittings of several kinds.
        several = name.startswith("has_")
        if isinstance(mine, tuple) and mine and known and not several and not set(mine) & set(known):
            return False
    return True


def _beside(mine: Rule, known: Rule, *, maker: bool) -> Iterator[Looser]:
    if mine.body != known.body:
        return
    if mine.body == "limit":
        yield from _limit(mine, known)
    elif mine.body == "condition":
        yield from _condition(mine, known)
    elif mine.body == "interval":
        yield from _interval(mine, known)
    elif mine.body == "age":
        yield from _age(mine, known, maker=maker)
    elif mine.body == "movement":
        yield from _movement(mine, known)
    else:
        yield from _rest(mine, known)


def _limit(mine: Rule, known: Rule) -> Iterator[Looser]:
    if mine.limit is None or known.limit is None:
        return
    one, other = mine.limit, known.limit
    if one.measure != other.measure or one.lower is not other.lower:
        return
    field = "limit." + next(n for n in ("at_least", "more_than", "at_most", "less_than") if getattr(one, n) is not None)
    yield from _bounded(field, one.bound, other.bound, larger_is_stricter=one.lower)
    if _bounds(one.bound, other.bound, larger_is_stricter=one.lower) != AS_STRICT:
        return
    if one.equality_passes and not other.equality_passes:
        yield Looser(field, "exactly at the limit it passes, where the other does not")
    yield from _outcome("limit", one.outcome, other.outcome)


def _condition(mine: Rule, known: Rule) -> Iterator[Looser]:
    if mine.condition is None or known.condition is None:
        return
    one, other = mine.condition, known.condition
    if one.observation != other.observation or not set(one.when) & set(other.when):
        return
    yield from _outcome("condition", one.outcome, other.outcome)
    if one.outcome is not other.outcome:
        return
    if set(one.graded_by) - set(other.graded_by):
        yield Looser("condition.graded_by", "its extent would decide, where the other asks for none")
    if one.outcome is Answer.WATCH:
        yield from _lasting("look_again", mine.look_again, known.look_again)


def _interval(mine: Rule, known: Rule) -> Iterator[Looser]:
    if mine.interval is None or known.interval is None:
        return
    one, other = mine.interval, known.interval
    if (set(one.since), set(one.until)) != (set(other.since), set(other.until)):
        return
    for service in Service:
        longest = one.longest.get(service, one.longest[Service.NORMAL])
        yield from _lasting(
            f"interval.longest.{service}", longest, other.longest.get(service, other.longest[Service.NORMAL])
        )


def _age(mine: Rule, known: Rule, *, maker: bool) -> Iterator[Looser]:
    if mine.age is None or known.age is None or mine.age.since != known.age.since:
        return
    one, other = mine.age, known.age
    if maker and one.outcome.severity > other.outcome.severity:
        return
    yield from _lasting("age.longest", one.longest, other.longest)
    if _times(one.longest, other.longest) == AS_STRICT:
        yield from _outcome("age", one.outcome, other.outcome)


def _movement(mine: Rule, known: Rule) -> Iterator[Looser]:
    if mine.movement is None or known.movement is None or mine.movement.measure != known.movement.measure:
        return
    one, other = mine.movement, known.movement
    for name in ("watch_k", "hold_k", "steps_to_remove"):
        yield from _number(f"movement.{name}", getattr(one, name), getattr(other, name))
    for pair in (("action", one.action, other.action), ("provisional", one.provisional, other.provisional)):
        yield from _bounded(f"movement.{pair[0]}", pair[1], pair[2], larger_is_stricter=False)
    asked = [(step.readings, step.k) for step in one.confirmed]
    stands = [(step.readings, step.k) for step in other.confirmed]
    if [readings for readings, _ in asked] != [readings for readings, _ in stands]:
        yield Looser("movement.confirmed", "it cannot be compared with the other's: name the same numbers of readings")
    elif any(k > beside for (_, k), (_, beside) in zip(asked, stands, strict=True)):
        yield Looser("movement.confirmed", "it takes more to confirm movement")


def _rest(mine: Rule, known: Rule) -> Iterator[Looser]:
    if mine.route and known.route and mine.route.measure == known.route.measure:
        yield from _number("route.hold_k", mine.route.hold_k, known.route.hold_k)
    if mine.fact and known.fact and set(mine.fact.inspection) & set(known.fact.inspection):
        if mine.fact.field != known.fact.field:
            return
        yield from _outcome("fact", mine.fact.outcome, known.fact.outcome)
    if mine.combined and known.combined:
        one, other = mine.combined, known.combined
        yield from _bounded("combined.within", one.within, other.within, larger_is_stricter=True)
        if _bounds(one.within, other.within, larger_is_stricter=True) == AS_STRICT:
            yield from _outcome("combined", one.outcome, other.outcome)


def _outcome(body: str, one: Answer, other: Answer) -> Iterator[Looser]:
    if one.severity < other.severity:
        yield Looser(f"{body}.outcome", f"'{one}' is milder than '{other}'")


def _number(field: str, one: Decimal | int, other: Decimal | int) -> Iterator[Looser]:
    if one > other:
        yield Looser(field, f"{one} is looser than {other}")


def _bounded(
    field: str, one: Quantity | Formula, other: Quantity | Formula, *, larger_is_stricter: bool
) -> Iterator[Looser]:
    order = _bounds(one, other, larger_is_stricter=larger_is_stricter)
    if order is None:
        yield Looser(field, f"{_said(one)} cannot be compared with {_said(other)}: give it in the same form")
    elif order == LOOSER:
        yield Looser(field, f"{_said(one)} is looser than {_said(other)}")


def _bounds(one: Quantity | Formula, other: Quantity | Formula, *, larger_is_stricter: bool) -> Order:
    larger = _larger(one, other)
    return larger if larger is None or larger_is_stricter else -larger


def _larger(one: Quantity | Formula, other: Quantity | Formula) -> Order:
    """1 where the first is larger for every item, 0 where they are the same, −1 where it is smaller; else None."""
    if isinstance(one, Quantity) and isinstance(other, Quantity):
        return _sign(one.to(other.unit) - other.value) if one.dimension == other.dimension else None
    if not (isinstance(one, Formula) and isinstance(other, Formula)) or one.formula != other.formula:
        return None
    if (_mm(one.below), _mm(one.otherwise)) != (_mm(other.below), _mm(other.otherwise)):
        return None
    if [(f.hitch, f.legs, f.up_to) for f in one.factors] != [(f.hitch, f.legs, f.up_to) for f in other.factors]:
        return None
    pairs = [(one.times, other.times), *((a.times, b.times) for a, b in zip(one.factors, other.factors, strict=True))]
    if any((mine is None) is not (known is None) for mine, known in pairs):
        return None
    signs = {_sign(Fraction(mine) - Fraction(known)) for mine, known in pairs if mine is not None and known is not None}
    signs.add(_sign((_mm(one.least) or Fraction(0)) - (_mm(other.least) or Fraction(0))))
    signs.discard(0)
    return None if len(signs) > 1 else next(iter(signs), 0)


def _mm(length: Quantity | None) -> Fraction | None:
    return None if length is None else length.to("mm")


def _sign(difference: Fraction) -> int:
    return (difference > 0) - (difference < 0)


def _lasting(field: str, one: str, other: str) -> Iterator[Looser]:
    order = _times(one, other)
    if order is None:
        yield Looser(field, f"{one} cannot be compared with {other}: give it in the same unit")
    elif order == LOOSER:
        yield Looser(field, f"{one} is longer than {other}")


def _times(one: str, other: str) -> Order:
    """How strict a duration is beside another; months have 28 to 31 days, so some of them cannot be told apart."""
    (mine, unit), (known, beside) = span(one), span(other)
    if unit == beside:
        return _sign(Fraction(known - mine))
    (least, most), (shortest, longest) = _days(mine, unit), _days(known, beside)
    if most <= shortest:
        return STRICTER
    return LOOSER if least >= longest else None


def _days(number: int, unit: str) -> tuple[Fraction, Fraction]:
    """The fewest and the most days a duration can have, not more than three days apart from them."""
    if unit == "days":
        return Fraction(number), Fraction(number)
    mean = number * Fraction(146097, 4800)  # days in 400 years, by their months
    return mean - 3, mean + 3


def _said(bound: Quantity | Formula) -> str:
    if isinstance(bound, Quantity):
        return f"'{bound}'"
    given = bound.model_dump(mode="json", exclude_defaults=True, exclude={"formula", "factors"})
    return f"{bound.formula}" + (f" ({', '.join(f'{name} {value}' for name, value in given.items())})" if given else "")
