"""What brings a removed item back, and what never does."""

import pytest

from inspection_rules.book import shipped
from inspection_rules.record import Reading
from inspection_rules.words import (
    Answer,
    InspectionKind,
    Mend,
    Method,
    Seen,
    State,
)

from .histories import EXAMINER, looked, refer, release, remove, stands, work


@pytest.mark.parametrize("mends", [Mend.NOTHING, Mend.EXAMINE])
def test_removal_that_nothing_mends_is_never_released(mends: Mend) -> None:
    out = looked(0, remove(mends))
    done = [work(1 + i / 10, kind) for i, kind in enumerate(Mend)]
    made = looked(2, kind=InspectionKind.AS_MADE, by=EXAMINER)
    assert stands(out, *done, made, release(3, out, "eye-cut")).answer is Answer.REMOVE


def test_removal_does_not_close_by_a_sound_look() -> None:
    out = looked(0, remove(Mend.RE_SPLICE))
    assert stands(out, looked(1, eye_bearing=Seen.ABSENT)).answer is Answer.REMOVE


WORK = [Mend.RE_IDENTIFY, Mend.RE_STITCH, Mend.REPLACE_FITTING, Mend.REPAIR_AND_PROOF]


@pytest.mark.parametrize("mends", WORK)
def test_removal_comes_back_by_the_work_its_rule_asks_for_and_a_release(mends: Mend) -> None:
    out = looked(0, remove(mends))
    assert stands(out, work(1, mends), release(2, out, "eye-cut")).answer is Answer.SERVICEABLE


@pytest.mark.parametrize("mends", WORK)
def test_removal_does_not_come_back_by_work_without_a_release(mends: Mend) -> None:
    assert stands(looked(0, remove(mends)), work(1, mends)).answer is Answer.REMOVE


@pytest.mark.parametrize("mends", [*WORK, Mend.RE_SPLICE])
def test_removal_does_not_come_back_by_a_release_without_work(mends: Mend) -> None:
    out = looked(0, remove(mends))
    assert stands(out, release(2, out, "eye-cut")).answer is Answer.REMOVE


def test_removal_does_not_come_back_by_work_of_another_kind() -> None:
    out = looked(0, remove(Mend.REPLACE_FITTING))
    assert stands(out, work(1, Mend.RE_STITCH), release(2, out, "eye-cut")).answer is Answer.REMOVE


def test_removal_does_not_come_back_by_work_on_another_part() -> None:
    out = looked(0, remove(Mend.REPLACE_FITTING))
    assert stands(out, work(1, Mend.REPLACE_FITTING, "B"), release(2, out, "eye-cut")).answer is Answer.REMOVE


def test_removal_does_not_come_back_by_work_of_the_day_before() -> None:
    out = looked(1, remove(Mend.REPLACE_FITTING))
    assert stands(work(0, Mend.REPLACE_FITTING), out, release(2, out, "eye-cut")).answer is Answer.REMOVE


def test_removal_does_not_come_back_by_work_of_the_same_morning_before_it_was_found() -> None:
    out = looked(0.25, remove(Mend.REPLACE_FITTING))
    assert stands(work(0, Mend.REPLACE_FITTING), out, release(2, out, "eye-cut")).answer is Answer.REMOVE


def test_work_recorded_after_the_release_does_not_make_it_count() -> None:
    out = looked(0, remove(Mend.REPLACE_FITTING))
    assert stands(out, release(1, out, "eye-cut"), work(2, Mend.REPLACE_FITTING)).answer is Answer.REMOVE


def test_removed_eye_comes_back_spliced_anew_with_its_own_record_and_a_release() -> None:
    out = looked(0, remove(Mend.RE_SPLICE))
    made = looked(2, kind=InspectionKind.AS_MADE, by=EXAMINER)
    found = stands(out, work(1, Mend.RE_SPLICE), made, release(3, out, "eye-cut"))
    assert (found.state, found.answer) == (State.IN_SERVICE, Answer.SERVICEABLE)


def test_removed_eye_does_not_come_back_without_an_as_made_record() -> None:
    out = looked(0, remove(Mend.RE_SPLICE))
    assert stands(out, work(1, Mend.RE_SPLICE), release(3, out, "eye-cut")).answer is Answer.REMOVE


def test_removed_eye_does_not_come_back_on_the_record_of_the_old_splice() -> None:
    made = looked(0, kind=InspectionKind.AS_MADE, by=EXAMINER)
    out = looked(1, remove(Mend.RE_SPLICE))
    assert stands(made, out, work(2, Mend.RE_SPLICE), release(3, out, "eye-cut")).answer is Answer.REMOVE


def test_removed_eye_does_not_come_back_on_an_as_made_record_of_another_end() -> None:
    out = looked(0, remove(Mend.RE_SPLICE))
    made = looked(2, kind=InspectionKind.AS_MADE, by=EXAMINER)
    read = Reading(observation="bury", part="B", values=("1728 mm",), method=Method.LAID_OUT_TAPE)  # type: ignore[arg-type]
    made = made.model_copy(update={"inspection": made.inspection.model_copy(update={"readings": (read,)})})
    assert stands(out, work(1, Mend.RE_SPLICE), made, release(3, out, "eye-cut")).answer is Answer.REMOVE


def test_removal_is_kept_beside_a_hold_of_a_rule_with_the_same_id_in_another_pack() -> None:
    worst_first = looked(0, remove(Mend.NOTHING, "site-rule"), refer("site-rule", pack="harbour"))
    assert stands(worst_first).answer is Answer.REMOVE


FITTINGS = ["fittings-faulty", "fittings-deployed", "us-fittings-damaged", "us-fall-hardware-spliced"]


@pytest.mark.parametrize("rule", FITTINGS)
def test_a_removal_for_one_of_all_fittings_comes_back_when_that_fitting_is_replaced(rule: str) -> None:
    (own,) = [one for pack in shipped().packs for one in pack.rules if one.id == rule]
    out = looked(0, remove(own.mends, rule, part="", observation="fittings"))
    done = work(1, Mend.REPLACE_FITTING, "hook")
    assert stands(out, done, release(2, out, rule, part="")).answer is Answer.SERVICEABLE


def test_a_removal_for_one_of_all_fittings_does_not_come_back_by_other_work() -> None:
    out = looked(0, remove(Mend.REPLACE_FITTING, "fittings-faulty", part="", observation="fittings"))
    done = work(1, Mend.RE_STITCH, "hook")
    assert stands(out, done, release(2, out, "fittings-faulty", part="")).answer is Answer.REMOVE


@pytest.mark.parametrize("rule", ["clear-rope-less", "clear-length-slings", "us-knot", "us-discoloration"])
def test_what_no_work_on_the_body_can_mend_comes_back_by_a_competent_look_and_a_release(rule: str) -> None:
    (own,) = [one for pack in shipped().packs for one in pack.rules if one.id == rule]
    out = looked(0, remove(own.mends, rule, part="body", observation="body_surface"))
    assert stands(out, release(1, out, rule, part="body")).answer is Answer.SERVICEABLE
