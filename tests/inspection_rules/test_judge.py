"""What the judgement says of whole cases: unknown, hidden, not covered, overdue, and the two questions apart."""

import pytest
from pydantic import ValidationError

from inspection_rules.book import CaseError
from inspection_rules.words import Answer, Door

from .building import MATE, YARD_HAND, baselines, buried_sling, case, inspection, judged, laid_sling, ruling

TODAY = "2026-07-01"
HOW = {"tension": "hand-taut", "moisture": "dry"}


def before_use(item, **changed):
    return inspection(item, "before use", TODAY, YARD_HAND, **changed)


def periodic(item, **changed):
    return inspection(item, "periodic", TODAY, **changed)


@pytest.mark.parametrize("make", [buried_sling, laid_sling])
@pytest.mark.parametrize("look", [before_use, periodic])
def test_a_sound_and_fully_examined_sling_is_serviceable(make, look):
    judgement = judged(case(make(), look(make())))

    assert judgement.answer is Answer.SERVICEABLE
    assert not judgement.missing


def test_a_question_left_out_is_a_hold_to_look_again_and_is_named():
    item = buried_sling()

    judgement = judged(case(item, before_use(item, without=(("B", "bury_feel"),))))

    assert (judgement.answer, judgement.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert [(m.part, m.observation) for m in judgement.missing] == [("B", "bury_feel")]
    assert judgement.next_due is None


def test_what_could_not_be_examined_holds_even_where_the_inspection_did_not_need_it():
    item = buried_sling()
    look = before_use(item)
    look["findings"].append(
        {"observation": "throat_entry", "part": "A", "seen": "could not be examined", "reason": "iced over"}
    )

    judgement = judged(case(item, look))

    assert (judgement.answer, judgement.door) == (Answer.HOLD, Door.LOOK_AGAIN)


def test_what_was_needed_and_could_not_be_examined_is_held_once():
    item = buried_sling()
    look = periodic(item, without=(("A", "throat_entry"),))
    look["findings"].append(
        {"observation": "throat_entry", "part": "A", "seen": "could not be examined", "reason": "iced over"}
    )

    told = [r for r in judged(case(item, look)).rulings if (r.part, r.observation) == ("A", "throat_entry")]

    assert [(r.answer, r.title) for r in told] == [(Answer.HOLD, "Not examined")]


def test_a_record_of_making_one_end_misses_nothing_of_the_other():
    item = buried_sling()
    made = inspection(item, "as made", "2026-01-05")
    for entries in ("readings", "findings"):
        made[entries] = [one for one in made[entries] if one["part"] == "A"]

    assert judged(case(item, made, past=[])).missing == ()


def test_what_design_hides_passes_only_with_what_stands_in_for_it():
    item = buried_sling()
    for eye in (item["parts"][0], item["parts"][2]):
        eye["thimble"] = "captive"

    def with_thimble(seen):
        look = periodic(item)
        for finding in look["findings"]:
            if (finding["part"], finding["observation"]) == ("A", "eye_bearing"):
                finding["seen"] = "hidden by design"
            if (finding["part"], finding["observation"]) == ("A", "thimble"):
                finding.update(seen)
        return judged(case(item, look))

    assert with_thimble({"seen": "absent"}).answer is Answer.SERVICEABLE
    unseen = with_thimble({"seen": "could not be examined", "reason": "under tape"})
    assert unseen.answer is Answer.HOLD


def test_hidden_is_refused_where_nothing_hides_by_design():
    item = buried_sling()
    look = before_use(item)
    look["findings"][0]["seen"] = "hidden by design"

    with pytest.raises(CaseError, match=r"tag.*nothing hides this by design"):
        judged(case(item, look))


@pytest.mark.parametrize(
    ("kind", "construction", "splice"),
    [
        ("web sling", None, "sewn eye"),
        ("line", "kernmantle", "buried eye"),
        ("line", "laid, three-strand", "locked eye"),
        ("line", "double braid", "tuck-and-bury eye"),
    ],
)
def test_what_the_loaded_rules_do_not_cover_is_never_passed(kind, construction, splice):
    item = buried_sling(kind=kind, construction=construction)
    for eye in (item["parts"][0], item["parts"][2]):
        eye["splice"] = splice

    judgement = judged(case(item, before_use(item), past=[inspection(item, "as made", "2026-01-05")]))

    assert (judgement.answer, judgement.door) == (Answer.HOLD, Door.REFER)
    assert "not-covered" in {r.rule for r in judgement.rulings}


def test_each_part_that_the_loaded_rules_do_not_cover_is_named_by_what_it_is():
    item = buried_sling(kind="web sling", construction="laid, three-strand")

    judgement = judged(case(item, before_use(item), past=[]))

    assert {r.part: r.sentence for r in judgement.rulings if r.rule == "not-covered"} == {
        "A": "The loaded rules do not cover this part of a web sling: buried eye.",
        "body": "The loaded rules do not cover this part of a web sling: laid, three-strand.",
        "B": "The loaded rules do not cover this part of a web sling: buried eye.",
    }


def test_a_fitting_that_was_not_asked_about_is_never_passed():
    item = buried_sling()
    item["parts"].append({"id": "shackle", "kind": "fitting", "fitting": "shackle"})

    judgement = judged(case(item, before_use(item, without=(("", "fittings"),))))

    assert (judgement.answer, judgement.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert [(m.part, m.observation) for m in judgement.missing] == [("", "fittings")]


def test_an_item_without_any_baseline_is_referred():
    item = buried_sling()

    judgement = judged(case(item, before_use(item), past=[]))

    assert (judgement.answer, judgement.door) == (Answer.HOLD, Door.REFER)
    assert ruling(judgement, "remaining-bury").door is Door.REFER


def test_a_splice_without_its_own_bury_on_record_is_referred_and_gets_no_rule_of_thumb():
    item = buried_sling()
    del item["parts"][0]["required_bury"], item["parts"][0]["required_by"]

    told = ruling(judged(case(item, before_use(item))), "remaining-bury")

    assert (told.answer, told.door, told.limit) == (Answer.HOLD, Door.REFER, None)
    assert told.observation == "bury"


def test_an_overdue_examination_holds_and_making_it_lifts_the_hold():
    item = laid_sling()
    late = "2027-01-06"

    overdue = judged(case(item, inspection(item, "before use", late, YARD_HAND)))
    examined = judged(case(item, inspection(item, "periodic", late)))

    assert (overdue.answer, overdue.door) == (Answer.HOLD, Door.REFER)
    assert examined.answer is Answer.SERVICEABLE


def test_the_last_day_of_the_interval_is_still_in_time():
    item = laid_sling()

    assert judged(case(item, inspection(item, "before use", "2027-01-05", YARD_HAND))).answer is Answer.SERVICEABLE


def test_a_periodic_examination_by_a_user_holds():
    item = laid_sling()

    judgement = judged(case(item, inspection(item, "periodic", TODAY, MATE)))

    assert (judgement.answer, judgement.door) == (Answer.HOLD, Door.REFER)


def test_a_use_that_is_ruled_out_leaves_the_items_own_answer_alone():
    item = laid_sling()

    judgement = judged(case(item, before_use(item), use={"pin_diameter": "100 mm", "eye_length": "150 mm"}))

    assert judgement.answer is Answer.SERVICEABLE
    assert {(r.rule, r.part) for r in judgement.not_for_this_use if r.pack == "us-lifting"} == {
        ("throat-angle", "A"),
        ("throat-angle", "B"),
    }


def test_a_pin_without_the_eyes_length_is_not_for_this_use():
    item = laid_sling()

    judgement = judged(case(item, before_use(item), use={"pin_diameter": "20 mm"}))

    assert judgement.answer is Answer.SERVICEABLE
    assert judgement.not_for_this_use


def test_an_eye_that_no_rule_judges_on_a_pin_is_not_passed_by_the_one_at_the_other_end():
    item = laid_sling(kind="line", duty="mooring")
    item["parts"][2]["splice"] = "sewn eye"
    use = {"pin_diameter": "50 mm", "eye_length": "400 mm"}

    judgement = judged(case(item, before_use(item), use=use, regimes=[]))

    assert [(r.part, r.sentence) for r in judgement.not_for_this_use] == [
        ("B", "No loaded rule judges a sewn eye on a pin.")
    ]


def test_what_is_said_of_the_use_and_no_rule_judges_is_not_passed_over():
    item = laid_sling()

    judgement = judged(case(item, before_use(item), regimes=[], use={"load": "10 kN", "hitch": "choker"}))

    assert [r.title for r in judgement.not_for_this_use] == ["Lift"]


def test_a_leg_angle_without_its_datum_is_refused():
    item = laid_sling()

    with pytest.raises(ValidationError, match="does not say what it is measured from"):
        case(item, before_use(item), use={"leg_angle": "45°"})


def test_a_condition_seen_is_told_by_every_rule_that_knows_it_and_the_worst_wins():
    item = laid_sling()

    judgement = judged(case(item, before_use(item, seen={("body", "body_surface"): "cut"})))

    assert judgement.answer is Answer.REMOVE
    assert ruling(judgement, "body-cut", "body").answer is Answer.HOLD
    assert ruling(judgement, "cut-strand", "body").answer is Answer.REMOVE


def test_a_watch_brings_the_next_look_nearer_and_says_when():
    item = laid_sling(kind="line", duty="mooring")

    judgement = judged(case(item, periodic(item, seen={("body", "body_inside"): "grit"})))

    assert judgement.answer is Answer.WATCH
    assert judgement.next_due.isoformat() == "2026-07-31"
    assert judgement.examination_due.isoformat() == "2027-07-01"


def test_two_marks_read_as_distances_stand_in_for_the_offset():
    item = buried_sling()
    look = periodic(item, without=(("A", "mark_offset"),))
    for name in ("mark_tail", "mark_standing"):
        look["readings"].append(
            {"observation": name, "part": "A", "values": ["48 mm", "48 mm"], "method": "tape", **HOW}
        )

    assert not judged(case(item, look)).missing


def test_two_marks_read_in_different_states_are_read_again():
    item = buried_sling()
    look = periodic(item, without=(("A", "mark_offset"),))
    for name, state in (("mark_tail", "dry"), ("mark_standing", "wet")):
        entry = {"observation": name, "part": "A", "values": ["48 mm", "48 mm"], "method": "tape", **HOW}
        look["readings"].append(entry | {"moisture": state})

    told = ruling(judged(case(item, look)), "slip")

    assert (told.answer, told.door, told.value) == (Answer.HOLD, Door.LOOK_AGAIN, None)
    assert told.sentence == "The two marks were read in different states; read both in one."


def test_a_reading_in_the_wrong_unit_is_refused_with_its_place():
    item = laid_sling()

    with pytest.raises(CaseError, match=r"tail of part A: '110 kN' is no length"):
        judged(case(item, periodic(item, readings={("A", "tail"): ["110 kN"]})))


def test_rulings_come_worst_first_then_in_the_order_of_the_rope():
    item = buried_sling()
    seen = {("B", "bury_feel"): "hollow", ("A", "bury_feel"): "tail_showing", ("A", "eye_bearing"): "chafed"}

    judgement = judged(case(item, before_use(item, seen=seen)))

    assert [(r.part, r.observation) for r in judgement.rulings[:3]] == [
        ("A", "bury_feel"),
        ("A", "eye_bearing"),
        ("B", "bury_feel"),
    ]


def test_an_as_made_record_at_its_specification_is_serviceable_and_one_short_of_it_is_removed():
    item = buried_sling()

    def made(bury):
        return judged(case(item, inspection(item, "as made", "2026-01-05", readings={("A", "bury"): [bury]}), past=[]))

    assert made("1728 mm").answer is Answer.SERVICEABLE
    assert made("1727 mm").answer is Answer.REMOVE


def test_common_practice_counts_without_any_regime():
    item = laid_sling()

    judgement = judged(case(item, before_use(item, seen={("body", "body_surface"): "cut"}), regimes=[]))

    assert judgement.answer is Answer.HOLD
    assert all(stamp.id.startswith("common-practice") for stamp in judgement.packs)


def test_an_unknown_regime_is_refused_by_name():
    item = laid_sling()

    with pytest.raises(CaseError, match="'moon law' is not known; known are Australia, Canada Alberta, EU, Mooring,"):
        judged(case(item, before_use(item), baselines(item), regimes=["moon law"]))


def test_what_was_seen_of_a_thimble_that_is_gone_stays_on_record():
    item = buried_sling()
    item["parts"][0]["thimble"] = "removable"
    earlier = inspection(item, "before use", "2026-05-01", MATE)
    past = baselines(item)
    item["parts"][0]["thimble"] = "none"

    judgement = judged(case(item, inspection(item, "periodic", "2026-07-01"), past, earlier=[earlier]))

    assert judgement.answer is Answer.SERVICEABLE
