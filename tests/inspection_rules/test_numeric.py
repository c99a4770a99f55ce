"""Rulings on numbers: limits with their guard band."""

from inspection_rules.words import Answer, Door

from .building import baselines, buried_sling, case, inspection, judged, laid_sling, ruling

TODAY = "2026-07-01"


def thinner(worst: str) -> object:
    item = buried_sling()
    look = inspection(item, "periodic", TODAY, readings={("body", "girth_worst"): [worst] * 3})
    return ruling(judged(case(item, look)), "effective-diameter", "body")


def test_well_inside_the_limit_passes_and_says_by_how_much():
    told = thinner("75 mm")

    assert told.answer is Answer.SERVICEABLE
    assert (told.value, told.limit, told.margin) == (0, 10, 10)
    assert "10 points inside; good to ± " in told.sentence


def test_inside_the_limit_but_within_the_doubt_is_a_hold_to_look_again():
    told = thinner("69 mm")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert "not enough to be sure" in told.sentence


def test_a_loss_well_inside_what_one_hand_cannot_tell_apart_is_no_doubt():
    """70 of 75 mm is 6.7 % less: 3.3 points inside, where one hand and tape are good to about 2.2 points."""
    assert thinner("70 mm").answer is Answer.SERVICEABLE


def test_beyond_the_limit_is_the_rules_own_outcome_whatever_the_doubt():
    told = thinner("67 mm")

    assert told.answer is Answer.REMOVE


def test_exactly_at_a_limit_that_equality_satisfies_is_doubt_not_removal():
    told = thinner("67.5 mm")

    assert told.margin == 0
    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)


def test_a_default_uncertainty_says_so_and_prints_no_probability():
    told = thinner("69 mm")

    assert "common practice" in told.u_source
    assert not told.from_study
    assert "%" not in told.sentence.split("good to")[1]


def test_too_near_to_be_sure_asks_for_the_reading_again():
    assert thinner("69 mm").action == "Do not use it; make the reading again."


def test_a_number_beyond_a_most_is_said_to_be_over_it():
    """67 of 75 mm is 10.667 % less."""
    assert thinner("67 mm").sentence.startswith("10.7 %, limit at most 10 %; ")
    assert "0.7 points over" in thinner("67 mm").sentence


def test_a_number_below_a_least_is_said_to_be_short_of_it():
    item = laid_sling()
    look = inspection(item, "periodic", TODAY, readings={("A", "tail"): ["90 mm"]})

    told = ruling(judged(case(item, look)), "tail-projection").sentence

    assert told.startswith("90 mm, limit at least 96 mm (6 × nominal diameter")
    assert ". 6 mm short" in told


def test_girths_read_once_are_not_judged_but_asked_for_again():
    item = buried_sling()
    look = inspection(item, "periodic", TODAY, readings={("body", "girth_worst"): ["75 mm"]})

    told = ruling(judged(case(item, look)), "effective-diameter", "body")

    assert (told.answer, told.door, told.value) == (Answer.HOLD, Door.LOOK_AGAIN, None)


def test_a_worst_place_is_judged_before_bedding_in_too_since_both_places_compact_alike():
    """50 of 75 mm is a third less."""
    item = buried_sling()
    look = inspection(item, "periodic", "2026-01-12", readings={("body", "girth_worst"): ["50 mm"] * 3})

    told = ruling(judged(case(item, look, past=baselines(item)[:1])), "effective-diameter", "body")

    assert told.answer is Answer.REMOVE


def test_a_new_braids_girth_is_not_compared_with_an_earlier_one_until_bedded_in():
    item = buried_sling()
    thin = {("body", "girth_worst"): ["60 mm"] * 3, ("body", "girth_sound"): ["60 mm"] * 3}
    before = inspection(item, "periodic", "2026-01-08")
    look = inspection(item, "periodic", "2026-01-12", readings=thin)

    judgement = judged(case(item, look, past=baselines(item)[:1], earlier=[before]))

    assert "girth-loss" not in {r.rule for r in judgement.rulings}


def test_a_study_too_good_to_be_true_does_not_pass_what_lies_a_hundredth_inside_its_limit():
    item = laid_sling()
    look = inspection(item, "periodic", TODAY, readings={("A", "tail"): ["96.01 mm"]})
    for entry in look["readings"]:
        if entry["observation"] == "tail":
            entry |= {"u": "0.001 mm", "u_study": "ten pairs, yard, May"}

    told = ruling(judged(case(item, look)), "tail-projection")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)


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
