"""A reading made again after a doubt: joined with what it repeats, so that trying often enough passes nothing."""

import math
from datetime import timedelta
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from inspection_rules.book import shipped
from inspection_rules.case import Case
from inspection_rules.events import WorkDone
from inspection_rules.quantity import Quantity
from inspection_rules.record import Inspection
from inspection_rules.rulings.limits import limit_ruling
from inspection_rules.uncertainty import spread
from inspection_rules.words import Answer, Door, Mend

from .building import case, inspection, laid_sling

TODAY = "2026-07-01"
LIMIT = 96.0  # 6 diameters of 16 mm rope: 29 CFR 1910.184(h)(3)(iii), read
PACK, RULE = next((p, r) for p in shipped().packs for r in p.rules if r.id == "tail-slings")
DRAWS = 100_000


def look(days: float, tail: float, **changed: Any) -> Inspection:
    """A periodic examination so many days before today whose shortest strand tail reads so."""
    item = laid_sling()
    raw = inspection(item, "periodic", TODAY, readings={("A", "tail"): ["110 mm"]})
    one = Inspection.model_validate({**raw, "id": f"{days} days before", **changed})
    return with_tail(one.model_copy(update={"at": one.at - timedelta(days=days)}), tail)


def with_tail(one: Inspection, tail: float) -> Inspection:
    readings = tuple(
        r.model_copy(update={"values": (Quantity("drawn", Fraction(round(tail * 1000), 1000), "mm"),)})
        if (r.part, r.observation) == ("A", "tail") else r
        for r in one.readings
    )  # fmt: skip
    return one.model_copy(update={"readings": readings})


def said(now: Inspection, *earlier: Inspection, work: tuple[WorkDone, ...] = ()) -> Any:
    """What the rule on strand tails says of eye A."""
    built: Case = BUILT.model_copy(update={"inspection": now, "earlier": earlier, "work": work})
    if RULE.limit is None:
        raise ValueError("the rule has lost its limit")
    return limit_ruling(RULE, RULE.limit, PACK, built, "A")


BUILT = case(laid_sling(), inspection(laid_sling(), "periodic", TODAY))
DOUBT, CLEAR = 97.0, 99.0  # good to ± 2.6 mm: 1 mm inside the limit is doubt, 3 mm are none


def test_a_clear_reading_by_itself_passes():
    assert said(look(0, CLEAR)).answer is Answer.SERVICEABLE


def test_of_two_tries_the_better_reading_counts_for_more():
    """97 ± 1.5811 and 98 ± 1 mm, by 1/u²: (0.4 × 97 + 98) / 1.4 = 97.71, which is not yet 2 mm inside 96."""
    better = look(0, 98.0)
    readings = tuple(
        r.model_copy(update={"u": Quantity("1 mm", Fraction(1), "mm"), "u_study": "yard, May"})
        if (r.part, r.observation) == ("A", "tail") else r
        for r in better.readings
    )  # fmt: skip
    told = said(better.model_copy(update={"readings": readings}), look(3, DOUBT))

    assert told.answer is Answer.HOLD
    assert "the mean, 97.7, is not yet far enough inside" in told.sentence


def test_a_clear_reading_after_a_doubt_is_held_until_the_mean_of_both_is_clear():
    told = said(look(0, CLEAR), look(3, DOUBT))

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert "the mean, 98" in told.sentence


def test_a_doubt_is_cleared_by_readings_well_inside():
    assert said(look(0, 104), look(3, DOUBT)).answer is Answer.SERVICEABLE


def test_all_readings_since_the_doubt_count():
    assert said(look(0, CLEAR), look(2, CLEAR), look(3, DOUBT)).answer is Answer.HOLD
    assert said(look(0, 101), look(2, 101), look(3, DOUBT)).answer is Answer.SERVICEABLE


@pytest.mark.parametrize(("days", "answer"), [(7, Answer.HOLD), (8, Answer.SERVICEABLE)])
def test_what_was_read_more_than_a_week_before_is_no_repeat(days, answer):
    assert said(look(0, CLEAR), look(days, DOUBT)).answer is answer


def test_what_was_read_before_work_on_the_splice_is_no_repeat():
    doubt, now = look(3, DOUBT), look(0, CLEAR)
    fields = {"id": "w", "item": "laid", "by": now.by, "part": "A", "mends": Mend.RE_SPLICE, "what": "spliced anew"}
    work = WorkDone(at=now.at - timedelta(days=1), **fields)

    assert said(now, doubt, work=(work,)).answer is Answer.SERVICEABLE


def test_a_reading_beyond_the_limit_keeps_the_rules_own_outcome():
    told = said(look(0, 95), look(3, DOUBT))

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


def test_item_at_its_limit_tried_three_times_passes_at_most_one_time_in_twenty():
    """Each try on a day of its own, all of them made, even where a reading beyond the limit would have ended it."""
    reading = look(0, LIMIT).reading("A", "tail")
    if reading is None:
        raise LookupError("the tail was not read")
    good = spread(reading, Fraction(16), "mm")
    chance = np.random.default_rng(20260101)
    tries = LIMIT + chance.normal(0, math.hypot(good.fixed, good.repeat), (DRAWS, 3))
    first = tries[:, 0] >= alone()
    passed = int(first.sum())
    for drawn in tries[~first & (tries >= alone()).any(axis=1)]:
        visits = [look_at(index, float(tail)) for index, tail in enumerate(drawn)]
        # A pass needs a reading that passes by itself; the shipped ruling says whether it passes beside the others.
        passed += any(
            drawn[index] >= alone() and said(visits[index], *visits[:index]).answer is Answer.SERVICEABLE
            for index in (1, 2)
        )
    by_themselves = np.mean((tries >= alone()).any(axis=1))
    print(f"tried three times: {passed / DRAWS:.2%}; by themselves {by_themselves:.2%}")  # noqa: T201
    assert passed / DRAWS <= 0.052


VISITS = [look(2 - index, LIMIT) for index in range(3)]


def look_at(index: int, tail: float) -> Inspection:
    return with_tail(VISITS[index], tail)


def alone() -> float:
    """Where a reading passes by itself: 1.645 u inside the limit (JCGM 106:2012, one-sided 95 %)."""
    return LIMIT + 1.6449 * math.hypot(1.5, 0.5)
