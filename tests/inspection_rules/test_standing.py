"""Every door an item goes out of service by, and every way back, from whole histories."""

import random
from datetime import UTC, date, datetime

import pytest

from inspection_rules.events import Disposal
from inspection_rules.record import Reading
from inspection_rules.standing import ItemRecord, standing
from inspection_rules.words import (
    Answer,
    Door,
    InspectionKind,
    Mend,
    Method,
    Scope,
    Seen,
    State,
)

from .histories import (
    EXAMINER,
    MATE,
    PENDANT,
    PICTURE,
    at,
    condemn,
    look_again,
    looked,
    on,
    overdue_examination,
    refer,
    release,
    remove,
    ruling,
    stands,
    still_open,
    work,
)

# --- before anything happened ----------------------------------------------------------------------------


def test_item_without_any_inspection_is_quarantined_for_a_competent_person() -> None:
    found = stands()
    assert (found.state, found.answer, found.door) == (State.QUARANTINED, Answer.HOLD, Door.REFER)


def test_item_without_any_inspection_or_condemned_is_not_called_overdue() -> None:
    assert not stands().overdue
    assert not stands(looked(0, due=10), condemn(1), day=100).overdue


def test_sound_look_puts_it_in_service_until_the_examination() -> None:
    found = stands(looked(0, due=300))
    assert (found.state, found.answer, found.next_due) == (State.IN_SERVICE, Answer.SERVICEABLE, on(300))


def test_watch_brings_the_next_look_nearer_than_the_examination() -> None:
    found = stands(looked(90, ruling("body-grit", Answer.WATCH), due=300, next_due=120))
    assert (found.state, found.answer, found.next_due) == (State.IN_SERVICE, Answer.WATCH, on(120))


# --- hold: look again ------------------------------------------------------------------------------------


def test_hold_to_look_again_stays_when_another_look_does_not_look_there() -> None:
    found = stands(looked(0, look_again()), looked(1, eye_bearing=Seen.ABSENT))
    assert (found.answer, found.door, still_open(found)) == (Answer.HOLD, Door.LOOK_AGAIN, ["needs-buried-eye"])


def test_hold_to_look_again_closes_by_looking() -> None:
    found = stands(looked(0, look_again()), looked(1, bury_feel=Seen.ABSENT))
    assert (found.answer, found.open) == (Answer.SERVICEABLE, ())


def test_hold_to_look_again_closes_by_the_reading_it_wanted() -> None:
    wanted = look_again("slip", observation="mark_offset")
    again = looked(1)
    read = Reading(observation="mark_offset", part="A", values=("0 mm",), method=Method.STEEL_RULE)  # type: ignore[arg-type]
    again = again.model_copy(update={"inspection": again.inspection.model_copy(update={"readings": (read,)})})
    assert stands(looked(0, wanted), again).answer is Answer.SERVICEABLE


def test_hold_to_look_again_does_not_close_by_a_look_that_could_not_examine_it() -> None:
    found = stands(looked(0, look_again()), looked(1, bury_feel=Seen.NOT_EXAMINED))
    assert still_open(found) == ["needs-buried-eye"]


def test_hold_to_look_again_does_not_close_by_looking_at_another_part() -> None:
    found = stands(looked(0, look_again(part="B")), looked(1, bury_feel=Seen.ABSENT))
    assert still_open(found) == ["needs-buried-eye"]


def test_two_things_not_looked_at_close_one_by_one() -> None:
    both = looked(0, look_again(), look_again(observation="throat_marks"))
    again = looked(1, look_again(observation="throat_marks"), bury_feel=Seen.ABSENT)
    found = stands(both, again)
    assert {one.ruling.observation for one in found.open} == {"throat_marks"}


def test_looking_again_and_finding_worse_leaves_the_worse() -> None:
    found = stands(looked(0, look_again()), looked(1, refer("bury-hollow"), bury_feel=Seen.ABSENT))
    assert (found.answer, found.door, still_open(found)) == (Answer.HOLD, Door.REFER, ["bury-hollow"])


# --- hold: refer -----------------------------------------------------------------------------------------


def test_hold_to_refer_does_not_close_by_a_sound_look() -> None:
    found = stands(looked(0, refer()), looked(1, eye_bearing=Seen.ABSENT))
    assert (found.answer, found.door, still_open(found)) == (Answer.HOLD, Door.REFER, ["eye-chafed"])


def test_hold_to_refer_does_not_close_by_an_examination_alone() -> None:
    examined = looked(1, kind=InspectionKind.PERIODIC, by=EXAMINER, eye_bearing=Seen.ABSENT)
    assert still_open(stands(looked(0, refer()), examined)) == ["eye-chafed"]


def test_hold_to_refer_closes_by_a_release_that_names_it() -> None:
    held = looked(0, refer())
    found = stands(held, release(1, held, "eye-chafed"))
    assert (found.state, found.answer) == (State.IN_SERVICE, Answer.SERVICEABLE)


def test_release_that_names_another_rule_closes_nothing() -> None:
    held = looked(0, refer(), refer("bury-hollow"))
    assert still_open(stands(held, release(1, held, "bury-hollow"))) == ["eye-chafed"]


def test_release_that_names_another_part_closes_nothing() -> None:
    held = looked(0, refer())
    assert still_open(stands(held, release(1, held, "eye-chafed", part="B"))) == ["eye-chafed"]


def test_release_that_names_an_inspection_not_on_record_closes_nothing() -> None:
    assert still_open(stands(looked(0, refer()), release(1, looked(5), "eye-chafed"))) == ["eye-chafed"]


def test_release_does_not_reach_what_was_found_after_the_inspection_it_examined() -> None:
    first, second = looked(0, refer()), looked(1, refer())
    found = stands(first, second, release(2, first, "eye-chafed"))
    assert [one.inspection for one in found.open] == ["look-1"]


def test_release_of_the_latest_closes_the_same_ruling_found_before() -> None:
    first, second = looked(0, refer()), looked(1, refer())
    assert stands(first, second, release(2, second, "eye-chafed")).open == ()


def test_what_is_found_again_after_a_release_is_open_again() -> None:
    held = looked(0, refer())
    found = stands(held, release(1, held, "eye-chafed"), looked(2, refer()))
    assert [one.inspection for one in found.open] == ["look-2"]


def test_release_until_a_date_is_a_watch_to_that_date() -> None:
    held = looked(0, refer(), due=300)
    found = stands(held, release(1, held, "eye-chafed", until=on(31)), day=2)
    assert (found.answer, found.next_due) == (Answer.WATCH, on(31))


def test_release_until_a_date_says_what_is_released_and_until_when() -> None:
    held = looked(0, refer(), due=300)
    found = stands(held, release(1, held, "eye-chafed", until=on(31)), day=2)
    assert [(one.rule, one.part, one.until) for one in found.released] == [("eye-chafed", "A", on(31))]


def test_release_never_puts_off_the_ordinary_date() -> None:
    held = looked(0, refer(), due=20)
    assert stands(held, release(1, held, "eye-chafed", until=on(31)), day=2).next_due == on(20)


def test_release_whose_date_is_past_is_a_hold() -> None:
    held = looked(0, refer(), due=300)
    found = stands(held, release(1, held, "eye-chafed", until=on(31)), day=32)
    assert (found.answer, found.door, found.overdue) == (Answer.HOLD, Door.REFER, True)


def test_release_until_a_date_ends_when_a_competent_person_looks_there() -> None:
    held = looked(0, refer(), due=300)
    again = looked(20, by=EXAMINER, due=300, eye_bearing=Seen.ABSENT)
    found = stands(held, release(1, held, "eye-chafed", until=on(31)), again, day=32)
    assert (found.answer, found.next_due) == (Answer.SERVICEABLE, on(300))


def test_release_until_a_date_does_not_end_when_a_user_looks_there() -> None:
    held = looked(0, refer(), due=300)
    again = looked(20, by=MATE, due=300, eye_bearing=Seen.ABSENT)
    assert stands(held, release(1, held, "eye-chafed", until=on(31)), again, day=32).answer is Answer.HOLD


def test_release_until_a_date_does_not_end_by_a_look_elsewhere() -> None:
    held = looked(0, refer(), due=300)
    again = looked(20, by=EXAMINER, due=300, bury_feel=Seen.ABSENT)
    assert stands(held, release(1, held, "eye-chafed", until=on(31)), again, day=22).next_due == on(31)


def test_newest_release_of_the_same_cause_sets_its_date() -> None:
    held, again = looked(0, refer(), due=300), looked(10, refer(), due=300)
    sooner = release(1, held, "eye-chafed", until=on(31))
    assert stands(held, sooner, again, release(11, again, "eye-chafed", until=on(60)), day=12).next_due == on(60)


def test_release_made_before_the_inspection_it_names_closes_nothing() -> None:
    held = looked(5, refer())
    assert still_open(stands(release(1, held, "eye-chafed"), held)) == ["eye-chafed"]


def test_ruling_on_the_use_never_holds_the_item() -> None:
    assert stands(looked(0, refer("throat-angle", scope=Scope.USE))).answer is Answer.SERVICEABLE


# --- overdue ---------------------------------------------------------------------------------------------


def test_last_day_before_the_examination_is_still_in_service() -> None:
    assert stands(looked(0, due=100), day=100).answer is Answer.SERVICEABLE


def test_day_after_the_examination_was_due_it_is_held() -> None:
    found = stands(looked(0, due=100), day=101)
    assert (found.state, found.answer, found.door, found.overdue) == (
        State.QUARANTINED,
        Answer.HOLD,
        Door.REFER,
        True,
    )


def test_watch_that_was_not_looked_at_again_in_time_is_held() -> None:
    watched = looked(0, ruling("body-grit", Answer.WATCH), due=300, next_due=30)
    assert stands(watched, day=31).answer is Answer.HOLD


def test_overdue_examination_closes_by_the_examination() -> None:
    examined = looked(11, kind=InspectionKind.PERIODIC, by=EXAMINER, due=300)
    assert stands(looked(10, overdue_examination(), due=5), examined).answer is Answer.SERVICEABLE


def test_overdue_examination_does_not_close_by_one_that_a_user_made() -> None:
    examined = looked(11, kind=InspectionKind.PERIODIC, by=MATE, due=300)
    assert still_open(stands(looked(10, overdue_examination(), due=5), examined)) == ["examination-due"]


def test_overdue_examination_does_not_close_by_a_look_before_use() -> None:
    again = looked(11, by=EXAMINER, due=300)
    assert still_open(stands(looked(10, overdue_examination(), due=5), again)) == ["examination-due"]


def test_overdue_examination_does_not_close_by_one_that_finds_it_still_overdue() -> None:
    examined = looked(11, overdue_examination(), kind=InspectionKind.PERIODIC, by=EXAMINER, due=5)
    assert stands(looked(10, overdue_examination(), due=5), examined).answer is Answer.HOLD


# --- watch stays in sight --------------------------------------------------------------------------------


def test_watch_is_not_forgotten_by_a_look_that_did_not_look_there() -> None:
    watched = looked(0, ruling("body-grit", Answer.WATCH, part="body", observation="body_inside"), due=300, next_due=30)
    found = stands(watched, looked(1, eye_bearing=Seen.ABSENT), day=2)
    assert (found.answer, found.next_due) == (Answer.WATCH, on(30))


def test_watch_beside_a_hold_is_still_there_when_the_hold_is_released() -> None:
    grit = ruling("body-grit", Answer.WATCH, part="body", observation="body_inside", look_again=on(30))
    both = looked(0, refer(), grit, due=300)
    assert stands(both, release(1, both, "eye-chafed"), day=2).answer is Answer.WATCH


# --- condemned, disposed of ------------------------------------------------------------------------------


def test_condemned_is_final_whatever_follows() -> None:
    held = looked(0, refer())
    sound = looked(3, kind=InspectionKind.AS_MADE, by=EXAMINER)
    found = stands(held, condemn(1), work(2, Mend.RE_SPLICE), sound, release(4, held, "eye-chafed"))
    assert (found.state, found.answer, found.next_due) == (State.CONDEMNED, Answer.REMOVE, None)


def test_sound_item_can_be_condemned() -> None:
    assert stands(looked(0), condemn(1)).state is State.CONDEMNED


def test_disposal_ends_a_condemned_item() -> None:
    gone = Disposal(id="gone", item="pendant", at=at(2), by=EXAMINER, how="cut into short lengths", pictures=(PICTURE,))
    found = stands(looked(0), condemn(1), gone)
    assert (found.state, found.answer) == (State.DISPOSED, Answer.REMOVE)


# --- which records count, and in which order -------------------------------------------------------------


def _whole_life() -> list[ItemRecord]:
    cut = looked(1, remove(Mend.RE_SPLICE))
    made = looked(3, kind=InspectionKind.AS_MADE, by=EXAMINER)
    chafed = looked(5, refer(), look_again(observation="throat_marks"))
    return [
        looked(0),
        cut,
        work(2, Mend.RE_SPLICE),
        made,
        release(4, cut, "eye-cut"),
        chafed,
        release(6, chafed, "eye-chafed"),
        looked(7, throat_marks=Seen.ABSENT),
        looked(8, refer("bury-hollow")),
        looked(9, look_again()),
    ]


@pytest.mark.parametrize("seed", range(20))
def test_order_of_records_never_changes_where_it_stands(seed: int) -> None:
    records = _whole_life()
    shuffled = records.copy()
    random.Random(seed).shuffle(shuffled)
    found = stands(*shuffled)
    assert still_open(found) == ["bury-hollow", "needs-buried-eye"]
    assert found == stands(*records)


def test_record_that_arrives_twice_counts_once_for_the_way_back() -> None:
    records = _whole_life()[:8]
    assert stands(*records, *records).answer is Answer.SERVICEABLE


@pytest.mark.parametrize("later", [looked(50, refer()), condemn(50)], ids=["look", "condemned"])
def test_record_later_than_the_date_asked_for_is_left_out(later: ItemRecord) -> None:
    assert stands(looked(0), later, day=49).answer is Answer.SERVICEABLE


def test_record_of_the_date_asked_for_counts() -> None:
    assert stands(looked(0), looked(50, refer()), day=50).answer is Answer.HOLD


def test_records_of_another_item_are_left_out() -> None:
    other = looked(1, refer(), item="another line")
    found = stands(looked(0), other, condemn(2).model_copy(update={"item": "another line"}))
    assert (found.answer, found.latest) == (Answer.SERVICEABLE, "look-0")


def test_local_date_counts_not_the_date_in_utc() -> None:
    evening = looked(0, refer())
    late = {"at": datetime(2050, 3, 1, 23, 30, tzinfo=UTC), "utc_offset_minutes": 60}
    evening = evening.model_copy(update={"inspection": evening.inspection.model_copy(update=late)})
    assert standing(PENDANT, [evening], date(2050, 3, 1)).latest == ""
    assert standing(PENDANT, [evening], date(2050, 3, 2)).latest == "look-0"


def test_open_entries_come_worst_first_then_oldest_first() -> None:
    found = stands(looked(0, refer()), looked(1, remove(Mend.NOTHING)), looked(2, refer("bury-hollow")))
    assert still_open(found) == ["eye-cut", "eye-chafed", "bury-hollow"]
