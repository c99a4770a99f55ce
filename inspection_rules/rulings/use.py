"""Rulings on this use: what it must not meet, and what was said about it that no loaded rule judges."""

from collections.abc import Iterator, Sequence

from inspection_rules.case import Case, Use
from inspection_rules.judgement import Ruling
from inspection_rules.measures import MEASURES
from inspection_rules.rule import Meets, Pack, Rule
from inspection_rules.rulings.making import from_rule, without_rule
from inspection_rules.words import Answer, Moisture, Scope, SpliceKind


def meets_rulings(rule: Rule, meets: Meets, pack: Pack, case: Case) -> Iterator[Ruling]:
    """Yield that this is not for this use where it meets what the rule forbids."""
    use = case.use
    if use is None:
        return
    met = set(use.chemicals) & set(meets.chemicals)
    state = use.moisture is not None and use.moisture in meets.moisture
    if met or state or (meets.persons and use.persons):
        yield from_rule(rule, pack, "", Answer.HOLD, rule.fires, on=case.on)


def satisfied(case: Case, said: Sequence[Ruling]) -> tuple[Ruling, ...]:
    """Return the rulings that the use satisfies, of those that speak of something that was said about it."""
    use = case.use
    if use is None:
        return ()
    named = set(use.told)
    return tuple(
        ruling
        for ruling in said
        if ruling.scope is Scope.USE
        and ruling.answer is Answer.SERVICEABLE
        and (not _judges(ruling) or named & set(_judges(ruling)))
    )


def unjudged_use(case: Case, packs: tuple[Pack, ...], said: Sequence[Ruling]) -> Iterator[Ruling]:
    """Yield a ruling on the use for whatever was said about it and no rule has judged.

    Args:
        said: every ruling so far. A rule that is loaded and kept silent has judged nothing.
    """
    use = case.use
    if use is None:
        return
    spoke = [ruling for ruling in said if ruling.scope is Scope.USE]
    judged = {field for ruling in spoke for field in _judges(ruling)}
    for title, fields in _named(use):
        words = [what for field, what in fields if field not in judged]
        if words:
            yield _no_word(title, f"No loaded rule judges {' and '.join(words)}.")
    if "pin_diameter" in judged:
        yield from _other_eyes(case, spoke)
    meets = [
        rule.meets
        for pack in packs
        for rule in pack.rules
        if rule.meets is not None and rule.applies.to_item(case.item)
    ]
    for chemical in use.chemicals:
        if not any(chemical in one.chemicals for one in meets):
            yield _no_word("Chemical", f"No loaded rule judges {case.item.fibre} in {chemical}: ask its maker.")
    if use.persons and "persons" not in judged and not any(one.persons for one in meets):
        yield _no_word("Persons", f"No loaded rule judges a person on a {case.item.kind} for {case.item.duty}.")
    if use.moisture is Moisture.FROZEN and not any(Moisture.FROZEN in one.moisture for one in meets):
        yield _no_word("Frozen", "No loaded rule judges it frozen.")


def _named(use: Use) -> Iterator[tuple[str, list[tuple[str, str]]]]:
    """What was said, by what belongs together: the fields of `Use` and their words."""
    groups: dict[str, dict[str, str | None]] = {
        "Pin": {
            "pin_diameter": f"an eye on a pin of {use.pin_diameter}" if use.pin_diameter else None,
            "eye_length": f"an eye of {use.eye_length}" if use.eye_length else None,
        },
        "Lift": {
            "load": f"a load of {use.load}" if use.load else None,
            "legs": f"{use.legs} leg{'s' if use.legs > 1 else ''}" if use.legs else None,
            "leg_angle": f"legs at {use.leg_angle}" if use.leg_angle else None,
            "hitch": f"a {use.hitch} hitch" if use.hitch else None,
        },
        "Heat": {"hottest": f"heat of {use.hottest}" if use.hottest else None},
        "Cold": {"coldest": f"cold of {use.coldest}" if use.coldest else None},
    }
    for title, fields in groups.items():
        yield title, [(field, words) for field, words in fields.items() if words is not None]


def _other_eyes(case: Case, spoke: list[Ruling]) -> Iterator[Ruling]:
    """Each end that has an eye bears on the pin: one whose kind of eye no rule judges is not passed by the other."""
    judged = {ruling.part for ruling in spoke if "pin_diameter" in _judges(ruling)}
    for end in case.item.terminations:
        if end.id not in judged and end.splice is not SpliceKind.PLAIN_END:
            yield _no_word("Pin", f"No loaded rule judges a {end.splice} on a pin.", end.id)


def _judges(ruling: Ruling) -> tuple[str, ...]:
    return MEASURES[ruling.measure].uses if ruling.measure else ()


def _no_word(title: str, sentence: str, part: str = "") -> Ruling:
    action = "Not for this use on this tool's word; have a competent person work it out."
    return without_rule("no-rule", title, part, sentence, action, scope=Scope.USE)
