"""The marks of a buried eye: what is movement, what readings merely differ by, and what the repeat decides."""

from typing import Any

import pytest

from inspection_rules.book import shipped
from inspection_rules.words import Answer, Door

from .building import baselines, buried_sling, case, inspection, judged, ruling

TODAY = "2026-07-01"
HOW = {"tension": "hand-taut", "moisture": "dry"}


def marks(*values: str, earlier: Any = (), at: str = TODAY, **reading: Any) -> Any:
    """What is said of eye A of 24 mm rope, its marks read so: u of a difference is 1.65 mm there."""
    item = buried_sling()
    look = inspection(item, "periodic", at, readings={("A", "mark_offset"): list(values)})
    for entry in look["readings"]:
        if (entry["part"], entry["observation"]) == ("A", "mark_offset"):
            entry.update(reading)
    past = [inspection(item, "periodic", on, readings={("A", "mark_offset"): list(offsets)}) for on, offsets in earlier]
    return ruling(judged(case(item, look, earlier=past)), "slip")


@pytest.mark.criterion("slip")
def test_marks_that_have_not_moved_are_serviceable():
    assert marks("0 mm", "1 mm").answer is Answer.SERVICEABLE


@pytest.mark.criterion("slip")
def test_a_little_beyond_what_readings_differ_by_is_watched():
    assert marks("2.6 mm", "2.6 mm").answer is Answer.SERVICEABLE
    assert marks("2.8 mm", "2.8 mm").answer is Answer.WATCH


@pytest.mark.parametrize("values", [["5 mm"], ["4 mm", "4 mm"], ["6 mm"] * 3, ["90 mm"]])
def test_what_looks_like_movement_asks_for_the_repeat(values):
    told = marks(*values)

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert "read it again now" in told.sentence


@pytest.mark.parametrize("values", [["5 mm", "0 mm"], ["4 mm", "4 mm", "1 mm", "1 mm"]])
def test_the_mean_of_the_repeat_is_judged_and_may_clear_it(values):
    assert marks(*values).answer is Answer.SERVICEABLE


def test_what_the_repeat_leaves_open_is_watched():
    assert marks("4 mm", "4 mm", "4 mm", "4 mm").answer is Answer.WATCH


@pytest.mark.criterion("slip")
@pytest.mark.parametrize("values", [["5 mm", "5 mm", "4 mm", "4 mm"], ["7 mm", "7 mm"], ["95 mm", "95 mm"]])
def test_movement_that_the_repeat_confirms_is_referred(values):
    told = marks(*values)

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)
    assert "no slip limit is published" in told.sentence


@pytest.mark.parametrize("values", [["-6 mm"] * 4, ["-7 mm"] * 2])
def test_a_tail_that_seems_to_go_into_its_bury_is_referred_too(values):
    told = marks(*values)

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


def test_slow_creep_is_caught_against_the_bedded_baseline_although_no_step_shows():
    crept = [(f"2026-0{month}-01", [f"{mm} mm"] * 2) for month, mm in ((3, 1), (4, 2), (5, 3))]

    assert marks(*["5 mm"] * 4, earlier=crept).door is Door.REFER


def test_a_second_confirmed_step_removes_with_unconfirmed_visits_between():
    past = [("2026-03-01", ["5 mm"] * 4), ("2026-04-01", ["6 mm"] * 2), ("2026-05-01", ["7 mm"] * 2)]

    assert marks("8 mm", "8 mm", earlier=past).answer is Answer.HOLD
    assert marks(*["10 mm"] * 4, earlier=past).answer is Answer.REMOVE


def test_a_new_baseline_does_not_reset_the_count_of_steps():
    item = buried_sling()
    past = [inspection(item, "periodic", "2026-03-01", readings={("A", "mark_offset"): ["5 mm"] * 4})]
    again = inspection(item, "bedded in", "2026-03-02", readings={("A", "mark_offset"): ["5 mm", "5 mm"]})
    look = inspection(item, "periodic", TODAY, readings={("A", "mark_offset"): ["10 mm"] * 4})

    told = ruling(judged(case(item, look, past=[*baselines(item), again], earlier=past)), "slip")

    assert told.answer is Answer.REMOVE


def test_a_new_as_made_record_starts_anew():
    item = buried_sling()
    past = [inspection(item, "periodic", "2026-03-01", readings={("A", "mark_offset"): ["5 mm"] * 4})]
    anew = [inspection(item, "as made", "2026-04-01"), inspection(item, "bedded in", "2026-04-15")]
    look = inspection(item, "periodic", TODAY)

    told = ruling(judged(case(item, look, past=[*baselines(item), *anew], earlier=past)), "slip")

    assert told.answer is Answer.SERVICEABLE


def test_readings_that_were_held_for_lying_apart_count_as_no_step():
    past = [("2026-03-01", ["0 mm", "0 mm", "0 mm", "50 mm"])]

    assert marks("0 mm", "0 mm", earlier=past).answer is Answer.SERVICEABLE


def test_a_reading_in_another_state_is_not_comparable_and_holds():
    told = marks("0 mm", "0 mm", moisture="wet")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert told.sentence.startswith("Not comparable")


def by_distances(item: dict[str, Any], kind: str, on: str, tail: str, n: int = 1) -> dict[str, Any]:
    """An inspection with the two distances instead of the offset at eye A."""
    look = inspection(item, kind, on, without=(("A", "mark_offset"),))
    for name, value in (("mark_tail", tail), ("mark_standing", "48 mm")):
        look["readings"].append({"observation": name, "part": "A", "values": [value] * n, "method": "tape", **HOW})
    return look


def test_two_distances_cannot_clear_what_they_cannot_see():
    """At 24 mm two distances are good to ± 8 mm: 5 mm out may then lie beyond the action value of 12 mm."""
    item = buried_sling()
    past = [inspection(item, "as made", "2026-01-05"), by_distances(item, "bedded in", "2026-01-19", "48 mm")]

    told = ruling(judged(case(item, by_distances(item, "periodic", TODAY, "53 mm"), past=past)), "slip")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)


def test_a_site_may_set_its_own_action_value_and_the_ruling_says_whose_it_is():
    item = buried_sling()
    look = inspection(item, "periodic", TODAY, readings={("A", "mark_offset"): ["2 mm", "2 mm"]})

    told = ruling(judged(case(item, look, site={"slip_action": "4 mm"})), "slip")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert "set by the site" in told.sentence


@pytest.mark.parametrize(
    ("settled", "answer"), [("9 mm", Answer.WATCH), ("23 mm", Answer.HOLD), ("25 mm", Answer.HOLD)]
)
def test_a_new_splice_may_settle_by_one_diameter_doubt_included(settled, answer):
    item = buried_sling()
    look = inspection(item, "periodic", "2026-01-12", readings={("A", "mark_offset"): [settled] * 2})

    assert ruling(judged(case(item, look, past=baselines(item)[:1])), "slip").answer is answer


# --- the repeat made on another day --------------------------------------------------------------------------


def test_the_repeat_of_the_next_days_is_averaged_with_the_reading_that_left_a_doubt():
    doubt = [("2026-06-29", ["5 mm", "5 mm"])]

    confirmed, cleared = marks("4 mm", "4 mm", earlier=doubt), marks("0 mm", "0 mm", earlier=doubt)

    assert (confirmed.value, confirmed.door) == (4.5, Door.REFER)
    assert (cleared.value, cleared.answer) == (2.5, Answer.SERVICEABLE)
    assert "the mean with the reading of 2026-06-29" in cleared.sentence


def test_a_reading_a_month_after_a_doubt_stands_by_itself():
    assert marks("0 mm", "0 mm", earlier=[("2026-06-01", ["5 mm", "5 mm"])]).value == 0


def test_a_reading_that_passed_is_not_averaged_with_the_next():
    """Else a sudden movement within the week would be halved."""
    assert marks("7 mm", "7 mm", earlier=[("2026-06-29", ["0 mm", "0 mm"])]).value == 7


def test_a_repeat_in_a_better_way_stands_by_itself():
    item = buried_sling()
    coarse = by_distances(item, "periodic", "2026-06-29", "54 mm", 2)
    look = inspection(item, "periodic", TODAY)

    told = ruling(judged(case(item, look, earlier=[coarse])), "slip")

    assert (told.value, told.answer) == (0, Answer.SERVICEABLE)


def test_a_coarser_repeat_does_not_stand_by_itself():
    item = buried_sling()
    doubt = inspection(item, "periodic", "2026-06-29", readings={("A", "mark_offset"): ["6 mm", "6 mm"]})

    told = ruling(judged(case(item, by_distances(item, "periodic", TODAY, "48 mm", 2), earlier=[doubt])), "slip")

    assert (told.value, told.answer) == (3, Answer.WATCH)


def test_the_rule_asks_for_fewer_u_the_more_readings_confirm():
    movement = next(r.movement for p in shipped().packs for r in p.rules if r.id == "slip")

    assert [(one.readings, float(one.k)) for one in movement.confirmed] == [(4, 2.7), (2, 4.0)]
