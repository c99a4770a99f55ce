"""Ways round the evidence that a hostile reading once found, each closed and kept closed."""

import pytest

from inspection_rules.words import Answer, Door, InspectionKind, Mend, Seen

from .building import YARD_HAND, baselines, buried_sling, case, inspection, judged, laid_sling, ruling
from .histories import EXAMINER, look_again, looked, refer, release, remove, stands, work

TODAY = "2026-07-01"


def test_an_as_found_record_does_not_wash_off_how_far_the_tail_came_out():
    item = buried_sling()
    found = inspection(item, "as found", TODAY, readings={("A", "mark_offset"): ["40 mm", "40 mm"]})

    told = ruling(judged(case(item, found)), "slip")

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


def test_a_tail_that_settled_more_than_a_diameter_is_referred_whoever_recorded_it_as_bedded_in():
    item = buried_sling()
    bedded = inspection(item, "bedded in", "2026-01-19", readings={("A", "mark_offset"): ["40 mm", "40 mm"]})
    look = inspection(item, "periodic", TODAY, readings={("A", "mark_offset"): ["40 mm", "40 mm"]})

    told = ruling(judged(case(item, look, past=[baselines(item)[0], bedded])), "slip")

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


def read_wet(one):
    for entry in one["readings"]:
        if entry["observation"] == "mark_offset":
            entry["moisture"] = "wet"
    return one


@pytest.mark.parametrize("before", [1, 2], ids=["bedded in wet", "bedded in dry, then again wet"])
def test_what_came_out_is_not_hidden_in_a_baseline_read_in_another_state_than_the_one_before(before):
    """60 mm is two and a half diameters."""
    item = buried_sling()
    out = {("A", "mark_offset"): ["60 mm", "60 mm"]}
    bedded = read_wet(inspection(item, "bedded in", "2026-02-19", readings=out))
    past = [*baselines(item)[:before], bedded]

    wet = ruling(judged(case(item, read_wet(inspection(item, "periodic", TODAY, readings=out)), past=past)), "slip")
    dry = ruling(judged(case(item, inspection(item, "periodic", TODAY, readings=out), past=past)), "slip")

    assert wet.answer is Answer.HOLD
    assert wet.sentence.startswith("Not comparable")
    assert (dry.answer, dry.door) == (Answer.HOLD, Door.REFER)


def test_a_tail_whose_marks_were_never_read_as_made_has_no_baseline_in_a_bedded_in_record():
    item = buried_sling()
    made = inspection(item, "as made", "2026-01-05", without=(("A", "mark_offset"),))
    out = {("A", "mark_offset"): ["60 mm", "60 mm"]}
    bedded = inspection(item, "bedded in", "2026-01-19", readings=out)

    told = ruling(judged(case(item, inspection(item, "periodic", TODAY, readings=out), past=[made, bedded])), "slip")

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


def test_once_slip_is_confirmed_what_the_splice_settled_by_has_left_the_bury_too():
    item = buried_sling()
    made = inspection(item, "as made", "2026-01-05", readings={("A", "bury"): ["1740 mm"]})
    bedded = inspection(item, "bedded in", "2026-01-19", readings={("A", "mark_offset"): ["20 mm", "20 mm"]})
    look = inspection(item, "periodic", TODAY, readings={("A", "mark_offset"): ["26 mm"] * 4})

    told = ruling(judged(case(item, look, past=[made, bedded])), "remaining-bury")

    assert (told.value, told.answer) == (1714, Answer.REMOVE)


def test_one_wild_reading_is_not_hidden_in_a_mean():
    item = buried_sling()
    look = inspection(item, "periodic", TODAY, readings={("A", "mark_offset"): ["40 mm", *["0 mm"] * 19]})

    told = ruling(judged(case(item, look)), "slip")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert "from 0 to 40 mm" in told.sentence


def test_of_several_tails_the_shortest_counts():
    item = laid_sling()
    look = inspection(item, "periodic", TODAY, readings={("A", "tail"): ["88 mm", "110 mm"]})

    assert ruling(judged(case(item, look)), "tail-projection").answer is Answer.REMOVE


def test_a_reading_that_was_left_out_is_named_with_its_reason():
    item = laid_sling()
    look = inspection(item, "periodic", TODAY)
    for entry in look["readings"]:
        if (entry["part"], entry["observation"]) == ("A", "tail"):
            entry["dropped"] = [{"value": "70 mm", "reason": "wrong strand"}]

    assert "Left out: 70 mm (wrong strand)" in ruling(judged(case(item, look)), "tail-projection").sentence


def test_many_readings_do_not_shrink_what_a_study_says_of_one():
    item = laid_sling()

    def after(count):
        look = inspection(item, "periodic", TODAY, readings={("A", "tail"): ["97 mm"] * count})
        for entry in look["readings"]:
            if entry["observation"] == "tail":
                entry |= {"u": "1 mm", "u_study": "yard, May"}
        return ruling(judged(case(item, look)), "tail-projection").u

    assert after(1) == after(20) == 1


@pytest.mark.parametrize(
    "parts",
    [
        [{"id": "body", "kind": "body"}],
        [{"id": "A", "kind": "termination", "end": "A", "splice": "tucked eye"}],
    ],
)
def test_an_item_whose_record_names_only_half_of_it_is_never_passed(parts):
    item = laid_sling(parts=parts)

    judgement = judged(case(item, inspection(item, "before use", TODAY, YARD_HAND), past=[]))

    assert "not-covered" in {r.rule for r in judgement.rulings if r.answer is Answer.HOLD}


@pytest.mark.parametrize(
    ("make", "construction"), [(buried_sling, "laid, three-strand"), (laid_sling, "hollow braid, twelve-strand")]
)
def test_a_splice_in_a_rope_it_is_not_made_in_is_not_covered(make, construction):
    item = make(construction=construction)

    judgement = judged(case(item, inspection(item, "before use", TODAY, YARD_HAND)))

    assert "not-covered" in {r.rule for r in judgement.rulings}


def test_a_pin_that_no_loaded_rule_judges_is_not_passed_over():
    ends = [{"id": end, "kind": "termination", "end": end, "splice": "sewn eye"} for end in "AB"]
    item = laid_sling(parts=[*ends, {"id": "body", "kind": "body"}], kind="line", duty="mooring")

    judgement = judged(case(item, inspection(item, "before use", TODAY, YARD_HAND), use={"pin_diameter": "200 mm"}))

    assert [r.title for r in judgement.not_for_this_use] == ["Pin"]


def test_a_reading_that_could_not_be_taken_holds_even_where_nobody_asked_for_it():
    item = laid_sling()
    look = inspection(item, "before use", TODAY, YARD_HAND)
    look["findings"].append(
        {"observation": "tail", "part": "A", "seen": "could not be examined", "reason": "under tape"}
    )

    assert judged(case(item, look)).door is Door.LOOK_AGAIN


def test_looking_without_reading_does_not_put_off_what_a_watched_reading_asks_for():
    item = laid_sling(kind="line", duty="mooring", fibre="polyester")
    made = inspection(item, "as made", "2026-06-01", readings={("A", "tucks"): ["3"]})
    look = inspection(item, "before use", TODAY, YARD_HAND)

    told = ruling(judged(case(item, look, past=[made])), "tucks-advised")

    assert (told.answer, told.look_again.isoformat()) == (Answer.WATCH, "2026-07-01")


def test_one_end_made_anew_is_asked_about_by_itself_and_is_due_for_bedding_in():
    item = buried_sling()
    anew = inspection(item, "as made", TODAY)
    anew["readings"] = [entry for entry in anew["readings"] if entry["part"] == "A"]

    judgement = judged(case(item, anew))

    assert judgement.answer is Answer.SERVICEABLE
    assert (judgement.next_due.isoformat(), judgement.next_due_why) == ("2026-07-31", "Bedding in")


def test_a_used_ropes_body_is_judged_although_one_of_its_eyes_is_new():
    item = buried_sling()
    anew = inspection(item, "as made", "2026-06-20")
    anew["readings"] = [entry for entry in anew["readings"] if entry["part"] == "A"]
    look = inspection(item, "periodic", TODAY, readings={("body", "girth_worst"): ["60 mm"] * 3})

    told = ruling(judged(case(item, look, past=[*baselines(item), anew])), "effective-diameter", "body")

    assert told.answer is Answer.REMOVE


def test_a_signature_does_not_pass_what_nobody_looked_at():
    unseen = looked(0, look_again())

    assert stands(unseen, release(1, unseen, "needs-buried-eye")).answer is Answer.HOLD


def test_a_users_look_does_not_clear_a_doubt_that_a_competent_person_left():
    doubt = looked(0, look_again(), by=EXAMINER)

    assert stands(doubt, looked(1, bury_feel=Seen.ABSENT)).answer is Answer.HOLD
    assert stands(doubt, looked(1, bury_feel=Seen.ABSENT, by=EXAMINER)).answer is Answer.SERVICEABLE


def test_a_hold_that_asks_for_work_wants_the_work_and_the_look():
    held = looked(0, refer("lock-stitch-broken", mends=Mend.RE_STITCH))
    released = release(2, held, "lock-stitch-broken")

    assert stands(held, released).answer is Answer.HOLD
    assert stands(held, work(1, Mend.RE_STITCH)).answer is Answer.HOLD
    assert stands(held, work(1, Mend.RE_STITCH), released).answer is Answer.SERVICEABLE


def test_a_spliced_eye_does_not_come_back_on_a_record_that_a_user_made():
    out = looked(0, remove(Mend.RE_SPLICE))
    made = looked(2, kind=InspectionKind.AS_MADE)

    assert stands(out, work(1, Mend.RE_SPLICE), made, release(3, out, "eye-cut")).answer is Answer.REMOVE


def test_a_sling_whose_record_has_one_end_is_held():
    item = buried_sling()
    item["parts"] = item["parts"][:2]

    assert "not-covered" in {r.rule for r in judged(case(item, inspection(item, "periodic", TODAY))).rulings}


def test_a_record_with_several_legs_is_held_since_only_one_was_asked_about():
    item = laid_sling(legs=4)

    told = ruling(judged(case(item, inspection(item, "periodic", TODAY))), "not-covered", "")

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


def test_a_lanyard_that_a_person_hangs_on_is_held_without_its_connectors_on_record():
    item = laid_sling(kind="lanyard", duty="life support")

    assert "not-covered" in {r.rule for r in judged(case(item, inspection(item, "periodic", TODAY))).rulings}


def test_a_new_eye_does_not_renew_the_examination_of_an_old_rope():
    item = laid_sling()
    made, new_eye = inspection(item, "as made", "2023-01-05"), inspection(item, "as made", "2026-06-01")
    look = inspection(item, "before use", TODAY, YARD_HAND)

    told = ruling(judged(case(item, look, [made, new_eye])), "examination-due", "")

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


def test_a_new_eye_does_not_make_the_old_rope_as_thick_as_it_was():
    item = laid_sling()
    new_eye = inspection(item, "as made", "2026-06-01")
    thick = inspection(item, "periodic", "2026-02-01")
    thin = inspection(item, "periodic", TODAY, readings={("body", name): ["66 mm"] * 3
                                                        for name in ("girth_worst", "girth_sound")})  # fmt: skip

    judgement = judged(case(item, thin, [*baselines(item), new_eye], earlier=[thick]))

    assert ruling(judgement, "girth-loss", "body").answer is Answer.HOLD


def test_a_record_that_shows_nothing_starts_no_clock():
    item = {"id": "link", "tag": "CN-02", "kind": "connector", "duty": "lifting", "fibre": "polyester",
            "parts": [{"id": "F", "kind": "fitting", "fitting": "connector"}]}  # fmt: skip
    empty = {"id": "made", "item": "link", "kind": "as made", "at": "2026-06-01T08:00:00Z",
             "by": {"name": "yard examiner", "competence": "competent person"}}  # fmt: skip

    told = ruling(judged(case(item, inspection(item, "before use", TODAY, YARD_HAND), [empty])), "examination-due", "")

    assert told.answer is Answer.HOLD


def test_the_next_look_is_never_later_than_the_end_of_a_life():
    item = laid_sling(duty="life support", kind="line", made="2017-01-01", first_used="2021-07-20", maker_criteria="x")

    judgement = judged(case(item, inspection(item, "periodic", TODAY)))

    assert str(judgement.next_due) == "2026-07-20"


@pytest.mark.parametrize("dates", [{"made": "2062-01-01"}, {"made": "2025-01-01", "first_used": "2062-01-01"}])
def test_a_record_dated_after_the_day_judged_is_held_and_not_refused(dates):
    item = laid_sling(**dates)

    told = ruling(judged(case(item, inspection(item, "periodic", TODAY))), "dated-ahead", "")

    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)
