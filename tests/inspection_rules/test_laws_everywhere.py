"""The laws of the judgement over every kind of item, splice, construction and fitting, under every regime at once.

`everywhere.py` makes the sound cases. Each law goes over all of them, one thing changed at a time; the deeper searches
by hypothesis stand in `test_laws.py`.
"""

from decimal import Decimal
from fractions import Fraction

import pytest

from inspection_rules.book import shipped
from inspection_rules.item import Item
from inspection_rules.quantity import UNITS, Quantity, parse
from inspection_rules.walk import walk
from inspection_rules.words import BASELINE_KINDS, Answer, InspectionKind, ItemKind, PartKind, SpliceKind

from .everywhere import RANK, REGIMES, Json, changed, judged, rank, sound_case, sound_items

HOLD, WATCH = RANK[Answer.HOLD], RANK[Answer.WATCH]
LOOKS = tuple(kind for kind in InspectionKind if kind not in BASELINE_KINDS or kind is InspectionKind.AS_FOUND)


def _covered(item: Item) -> bool:
    return not any(r.rule == "not-covered" for r in judged(sound_case(item, InspectionKind.PERIODIC)).rulings)


ITEMS = sound_items()
COVERED = [item for item in ITEMS if _covered(item)]


def _name(item: Item) -> str:
    parts = ", ".join(sorted({str(part.splice or part.fitting or part.kind) for part in item.parts}))
    return f"{item.kind} of {item.construction or item.fibre}: {parts}"


def _families() -> list[Item]:
    """One item of each set of things that a periodic examination asks for: what differs more is asked elsewhere."""
    found: dict[frozenset[str], Item] = {}
    for item in COVERED:
        asked = frozenset(step.observation.id for step in walk(item, InspectionKind.PERIODIC, REGIMES, shipped()))
        found.setdefault(asked, item)
    return list(found.values())


FAMILIES = _families()
every_item = pytest.mark.parametrize("item", FAMILIES, ids=[_name(item) for item in FAMILIES])
every_look = pytest.mark.parametrize("kind", LOOKS)


def test_every_kind_of_item_splice_and_fitting_is_covered_somewhere() -> None:
    assert {item.kind for item in COVERED} == set(ItemKind)
    parts = [part for item in COVERED for part in item.parts]
    assert {part.splice for part in parts if part.splice} == set(SpliceKind)
    assert {part.kind for part in parts} == set(PartKind)


def test_what_no_rule_covers_is_held_however_sound_it_looks() -> None:
    uncovered = [item for item in ITEMS if item not in COVERED]
    assert uncovered
    assert {rank(sound_case(item, InspectionKind.PERIODIC)) for item in uncovered} == {HOLD}


@pytest.mark.parametrize("item", COVERED, ids=[_name(item) for item in COVERED])
@every_look
def test_sound_and_fully_examined_item_may_be_used(item: Item, kind: InspectionKind) -> None:
    assert judged(sound_case(item, kind)).answer in (Answer.SERVICEABLE, Answer.WATCH)


@every_item
@pytest.mark.parametrize("kind", [InspectionKind.BEFORE_USE, InspectionKind.PERIODIC])
def test_leaving_out_any_needed_observation_holds(item: Item, kind: InspectionKind) -> None:
    case = sound_case(item, kind)
    for step in walk(item, kind, REGIMES, shipped()):
        lacking = changed(case)
        for group in ("readings", "findings"):
            lacking["inspection"][group] = [
                one for one in lacking["inspection"][group] if (one["part"], one["observation"]) != step.key
            ]
        assert rank(lacking) >= HOLD, step.key


@every_item
@pytest.mark.parametrize("kind", [InspectionKind.BEFORE_USE, InspectionKind.PERIODIC])
def test_what_could_not_be_examined_holds(item: Item, kind: InspectionKind) -> None:
    case = sound_case(item, kind)
    for index in range(len(case["inspection"]["findings"])):
        unseen = changed(case)
        unseen["inspection"]["findings"][index] |= {
            "seen": "could not be examined",
            "reason": "under frozen chafe gear",
        }
        assert rank(unseen) >= HOLD, unseen["inspection"]["findings"][index]


@every_item
def test_every_condition_that_can_be_named_yields_a_worse_answer(item: Item) -> None:
    case = sound_case(item, InspectionKind.PERIODIC)
    before = rank(case)
    for index, found in enumerate(case["inspection"]["findings"]):
        for condition in shipped().observations[found["observation"]].answers(item, found["part"]):
            seen = changed(case)
            seen["inspection"]["findings"][index] |= {"seen": "present", "conditions": [condition.id]}
            assert rank(seen) > before or rank(seen) >= WATCH, (found["observation"], condition.id)


@every_item
def test_naming_a_second_condition_never_helps(item: Item) -> None:
    case = sound_case(item, InspectionKind.PERIODIC)
    for index, found in enumerate(case["inspection"]["findings"]):
        known = [one.id for one in shipped().observations[found["observation"]].answers(item, found["part"])]
        alone = []
        for condition in known:
            seen = changed(case)
            seen["inspection"]["findings"][index] |= {"seen": "present", "conditions": [condition]}
            alone.append(rank(seen))
        together = changed(case)
        together["inspection"]["findings"][index] |= {"seen": "present", "conditions": known}
        assert rank(together) >= max(alone), found["observation"]


@every_item
def test_order_of_entry_never_changes_an_answer(item: Item) -> None:
    case = sound_case(item, InspectionKind.PERIODIC)
    case["inspection"]["findings"][-1] |= {
        "seen": "present",
        "conditions": [
            shipped()
            .observations[case["inspection"]["findings"][-1]["observation"]]
            .answers(item, case["inspection"]["findings"][-1]["part"])[0]
            .id
        ],
    }
    turned = changed(case)
    for group in ("readings", "findings"):
        turned["inspection"][group].reverse()
    turned["baselines"].reverse()
    turned["earlier"].reverse()
    one, other = judged(case), judged(turned)
    assert (one.answer, one.door, one.rulings, one.next_due) == (
        other.answer,
        other.door,
        other.rulings,
        other.next_due,
    )


def _in_inches(text: str) -> str:
    """The same length exactly, in inches; other quantities as they are."""
    quantity = parse(text, signed=True)
    if UNITS[quantity.unit].dimension != "length":
        return text
    inches = quantity.to("in")
    return f"{inches.numerator}/{inches.denominator} in" if inches.denominator > 1 else f"{inches.numerator} in"


def test_inch_texts_of_these_tests_are_exact() -> None:
    assert parse(_in_inches("1776 mm")) == Quantity("8880/127 in", Fraction(8880, 127), "in")


@every_item
def test_unit_of_entry_never_changes_an_answer(item: Item) -> None:
    case = sound_case(item, InspectionKind.PERIODIC)
    inches = changed(case)
    for one in (inches["inspection"], *inches["baselines"], *inches["earlier"]):
        for reading in one["readings"]:
            reading["values"] = [_in_inches(value) for value in reading["values"]]
    one, other = judged(case), judged(inches)
    told = [(r.rule, r.part, r.answer, r.value, r.limit, r.u) for r in one.rulings]
    assert [(r.rule, r.part, r.answer, r.value, r.limit, r.u) for r in other.rulings] == told


def _less_certain(reading: Json, observation_id: str) -> list[Json]:
    """The same values read in ways that are less good: slack rope, a coarser method, a study with a larger u."""
    worse = [{**reading, "tension": "slack"}]
    worse += [{**reading, "method": method} for method in shipped().observations[observation_id].methods[1:]]
    if UNITS[parse(reading["values"][0], signed=True).unit].dimension == "length":
        worse.append({**reading, "u": "40 mm", "u_study": "harbour study 1"})
    return worse


@every_item
def test_less_certain_reading_of_the_same_value_never_yields_a_better_answer(item: Item) -> None:
    case = sound_case(item, InspectionKind.PERIODIC)
    before = judged(case)
    for index, reading in enumerate(case["inspection"]["readings"]):
        for worse in _less_certain(reading, reading["observation"]):
            doubtful = changed(case)
            doubtful["inspection"]["readings"][index] = worse
            found = judged(doubtful)
            assert RANK[found.answer] >= RANK[before.answer], worse
            sure = {(r.rule, r.part): r.probability for r in before.rulings if r.probability is not None}
            for ruling in found.rulings:
                if ruling.probability is not None and ruling.value is not None and (ruling.rule, ruling.part) in sure:
                    assert ruling.probability <= max(sure[ruling.rule, ruling.part] or 0, Decimal("0.999999")), worse


@every_item
def test_adding_regimes_never_yields_a_better_answer(item: Item) -> None:
    case = sound_case(item, InspectionKind.PERIODIC)
    for index, found in enumerate(case["inspection"]["findings"][:4]):
        worst = shipped().observations[found["observation"]].answers(item, found["part"])[-1].id
        seen = changed(case)
        seen["inspection"]["findings"][index] |= {"seen": "present", "conditions": [worst]}
        everything = rank(seen)
        alone = [rank({**seen, "regimes": [regime]}) for regime in REGIMES]
        assert rank({**seen, "regimes": []}) <= min(alone)
        assert max(alone) <= everything
