"""Rulings on numbers: limits with their guard band, and the marks of a buried eye."""

import pytest

from inspection_rules.words import Answer, Door

from .building import baselines, buried_sling, case, inspection, judged, laid_sling, ruling

TODAY = "2026-07-01"
HOW = {"tension": "hand-taut", "moisture": "dry"}


def thinner(worst: str) -> object:
    item = buried_sling()
    look = inspection(item, "periodic", TODAY, readings={("body", "girth_worst"): [worst] * 3})
    return ruling(judged(case(item, look)), "effective-diameter", "body")


def marks(*values: str, earlier=(), at="2026-07-01", **reading):
    item = buried_sling()
    look = inspection(item, "periodic", at, readings={("A", "mark_offset"): list(values)})
    for entry in look["readings"]:
        if (entry["part"], entry["observation"]) == ("A", "mark_offset"):
            entry.update(reading)
    past = [inspection(item, "periodic", on, readings={("A", "mark_offset"): list(offsets)}) for on, offsets in earlier]
    return ruling(judged(case(item, look, earlier=past)), "slip")


def test_well_inside_the_limit_passes_and_says_by_how_much():
    told = thinner("75 mm")

    assert told.answer is Answer.SERVICEABLE
    assert (told.value, told.limit, told.margin) == (0, 10, 10)
    assert "10 points inside; good to ± " in told.sentence


def test_inside_the_limit_but_within_the_doubt_is_a_hold_to_look_again():
    told = thinner("70 mm")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert "not enough to be sure" in told.sentence


def test_beyond_the_limit_is_the_rules_own_outcome_whatever_the_doubt():
    told = thinner("67 mm")

    assert told.answer is Answer.REMOVE


def test_exactly_at_a_limit_that_equality_satisfies_is_doubt_not_removal():
    told = thinner("67.5 mm")

    assert told.margin == 0
    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)


def test_a_default_uncertainty_says_so_and_prints_no_probability():
    told = thinner("70 mm")

    assert "common practice" in told.u_source
    assert not told.from_study
    assert "%" not in told.sentence.split("good to")[1]


def test_girths_read_once_are_not_judged_but_asked_for_again():
    item = buried_sling()
    look = inspection(item, "periodic", TODAY, readings={("body", "girth_worst"): ["75 mm"]})

    told = ruling(judged(case(item, look)), "effective-diameter", "body")

    assert (told.answer, told.door, told.value) == (Answer.HOLD, Door.LOOK_AGAIN, None)


def test_a_new_braids_girth_is_recorded_and_not_judged_until_bedded_in():
    item = buried_sling()
    look = inspection(item, "periodic", "2026-01-12", readings={("body", "girth_worst"): ["60 mm"] * 3})

    judgement = judged(case(item, look, past=baselines(item)[:1]))

    assert "effective-diameter" not in {r.rule for r in judgement.rulings}


def test_marks_that_have_not_moved_are_serviceable():
    assert marks("0 mm", "1 mm").answer is Answer.SERVICEABLE


def test_a_little_beyond_what_readings_differ_by_is_watched():
    assert marks("3.6 mm", "3.6 mm").answer is Answer.WATCH


def test_one_reading_that_looks_like_movement_asks_for_the_repeat():
    told = marks("5 mm")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert "read it again now" in told.sentence


def test_the_mean_of_the_repeat_is_judged_and_may_clear_it():
    assert marks("5 mm", "0 mm").answer is Answer.SERVICEABLE


def test_movement_that_the_repeat_confirms_is_referred():
    told = marks("5 mm", "5 mm")

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


def test_a_tail_that_seems_to_go_into_its_bury_is_referred_too():
    told = marks("-6 mm", "-6 mm")

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


def test_slow_creep_is_caught_against_the_bedded_baseline_although_no_step_shows():
    crept = [(f"2026-0{month}-01", [f"{mm} mm"] * 2) for month, mm in ((3, 1), (4, 2), (5, 3), (6, 4))]

    assert marks("5 mm", "5 mm", earlier=crept).door is Door.REFER


def test_a_second_confirmed_step_removes_with_unconfirmed_visits_between():
    past = [("2026-03-01", ["5 mm", "5 mm"]), ("2026-04-01", ["6 mm", "6 mm"]), ("2026-05-01", ["7 mm", "7 mm"])]

    assert marks("8 mm", "8 mm", earlier=past).answer is Answer.HOLD
    assert marks("10 mm", "10 mm", earlier=past).answer is Answer.REMOVE


def test_a_new_baseline_does_not_reset_the_count_of_steps():
    item = buried_sling()
    past = [inspection(item, "periodic", "2026-03-01", readings={("A", "mark_offset"): ["5 mm", "5 mm"]})]
    again = inspection(item, "bedded in", "2026-03-02", readings={("A", "mark_offset"): ["5 mm", "5 mm"]})
    look = inspection(item, "periodic", TODAY, readings={("A", "mark_offset"): ["10 mm", "10 mm"]})

    told = ruling(judged(case(item, look, past=[*baselines(item), again], earlier=past)), "slip")

    assert told.answer is Answer.REMOVE


def test_a_new_as_made_record_starts_anew():
    item = buried_sling()
    past = [inspection(item, "periodic", "2026-03-01", readings={("A", "mark_offset"): ["5 mm", "5 mm"]})]
    anew = [inspection(item, "as made", "2026-04-01"), inspection(item, "bedded in", "2026-04-15")]
    look = inspection(item, "periodic", TODAY)

    told = ruling(judged(case(item, look, past=[*baselines(item), *anew], earlier=past)), "slip")

    assert told.answer is Answer.SERVICEABLE


def test_a_reading_in_another_state_is_not_comparable_and_holds():
    told = marks("0 mm", "0 mm", moisture="wet")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert told.sentence.startswith("Not comparable")


def test_two_distances_cannot_clear_what_they_cannot_see():
    """At 24 mm two distances are good to ± 8 mm: 5 mm out may then lie beyond the action value of 12 mm."""
    item = buried_sling()

    def by_distances(kind, on, tail):
        look = inspection(item, kind, on, without=(("A", "mark_offset"),))
        for name, value in (("mark_tail", tail), ("mark_standing", "48 mm")):
            look["readings"].append({"observation": name, "part": "A", "values": [value], "method": "tape", **HOW})
        return look

    past = [inspection(item, "as made", "2026-01-05"), by_distances("bedded in", "2026-01-19", "48 mm")]
    told = ruling(judged(case(item, by_distances("periodic", TODAY, "53 mm"), past=past)), "slip")

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


def test_a_stated_study_replaces_the_default_and_is_named():
    item = laid_sling()
    look = inspection(item, "periodic", TODAY, readings={("A", "tail"): ["97 mm"]})
    for entry in look["readings"]:
        if entry["observation"] == "tail":
            entry |= {"u": "0.5 mm", "u_study": "ten pairs, yard, May"}

    told = ruling(judged(case(item, look)), "tail-projection")

    assert told.answer is Answer.SERVICEABLE
    assert told.from_study
    assert "ten pairs, yard, May" in told.u_source
