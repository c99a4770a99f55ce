"""A rule in plain words: what it asks, what it applies to, where it comes from and how well that was verified."""

from collections.abc import Iterator

from inspection_rules.book import RuleBook
from inspection_rules.judgement import Source
from inspection_rules.observation import Applies
from inspection_rules.quantity import Quantity
from inspection_rules.rule import (
    ConditionRule,
    Factor,
    Formula,
    Interval,
    Limit,
    Meets,
    Movement,
    Needs,
    RouteRule,
    Rule,
)
from inspection_rules.words import Answer, Mend, Scope, Service

SIDES = {"at_least": "at least", "more_than": "more than", "at_most": "at most", "less_than": "less than"}
NOT_FOR_USE = "not for this use"
# How well a source was verified, from best to worst, in one word for lists and one sentence for people.
STANDINGS = {"read": "read", "secondary": "secondary", "memory": "not verified", "none": "no source"}
SENTENCES = {
    "read": "Read: somebody has read the clause itself.",
    "secondary": "Secondary: read only where another publication repeats it.",
    "memory": "Not verified: written from general knowledge; nobody has read the clause yet.",
    "none": "Common practice: there is no published source.",
}
MOST_LEGS = 4  # factors of so many legs are those of any number
_FLAGS = {
    "one_ended": ("with one end on record", "with both ends on record, or none"),
    "continuous": ("always under tension", "not always under tension"),
    "lock_stitched": ("lock-stitched", "not lock-stitched"),
    "chafe_gear": ("with chafe gear", "without chafe gear"),
    "tails_buried": ("strand tails buried", "strand tails standing out"),
}


def outcome(rule: Rule) -> Answer | None:
    """Return the answer a rule gives at its worst; None for one that speaks of the use, not of the item."""
    if rule.scope is Scope.USE:
        return None
    if rule.movement:
        return Answer.REMOVE
    body = rule.limit or rule.condition or rule.age or rule.combined or rule.fact
    return body.outcome if body else Answer.HOLD


def outcome_words(rule: Rule) -> str:
    """Write what follows when a rule speaks: its answer, or that the item is not for this use."""
    if rule.movement:
        return "watch, hold, remove"
    answer = outcome(rule)
    return str(answer) if answer else NOT_FOR_USE


def asks(rule: Rule, book: RuleBook) -> Iterator[str]:
    """Yield what a rule asks, a sentence each; a limit with its number."""
    if rule.limit:
        yield from _limit(rule.limit)
    elif rule.movement:
        yield from _movement(rule.movement)
    elif rule.route:
        yield from _route(rule.route)
    elif rule.condition:
        yield from _condition(rule.condition, book)
    elif rule.needs:
        yield from _needs(rule.needs, book)
    elif rule.interval:
        yield from _interval(rule.interval)
    elif rule.fact:
        yield f"On the item's record, {_at(rule.fact.inspection)}: {_spaced(rule.fact.field)}."
    elif rule.age:
        day = "made" if rule.age.since == "made" else "first used"
        yield f"No longer than {_span(rule.age.longest)} from the day it was {day}."
    elif rule.combined:
        yield f"Losses of fibre within {rule.combined.within} of each other add up to one limit."
    elif rule.meets:
        yield f"In use it must not meet: {_met(rule.meets)}."


def brief(rule: Rule, book: RuleBook) -> str:
    """Write in a few words what a rule asks, for a list that has its title beside it."""
    if rule.limit:
        return _side(rule.limit)
    if rule.condition:
        said = {one.id: one.say for one in book.observations[rule.condition.observation].conditions}
        return "; ".join(said.get(one, one) for one in rule.condition.when)
    return " ".join(asks(rule, book)).replace(": – ", ": ").replace(" – ", " ")


def applies_to(applies: Applies) -> str:
    """Write what something applies to; empty where nothing narrows it."""
    found: list[str] = []
    for name, value in applies.model_dump(mode="json", exclude_defaults=True).items():
        if name in _FLAGS:
            found.append(_FLAGS[name][0 if value else 1])
        elif name == "cover_load":
            found.append(f"cover carrying {' or '.join(value)} of the load")
        elif name.startswith("has_"):
            found.append(f"with {_or(value)}")
        elif name == "service":
            found.append(f"{_or(value)} service")
        else:
            found.append(_or(value))
    return "; ".join(found)


def mended(mends: Mend) -> str:
    """Write what may bring an item back after a rule has stopped it."""
    return "Nothing brings it back." if mends is Mend.NOTHING else f"What may bring it back: {mends}."


def standing(source: Source) -> str:
    """Write in one sentence how well a source was verified."""
    if source.verified != "none":
        return SENTENCES.get(source.verified, source.verified)
    if source.kind == "maker":
        return "As the maker's document is recorded; nobody has compared it."
    return "Set by the site itself." if source.kind == "site" else SENTENCES["none"]


def standing_word(source: Source) -> str:
    """Write in one or two words how well a source was verified, for a list."""
    return "as recorded" if source.kind == "maker" and source.verified == "none" else STANDINGS[source.verified]


def citation(source: Source) -> str:
    """Write document, clause and edition; how well they were verified is told by `standing`."""
    gap = "" if not source.clause or source.clause.startswith("(") else " "
    edition = f" ({source.edition})" if source.edition else ""
    kind = "" if source.kind in source.document.lower() else f" · {source.kind}"
    return f"{source.document}{gap}{source.clause}{edition}{kind}"


def bound(limit: Quantity | Formula) -> str:
    """Write a limit's value; one that depends on the item as the words of its formula."""
    if not isinstance(limit, Formula):
        return str(limit)
    if limit.formula == "required_bury":
        return "what the splice's own instruction asks for"
    if limit.factors:
        return "; ".join(_factor(one) for one in limit.factors)
    name = "the nominal diameter" if limit.formula in ("diameters", "slip_action") else _spaced(limit.formula)
    said = f"{limit.times} × {name}" if limit.times is not None and limit.times != 1 else name
    if limit.formula == "slip_action":
        said = f"the site's own action value, or {said}"
    if limit.least is not None:
        said += f", never less than {limit.least}"
    if limit.below is not None:
        said += f"; {limit.otherwise} from {limit.below} diameter on"
    return said


def _factor(one: Factor) -> str:
    """What a sling may carry in one hitch; the tag's own rating for the hitch goes before it."""
    first, last = one.legs[0], one.legs[-1]
    legs = f", {first} to {last} legs" if first < last else f", {first} leg{'s' if first > 1 else ''}"
    legs = "" if len(one.legs) == MOST_LEGS else legs
    angle = f" up to {one.up_to}° from vertical" if one.up_to is not None else ""
    times = "what the tag says" if one.times is None else f"{one.times} × working load limit"
    return f"{one.hitch}{legs}{angle}: {times}"


def _limit(limit: Limit) -> Iterator[str]:
    yield f"{_spaced(limit.measure).capitalize()}: {_side(limit)}."
    if limit.watch_fraction is not None:
        yield f"Watched from {limit.watch_fraction * 100:.0f} % of that on."
    if limit.detection_step is not None:
        yield f"The reading must be able to show a step of {limit.detection_step}."
    if limit.combines:
        yield "It adds up with other losses of fibre close by."


def _side(limit: Limit) -> str:
    side = next(words for name, words in SIDES.items() if getattr(limit, name) is not None)
    return f"{side} {bound(limit.bound)}"


def _movement(movement: Movement) -> Iterator[str]:
    yield (
        f"{_spaced(movement.measure).capitalize()}: beyond {movement.hold_k} standard uncertainties of a difference "
        f"it is read again at once; beyond {movement.watch_k} it is watched."
    )
    confirmed = _or([f"{one.k} on the mean of {one.readings} readings" for one in movement.confirmed])
    yield f"It has moved beyond {confirmed}."
    yield f"After {movement.steps_to_remove} confirmed movements it is removed."
    yield f"Serviceable only up to {bound(movement.action)}."
    yield f"A new splice may settle by {bound(movement.provisional)} before it is bedded in."


def _route(route: RouteRule) -> Iterator[str]:
    yield (
        f"{_spaced(route.measure).capitalize()}: beyond {route.hold_k} standard uncertainties of a difference it has "
        f"moved, or, where the marks do not show it, both are read again."
    )


def _condition(condition: ConditionRule, book: RuleBook) -> Iterator[str]:
    observation = book.observations[condition.observation]
    said = {one.id: one.say for one in observation.conditions}
    yield f"Asked: {observation.ask}"
    yield f"Seen: {'; '.join(said.get(one, one) for one in condition.when)}."
    if condition.graded_by:
        yield f"Where {_or([_spaced(name) for name in condition.graded_by])} was read, that limit decides."


def _needs(needs: Needs, book: RuleBook) -> Iterator[str]:
    if needs.by:
        yield f"Made by a {_or(needs.by)}: {_at(needs.inspection)}."
    if needs.observations:
        yield f"Needed {_at(needs.inspection)}:"
    for name in needs.observations:
        yield f"– {book.observations[name].ask}"
    if needs.covers:
        yield "The rules speak for such a part; one that no rule speaks for is held."


def _interval(interval: Interval) -> Iterator[str]:
    if len(interval.longest) == 1:
        longest = _span(interval.longest[Service.NORMAL])
    else:
        longest = ", ".join(f"{_span(longest)} in {name} service" for name, longest in interval.longest.items())
    after = f"After the record {_or(interval.since)}" if interval.once else f"Since the last look {_or(interval.since)}"
    yield f"{after}: no longer than {longest}."
    if interval.once:
        yield f"It is closed by the record {_or(interval.until)}."


def _met(meets: Meets) -> str:
    chemicals = [str(one) for one in meets.chemicals]
    states = [f"use while {one}" for one in meets.moisture]
    return "; ".join([*chemicals, *states, *(["lifting persons"] if meets.persons else [])])


def _at(kinds: tuple[str, ...]) -> str:
    """The kinds of inspection as they stand in a sentence."""
    return ", ".join("at a periodic examination" if kind == "periodic" else kind for kind in kinds)


def _or(words: list[str] | tuple[str, ...]) -> str:
    if any("," in word for word in words):
        return " or ".join(words)
    return ", ".join(words[:-1]) + f" or {words[-1]}" if len(words) > 1 else "".join(words)


def _span(duration: str) -> str:
    return duration.removesuffix("s") if duration.startswith("1 ") else duration


def _spaced(name: str) -> str:
    return name.replace("_", " ")
