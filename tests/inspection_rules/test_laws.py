"""The laws of the judgement as properties, over items of every covered make, all inspection kinds and both packs.

What "worse" means here, for one thing changed and all else equal:

- an answer is worse when it names a condition, or a further condition, than when it names none;
- a reading is worse when it moves toward its limit or past it: the worst girth smaller, a strand tail shorter,
  fewer tucks, a shorter bury, the marks farther out of the bury. Reckoned from a plausible one: a
  place said to be worst that reads thicker than the sound one, and marks farther in than before, are held as doubtful;
- a reading is less certain when its stated u is larger, its method coarser, its rope slack instead of hand-taut
  both now and at the baseline, or its mean rests on fewer values. One exception follows from the design and has
  tests of its own in `test_law_cases`: some things are asked for more than once before they condemn (a girth three
  times, movement twice), so fewer readings hold where enough of them remove. Neither may be used.
"""

import random
import re
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from inspection_rules.book import shipped
from inspection_rules.case import Case
from inspection_rules.judgement import Judgement
from inspection_rules.quantity import parse
from inspection_rules.walk import walk
from inspection_rules.words import Answer, InspectionKind

from .strategies import (
    ALL_KINDS,
    BURIED,
    CONDITIONS,
    EXAMINATIONS,
    LOOKS,
    RANK,
    Json,
    any_cases,
    copy,
    diameter_of,
    finding,
    harbour,
    inspection,
    items,
    judged,
    laid_case,
    mm,
    needed,
    pendant_case,
    rank,
    reading,
    set_values,
    sound_cases,
)

many = settings(max_examples=80)

HOLD = RANK[Answer.HOLD]


# --- unknown never passes --------------------------------------------------------------------------------


@many
@given(items(), st.sampled_from(ALL_KINDS))
def test_walk_asks_all_that_eye_hand_and_tape_must_answer_and_nothing_else(item: Json, kind: str) -> None:
    case = Case.model_validate(
        {"on": "2050-03-01", "item": item, "inspection": inspection(item, kind, 0), "regimes": ["US lifting"]}
    )
    steps = walk(case.item, InspectionKind(kind), case.regimes, shipped())
    assert sorted(step.key for step in steps) == sorted(needed(item, kind))


@many
@given(any_cases(), st.data())
def test_inspection_lacking_a_needed_observation_is_held(case: Json, data: st.DataObject) -> None:
    item, now = case["item"], case["inspection"]
    part, name = data.draw(st.sampled_from(needed(item, now["kind"])))
    for group in ("readings", "findings"):
        now[group] = [one for one in now[group] if (one["part"], one["observation"]) != (part, name)]
    judgement = judged(case)
    assert RANK[judgement.answer] >= HOLD
    assert (part, name) in {(one.part, one.observation) for one in judgement.missing}


@many
@given(any_cases(LOOKS), st.data())
def test_what_could_not_be_examined_is_held(case: Json, data: st.DataObject) -> None:
    found = data.draw(st.sampled_from(case["inspection"]["findings"]))
    found.pop("conditions", None)
    found |= {"seen": "could not be examined", "reason": "under tape"}
    assert rank(case) >= HOLD


@many
@given(sound_cases(("periodic",)).filter(lambda case: _asks(case, "thimble")), st.data())
def test_what_is_hidden_by_design_is_held_until_what_stands_in_for_it_was_seen(case: Json, data: st.DataObject) -> None:
    now = case["inspection"]
    part = data.draw(st.sampled_from([f["part"] for f in now["findings"] if f["observation"] == "thimble"]))
    next(one for one in case["item"]["parts"] if one["id"] == part)["thimble"] = "captive"
    finding(now, part, "eye_bearing")["seen"] = "hidden by design"
    assert judged(case).answer is Answer.SERVICEABLE
    finding(now, part, "thimble").update(seen="could not be examined", reason="under tape")
    missing = {(one.part, one.observation) for one in judged(case).missing}
    assert missing == {(part, "eye_bearing"), (part, "thimble")}


@many
@given(any_cases(EXAMINATIONS))
def test_examination_by_a_user_is_held(case: Json) -> None:
    case["inspection"]["by"] = {"name": "mate", "competence": "user"}
    assert rank(case) >= HOLD


@many
@given(sound_cases())
def test_sound_fully_examined_item_is_serviceable(case: Json) -> None:
    judgement = judged(case)
    assert judgement.answer is Answer.SERVICEABLE, [r.sentence for r in judgement.rulings if r.answer != "serviceable"]


# --- worse never better ----------------------------------------------------------------------------------


@many
@given(any_cases(LOOKS), st.data())
def test_naming_a_condition_never_yields_a_better_answer(case: Json, data: st.DataObject) -> None:
    found = data.draw(st.sampled_from(case["inspection"]["findings"]))
    better, worse = copy(case), case
    finding(better["inspection"], found["part"], found["observation"]).update(seen="absent", conditions=[])
    found.update(seen="present", conditions=[data.draw(st.sampled_from(CONDITIONS[found["observation"]]))])
    assert rank(worse) >= rank(better)


@many
@given(any_cases(LOOKS), st.data())
def test_naming_one_more_condition_never_yields_a_better_answer(case: Json, data: st.DataObject) -> None:
    found = data.draw(st.sampled_from(case["inspection"]["findings"]))
    known = CONDITIONS[found["observation"]]
    some = data.draw(st.lists(st.sampled_from(known), min_size=1, unique=True))
    found.update(seen="present", conditions=some)
    better = copy(case)
    found["conditions"] = [*some, *data.draw(st.lists(st.sampled_from(known).filter(lambda c: c not in some)))][:20]
    found["conditions"] = list(dict.fromkeys(found["conditions"]))
    assert rank(case) >= rank(better)


@pytest.mark.parametrize("name", CONDITIONS)
@settings(max_examples=15)
@given(data=st.data())
def test_every_condition_of_a_sound_item_is_answered(name: str, data: st.DataObject) -> None:
    case = data.draw(sound_cases(("periodic",)).filter(lambda c: _asks(c, name)))
    found = next(f for f in case["inspection"]["findings"] if f["observation"] == name)
    found.update(seen="present", conditions=[data.draw(st.sampled_from(CONDITIONS[name]))])
    assert rank(case) > RANK[Answer.SERVICEABLE]


@many
@given(any_cases(), st.data())
def test_reading_nearer_to_its_limit_never_yields_a_better_answer(case: Json, data: st.DataObject) -> None:
    now = case["inspection"]
    read = [r for r in now["readings"] if r["observation"] != "girth_sound"]
    assume(read)
    chosen = data.draw(st.sampled_from(read))
    assume(_plausible(case, chosen))
    better = copy(case)
    set_values(now, chosen["part"], chosen["observation"], _moved(case["item"], chosen, data))
    assert rank(case) >= rank(better)


def _plausible(case: Json, read: Json) -> bool:
    """Neither is a better reading than others: a worst place thicker than the sound one, marks gone back in."""
    value = _mean(read["values"])
    if read["observation"] == "girth_worst":
        sound = reading(case["inspection"], "body", "girth_sound")
        return sound is not None and value <= _mean(sound["values"])
    if read["observation"] == "mark_offset":
        before = (reading(one, read["part"], "mark_offset") for one in case["earlier"])
        return all(value >= _mean(one["values"]) for one in before if one is not None)
    return True


def _mean(values: list[str]) -> Fraction:
    return sum((parse(text, signed=True).value for text in values), Fraction(0)) / len(values)


def _moved(item: Json, read: Json, data: st.DataObject) -> list[str]:
    """The same readings, all moved toward the limit by one step."""
    if read["observation"] == "tucks":
        step = data.draw(st.integers(1, 6))
        return [str(max(int(text) - step, 0)) for text in read["values"]]
    step_mm = diameter_of(item) * Fraction(data.draw(st.integers(1, 120)), 60)
    if read["observation"] != "mark_offset":
        step_mm = -step_mm
    return [mm(max(parse(text, signed=True).to("mm") + step_mm, Fraction(0))) for text in read["values"]]


# --- less certain never better ---------------------------------------------------------------------------

MEASURED = ("mark_offset", "tail", "girth_worst", "girth_sound")


@many
@given(any_cases(("periodic",)), st.data())
def test_larger_stated_uncertainty_never_yields_a_better_answer(case: Json, data: st.DataObject) -> None:
    small = data.draw(st.integers(1, 3000))
    large = data.draw(st.integers(small, 30000))
    chosen = data.draw(st.sampled_from([r for r in case["inspection"]["readings"] if r["observation"] in MEASURED]))
    chosen.update(u=mm(Fraction(small, 1000)), u_study="harbour study 1")
    better = copy(case)
    chosen.update(u=mm(Fraction(large, 1000)))
    assert rank(case) >= rank(better)


@pytest.mark.parametrize("name", ["mark_offset", "tail"])
def test_photograph_instead_of_a_rule_never_yields_a_better_answer(name: str) -> None:
    # All the way past the limit in steps finer than the doubt, so that the two methods differ somewhere.
    photograph = [_rank_read(name, quarters, "photograph") for quarters in range(60)]
    rule = [_rank_read(name, quarters, "steel rule") for quarters in range(60)]
    assert all(coarse >= fine for coarse, fine in zip(photograph, rule, strict=True))
    # Movement is judged with one u whatever the method, so marks may come out alike; a limit may not.
    assert photograph != rule or name == "mark_offset"


def _rank_read(name: str, quarters: int, method: str) -> int:
    """The answer for a thin rope whose marks are so many quarters of a millimetre out, or its tail under 105 mm."""
    if name == "tail":
        case, value = laid_case() | {"regimes": ["US lifting"]}, mm(105 - Fraction(quarters, 4))
        set_values(case["baselines"][0], "A", "tail", [value])
    else:
        case, value = pendant_case(), mm(Fraction(quarters, 4))
        case["item"]["diameter"] = "8 mm"
        case["site"] = {"slip_action": "4 mm"}  # so near that how good the reading is decides
    found = reading(case["inspection"], "A", name)
    assert found is not None
    found |= {"values": [value] * 2, "method": method}
    return rank(case)


@many
@given(any_cases(("bedded in", "periodic", "after an incident")))
def test_slack_rope_never_yields_a_better_answer_than_hand_taut(case: Json) -> None:
    better = copy(case)
    for one in (case["inspection"], *case["baselines"], *case["earlier"]):
        for read in one["readings"]:
            read["tension"] = "slack"
    assert rank(case) >= rank(better)


@many
@given(any_cases(("periodic", "bedded in"), splices=(BURIED,)))
def test_two_distances_instead_of_the_offset_never_yield_a_better_answer(case: Json) -> None:
    better = copy(case)
    for one in (case["inspection"], *case["baselines"], *case["earlier"]):
        split = []
        for read in one["readings"]:
            if read["observation"] != "mark_offset":
                split.append(read)
                continue
            away = [mm(parse(text, signed=True).to("mm") + 100) for text in read["values"]]
            split.append({**read, "observation": "mark_tail", "values": away, "method": "tape"})
            level = ["100 mm"] * len(away)
            split.append({**read, "observation": "mark_standing", "values": level, "method": "tape"})
        one["readings"] = split
    assert rank(case) >= rank(better)


@many
@given(any_cases(("periodic",)), st.data())
def test_mean_of_fewer_values_never_yields_a_better_answer(case: Json, data: st.DataObject) -> None:
    least = {"tail": 1, "girth_worst": 3, "girth_sound": 3}
    read = [r for r in case["inspection"]["readings"] if r["observation"] in least]
    chosen = data.draw(st.sampled_from(read))
    value = chosen["values"][0]
    fewer = data.draw(st.integers(least[chosen["observation"]], 10))
    chosen["values"] = [value] * data.draw(st.integers(fewer, 20))
    better = copy(case)
    chosen["values"] = [value] * fewer
    assert rank(case) >= rank(better)


# --- how it was entered ----------------------------------------------------------------------------------


@many
@given(any_cases(), st.sampled_from(["cm", "in", "m", "ft"]))
def test_unit_of_entry_never_changes_an_answer(case: Json, unit: str) -> None:
    if case["regimes"]:
        case["use"] = {"pin_diameter": "80 mm", "eye_length": "160 mm"}
    case["site"] = {"slip_action": "10 mm"}
    respelled = _respelled(case, unit)
    assert _essence(judged(respelled)) == _essence(judged(case))


def _respelled(value: Any, unit: str) -> Any:
    """The same document with every length in another unit, exactly."""
    if isinstance(value, dict):
        return {key: _respelled(inner, unit) for key, inner in value.items()}
    if isinstance(value, list):
        return [_respelled(inner, unit) for inner in value]
    if isinstance(value, str) and re.fullmatch(r"-?[0-9][0-9 ./]*(?: mm| in|\")", value):
        number = parse(value, "length", signed=True).to(unit)
        sign, number = ("-" if number < 0 else ""), abs(number)
        whole, rest = divmod(number, 1)
        if not rest:
            return f"{sign}{whole} {unit}"
        return f"{sign}{f'{whole} ' if whole else ''}{rest.numerator}/{rest.denominator} {unit}"
    return value


def _essence(judgement: Judgement) -> list[tuple[Any, ...]]:
    """Everything a judgement says except the words, which quote what was written."""
    return [(judgement.answer, judgement.door, judgement.next_due)] + [
        (r.rule, r.part, r.answer, r.door, r.value, r.limit, r.margin, r.u, r.probability, r.mends, r.look_again)
        for r in (*judgement.rulings, *judgement.not_for_this_use)
    ]


@many
@given(any_cases(), st.randoms(use_true_random=False))
def test_order_of_entry_never_changes_a_judgement(case: Json, chance: random.Random) -> None:
    shuffled = copy(case)
    for one in (shuffled["inspection"], *shuffled["baselines"], *shuffled["earlier"]):
        for read in one["readings"]:
            chance.shuffle(read["values"])
        chance.shuffle(one["readings"])
        chance.shuffle(one["findings"])
    chance.shuffle(shuffled["baselines"])
    chance.shuffle(shuffled["earlier"])
    assert _essence(judged(shuffled)) == _essence(judged(case))


# --- rules may only tighten ------------------------------------------------------------------------------


@many
@given(any_cases())
def test_adding_a_regime_never_yields_a_better_answer(case: Json) -> None:
    alone, with_regime = {**case, "regimes": []}, {**case, "regimes": ["US lifting"]}
    assert rank(with_regime) >= rank(alone)


SITE_RULES = (
    'limit = { measure = "tail", at_least = "80 mm", outcome = "hold" }',
    'limit = { measure = "effective_diameter_loss", at_most = "5 %", outcome = "watch" }',
    'limit = { measure = "remaining_bury", at_least = "500 mm", outcome = "remove" }',
    'condition = { observation = "body_surface", when = ["cut", "fuzzy"], outcome = "watch" }',
    'needs = { inspection = ["before use"], observations = ["mark_offset", "body_inside"] }',
    'interval = { since = ["before use", "periodic"], longest = { normal = "30 days" } }',
)


@many
@given(any_cases(), st.lists(st.sampled_from(SITE_RULES), min_size=1, unique=True))
def test_site_pack_never_yields_a_better_answer(case: Json, bodies: list[str]) -> None:
    alone = rank(case)
    assert rank({**case, "regimes": [*case["regimes"], "harbour"]}, harbour(*bodies)) >= alone


def _asks(case: Json, name: str) -> bool:
    return any(found["observation"] == name for found in case["inspection"]["findings"])
