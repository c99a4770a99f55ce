"""Where an item is between inspections: it changes no answer and no date, and an inspection finds the item here."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspection_rules.events import Placed, WorkDone
from inspection_rules.standing import NEW_SPLICE, may_be_released
from inspection_rules.words import Answer, InspectionKind, Mend, Where

from .histories import (
    EXAMINER,
    MATE,
    PENDANT,
    at,
    look_again,
    looked,
    on,
    overdue_examination,
    refer,
    release,
    remove,
    stands,
    still_open,
    work,
)


def placed(day: float, where: Where, note: str = "") -> Placed:
    return Placed(id=f"placed-{day}", item="pendant", at=at(day), by=MATE, where=where, note=note)


def test_an_item_nobody_placed_is_here() -> None:
    assert stands(looked(0)).where is Where.HERE


@pytest.mark.parametrize("where", [Where.ASHORE, Where.ON_LOAN, Where.NOT_FOUND])
def test_it_is_where_it_was_said_to_be_since_that_day(where: Where) -> None:
    found = stands(looked(0), placed(2, where, "to the yard"))
    assert (found.where, found.where_note, found.where_on) == (where, "to the yard", on(2))


def test_the_latest_word_counts() -> None:
    assert stands(looked(0), placed(2, Where.ON_LOAN), placed(3, Where.HERE)).where is Where.HERE


def test_an_inspection_finds_it_here() -> None:
    assert stands(looked(0), placed(2, Where.NOT_FOUND), looked(3)).where is Where.HERE


def test_on_an_earlier_day_it_was_still_here() -> None:
    assert stands(looked(0), placed(50, Where.ASHORE), day=49).where is Where.HERE


@pytest.mark.parametrize("where", list(Where))
@pytest.mark.parametrize("then", [looked(0), looked(0, refer()), looked(0, remove(Mend.LOOK)), looked(0, due=20)])
def test_it_changes_no_answer_and_no_date(where: Where, then: object) -> None:
    left_out = {"where": True, "where_note": True, "where_on": True}
    there, here = stands(then, placed(1, where)), stands(then)
    assert there.model_dump(exclude=left_out) == here.model_dump(exclude=left_out)


def test_what_is_overdue_ashore_is_overdue() -> None:
    found = stands(looked(0, due=20), placed(1, Where.ASHORE), day=21)
    assert (found.answer, found.overdue, found.where) == (Answer.HOLD, True, Where.ASHORE)


@given(st.permutations([looked(0), placed(2, Where.ASHORE), looked(3), placed(4, Where.ON_LOAN, "to the tree crew")]))
def test_the_records_say_the_same_in_any_order(records: list) -> None:
    assert stands(*records) == stands(*sorted(records, key=str))
    assert stands(*records).where is Where.ON_LOAN


# --- a new splice, and what a signature may close ----------------------------------------------------------


def spliced(day: float) -> WorkDone:
    return work(day, Mend.RE_SPLICE)


def made(day: float, by: object = EXAMINER) -> object:
    return looked(day, kind=InspectionKind.AS_MADE, by=by)


def test_a_new_splice_is_held_until_it_is_on_record_as_made() -> None:
    assert still_open(stands(looked(0), spliced(1))) == [NEW_SPLICE]
    assert still_open(stands(looked(0), spliced(1), made(2))) == []


def test_a_look_before_use_does_not_pass_a_new_splice_by_the_readings_of_the_old_one() -> None:
    assert stands(looked(0), spliced(1), looked(2), day=3).answer is Answer.HOLD


def test_a_user_does_not_record_a_new_splice_as_made() -> None:
    assert still_open(stands(looked(0), spliced(1), made(2, by=MATE))) == [NEW_SPLICE]


def test_the_record_of_the_splice_before_does_not_speak_for_the_new_one() -> None:
    assert still_open(stands(made(0), spliced(1))) == [NEW_SPLICE]


def test_the_record_of_another_splice_does_not_speak_for_the_new_one() -> None:
    other = work(1, Mend.RE_SPLICE, part="B")
    assert still_open(stands(looked(0), other, made(2))) == [NEW_SPLICE]


def test_no_signature_stands_in_for_the_record_of_a_new_splice() -> None:
    first = looked(0)
    assert still_open(stands(first, spliced(1), release(2, first, NEW_SPLICE))) == [NEW_SPLICE]


def releasable(*records: object) -> list[str]:
    return [one.ruling.rule for one in may_be_released(PENDANT, records, on(100))]


@pytest.mark.parametrize(
    ("ruling", "rules"),
    [
        (refer(), ["eye-chafed"]),
        (look_again(), []),
        (overdue_examination(), []),
        (remove(Mend.NOTHING), []),
        (remove(Mend.LOOK), ["eye-cut"]),
        (remove(Mend.RE_STITCH), []),
    ],
    ids=["cause to examine", "not looked at", "examination", "nothing mends", "a look mends", "work mends"],
)
def test_what_a_signature_may_close_by_itself(ruling: object, rules: list[str]) -> None:
    assert releasable(looked(0, ruling)) == rules


def test_what_wants_work_may_be_released_once_it_is_done() -> None:
    assert releasable(looked(0, remove(Mend.RE_STITCH)), work(1, Mend.RE_STITCH)) == ["eye-cut"]


def test_what_wants_a_new_splice_may_be_released_once_that_is_on_record() -> None:
    cut = looked(0, remove(Mend.RE_SPLICE))
    assert releasable(cut, spliced(1)) == []
    assert releasable(cut, spliced(1), made(2)) == ["eye-cut"]
