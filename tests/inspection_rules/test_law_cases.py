"""Single cases of the laws: what the generators of `test_laws` do not reach, each as small as it can be."""

import pytest

from inspection_rules.book import CaseError
from inspection_rules.words import Answer, Door

from .strategies import (
    RANK,
    Json,
    copy,
    examined,
    finding,
    harbour,
    inspection,
    judged,
    laid_case,
    pendant_case,
    rank,
    reading,
    set_values,
    without,
)

HOLD = RANK[Answer.HOLD]


UNUSABLE = {
    "girth read twice instead of three times": ("body", "girth_worst", {"values": ["75 mm", "75 mm"]}),
    "girths read in different states": ("body", "girth_sound", {"moisture": "wet"}),
    "marks read in another state than the baseline": ("A", "mark_offset", {"tension": "slack"}),
}


@pytest.mark.parametrize(("part", "name", "change"), UNUSABLE.values(), ids=UNUSABLE)
def test_reading_that_cannot_be_used_is_held(part: str, name: str, change: Json) -> None:
    case = pendant_case()
    found = reading(case["inspection"], part, name)
    assert found is not None
    found.update(change)
    judgement = judged(case)
    assert (judgement.answer, judgement.door) == (Answer.HOLD, Door.LOOK_AGAIN)


def test_girth_beyond_the_limit_read_once_holds_where_three_times_remove() -> None:
    case = laid_case()
    case["regimes"] = ["US lifting"]
    set_values(case["inspection"], "body", "girth_worst", ["40 mm"])
    once = judged(case)
    set_values(case["inspection"], "body", "girth_worst", ["40 mm"] * 3)
    assert (once.answer, once.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert judged(case).answer is Answer.REMOVE


def test_one_reading_of_a_second_movement_holds_where_two_remove() -> None:
    case = pendant_case()
    moved = inspection(case["item"], "periodic", 40)
    set_values(moved, "A", "mark_offset", ["10 mm", "10 mm"])
    case["earlier"] = [moved]
    set_values(case["inspection"], "A", "mark_offset", ["20 mm"])
    once = judged(case)
    set_values(case["inspection"], "A", "mark_offset", ["20 mm", "20 mm"])
    assert (once.answer, once.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert judged(case).answer is Answer.REMOVE


def test_order_of_eye_length_values_never_changes_what_is_not_for_this_use() -> None:
    small_last, large_last = judged(_eye_case(["600 mm", "300 mm"])), judged(_eye_case(["300 mm", "600 mm"]))
    assert small_last.not_for_this_use == large_last.not_for_this_use


def _eye_case(values: list[str]) -> Json:
    case = without_other_end(pendant_case())
    case["item"]["kind"], case["regimes"] = "rope sling", ["US lifting"]
    case["use"] = {"pin_diameter": "200 mm"}
    read = {"observation": "eye_length", "part": "A", "values": values, "method": "tape"}
    case["inspection"]["readings"].append(read)
    return case


def test_site_pack_that_asks_one_thing_does_not_clear_a_part_the_rules_do_not_cover() -> None:
    case = pendant_case()
    case["item"]["parts"][0] = {"id": "A", "kind": "termination", "end": "A", "splice": "sewn eye"}
    case = without(case, "A")
    asks = 'needs = { inspection = ["periodic"], observations = ["eye_bearing"] }'
    case["inspection"]["findings"].append({"observation": "eye_bearing", "part": "A", "seen": "absent"})
    alone = rank(case)
    assert rank({**case, "regimes": ["harbour"]}, harbour(asks)) >= alone


def test_site_limit_in_inches_is_the_same_limit_as_in_millimetres() -> None:
    case = laid_case()
    case["regimes"] = ["harbour"]
    inches = 'limit = { measure = "tail", at_least = "10 in", outcome = "remove" }'
    metric = 'limit = { measure = "tail", at_least = "254 mm", outcome = "remove" }'
    assert rank(case, harbour(inches)) == rank(case, harbour(metric))


def without_other_end(case: Json) -> Json:
    """A case whose record of the item does not leave an end out, so that nobody was asked for it."""
    now = case["inspection"]
    now["findings"] = [one for one in now["findings"] if one["observation"] != "other_end"]
    return case


UNCOVERED = ("sewn eye", "locked eye", "double-braid eye", "tuck-and-bury eye")


@pytest.mark.parametrize("splice", UNCOVERED)
def test_end_that_no_rule_covers_is_held(splice: str) -> None:
    case = pendant_case()
    case["item"]["parts"][0] = {"id": "A", "kind": "termination", "end": "A", "splice": splice}
    assert rank(without(case, "A")) >= HOLD


@pytest.mark.parametrize("splice", UNCOVERED)
def test_end_that_no_rule_covers_is_held_beside_one_that_is_covered(splice: str) -> None:
    case = without_other_end(pendant_case())
    case["item"]["parts"].append({"id": "B", "kind": "termination", "end": "B", "splice": splice})
    case["inspection"]["findings"].append({"observation": "eye_bearing", "part": "B", "seen": "absent"})
    assert rank(case) >= HOLD


def test_spliced_rope_without_a_body_is_held() -> None:
    case = pendant_case()
    case["item"]["parts"].pop()
    assert rank(without(case, "body")) >= HOLD


def test_construction_that_no_rule_covers_is_held_without_a_body_too() -> None:
    case = pendant_case()
    case["item"]["construction"] = "double braid"
    case["item"]["parts"].pop()
    case = without(without(case, "body"), "")
    assert rank(case) >= HOLD


UNRULED_TUCKS: dict[str, tuple[Json, list[str]]] = {
    "rope sling under common practice alone": ({}, []),
    "sling of four strands under the US regime": ({"construction": "laid, four-strand"}, ["US lifting"]),
    "sling of HMPE under the US regime": ({"fibre": "HMPE"}, ["US lifting"]),
}


@pytest.mark.parametrize(("change", "regimes"), UNRULED_TUCKS.values(), ids=UNRULED_TUCKS)
def test_tucked_eye_without_a_single_tuck_is_not_serviceable(change: Json, regimes: list[str]) -> None:
    case = laid_case()
    case["item"] |= change
    case["regimes"] = regimes
    set_values(case["inspection"], "A", "tucks", ["0"])
    assert rank(case) > RANK[Answer.SERVICEABLE]


def test_strand_tail_is_compared_with_the_splice_as_last_made() -> None:
    case = laid_case()
    again = inspection(case["item"], "as made", 40)
    set_values(case["baselines"][0], "A", "tail", ["110 mm"])
    set_values(again, "A", "tail", ["150 mm"])
    case["baselines"].append(again)
    set_values(case["inspection"], "A", "tail", ["115 mm"])
    assert rank(case) >= HOLD


def test_splice_made_anew_with_shorter_tails_is_not_drawing() -> None:
    case = laid_case()
    set_values(case["baselines"][0], "A", "tail", ["180 mm"])
    again = inspection(case["item"], "as made", 40)
    for made in (again, case["inspection"]):
        set_values(made, "A", "tail", ["150 mm"])
    case["baselines"].append(again)
    assert judged(case).answer is Answer.SERVICEABLE


def _slipped_then_rebaselined() -> Json:
    """20 mm out, confirmed, with 10 mm of bury to spare; then the marks were recorded as bedded in once more."""
    case = pendant_case()
    set_values(case["baselines"][0], "A", "bury", ["1738 mm"])
    moved = inspection(case["item"], "periodic", 40)
    again = inspection(case["item"], "bedded in", 50)
    for one in (moved, again, case["inspection"]):
        set_values(one, "A", "mark_offset", ["20 mm", "20 mm"])
    case["earlier"] = [moved]
    case["baselines"].append(again)
    return case


def test_bury_that_has_come_out_stays_out_after_a_new_baseline() -> None:
    assert judged(_slipped_then_rebaselined()).answer is Answer.REMOVE


def test_user_cannot_move_the_baseline_of_slip() -> None:
    case = _slipped_then_rebaselined()
    set_values(case["baselines"][0], "A", "bury", ["2000 mm"])
    by_user = copy(case)
    by_user["baselines"][-1]["by"] = {"name": "mate", "competence": "user"}
    case["baselines"].pop()
    assert rank(by_user) >= rank(case)


def test_marks_back_in_place_after_confirmed_movement_are_held() -> None:
    case = pendant_case()
    set_values(case["baselines"][0], "A", "bury", ["2000 mm"])
    moved = inspection(case["item"], "periodic", 40)
    set_values(moved, "A", "mark_offset", ["20 mm", "20 mm"])
    case["earlier"] = [moved]
    assert rank(case) >= HOLD


def test_making_one_end_anew_does_not_forget_how_the_other_moved() -> None:
    case = pendant_case()
    case["item"]["parts"].append({**case["item"]["parts"][0], "id": "B", "end": "B"})
    item = case["item"]
    case = examined(item)
    set_values(case["baselines"][0], "B", "bury", ["2000 mm"])
    moved = inspection(item, "periodic", 40)
    set_values(moved, "B", "mark_offset", ["10 mm", "10 mm"])
    case["earlier"] = [moved]
    set_values(case["inspection"], "B", "mark_offset", ["20 mm", "20 mm"])
    assert judged(case).answer is Answer.REMOVE
    again = inspection(item, "as made", 60)
    again["readings"] = [read for read in again["readings"] if read["part"] == "A"]
    case["baselines"].append(again)
    assert judged(case).answer is Answer.REMOVE


@pytest.mark.parametrize("kind", ["bedded in", "periodic"])
def test_new_splice_read_far_into_its_bury_is_held(kind: str) -> None:
    case = pendant_case()
    case["baselines"].pop()
    case["on"], case["inspection"] = "2050-03-15", inspection(case["item"], kind, 14)
    set_values(case["inspection"], "A", "mark_offset", ["-100 mm", "-100 mm"])
    assert rank(case) >= HOLD


def test_worst_place_thicker_than_the_sound_one_beyond_doubt_is_held() -> None:
    case = pendant_case()
    set_values(case["inspection"], "body", "girth_worst", ["75 mm"] * 3)
    set_values(case["inspection"], "body", "girth_sound", ["60 mm"] * 3)
    assert rank(case) >= HOLD


def test_stated_uncertainty_is_never_below_what_the_values_show() -> None:
    case = pendant_case()
    for name, values in (("girth_worst", ["62 mm", "75 mm", "76 mm"]), ("girth_sound", ["75 mm"] * 3)):
        set_values(case["inspection"], "body", name, values)
        found = reading(case["inspection"], "body", name)
        assert found is not None
        found.update(u="0.01 mm", u_study="harbour study 1")
    assert rank(case) >= HOLD


def test_as_found_record_whose_marks_cannot_be_used_is_held() -> None:
    case = pendant_case()
    now = inspection(case["item"], "as found", 80)
    now["readings"] = [
        {
            "observation": "mark_tail",
            "part": "A",
            "values": ["48 mm"],
            "method": "tape",
            "tension": "slack",
            "moisture": "dry",
        },
        {
            "observation": "mark_standing",
            "part": "A",
            "values": ["48 mm"],
            "method": "tape",
            "tension": "hand-taut",
            "moisture": "dry",
        },
    ]
    case["inspection"], case["baselines"] = now, []
    assert rank(case) >= HOLD


def test_inside_of_a_braid_that_can_be_opened_is_not_hidden_by_design() -> None:
    case = pendant_case()
    finding(case["inspection"], "body", "body_inside")["seen"] = "hidden by design"
    with pytest.raises(CaseError, match="nothing hides this by design"):
        judged(case)


def test_site_action_value_never_yields_a_better_answer() -> None:
    case = pendant_case()
    found = reading(case["inspection"], "A", "mark_offset")
    assert found is not None
    found.update(u="9 mm", u_study="harbour study 1")
    assert rank({**case, "site": {"slip_action": "1000 mm"}}) >= rank(case)


def test_record_that_holds_nothing_is_not_serviceable() -> None:
    case = laid_case()
    case["inspection"] = inspection(case["item"], "bedded in", 80)
    assert (case["inspection"]["readings"], case["inspection"]["findings"]) == ([], [])
    assert rank(case) >= HOLD


def test_examination_that_examined_nothing_does_not_start_the_interval_anew() -> None:
    case = laid_case()
    case["on"], case["inspection"] = "2051-04-01", inspection(case["item"], "before use", 396)
    overdue = rank(case)
    empty = inspection(case["item"], "periodic", 395)
    case["earlier"] = [{**empty, "readings": [], "findings": []}]
    assert overdue == HOLD
    assert rank(case) >= HOLD


@pytest.mark.parametrize("size", ["4 mm", "6 mm", "8 mm"])
def test_sound_thin_rope_read_as_asked_is_serviceable(size: str) -> None:
    case = pendant_case()
    case["item"]["diameter"] = size
    case["item"]["parts"][0]["required_bury"] = "500 mm"
    for one in (case["inspection"], *case["baselines"]):
        set_values(one, "A", "mark_offset", ["0 mm"] * 2)
    assert judged(case).answer is Answer.SERVICEABLE


def test_wear_beyond_seven_tenths_of_the_limit_is_watched_once_a_study_makes_the_reading_good_enough() -> None:
    """With the default uncertainty the doubt holds before the watch could begin."""
    answers = set()
    for tenths in range(700, 760):
        case = pendant_case()
        set_values(case["inspection"], "body", "girth_worst", [f"{tenths / 10} mm"] * 3)
        set_values(case["inspection"], "body", "girth_sound", ["76 mm"] * 3)
        for name in ("girth_worst", "girth_sound"):
            found = reading(case["inspection"], "body", name)
            assert found is not None
            found.update(u="0.4 mm", u_study="harbour study 1")
        answers.add(judged(case).answer)
    assert Answer.WATCH in answers


def _out_by_20_with_2_to_spare(*new_baselines: Json) -> Json:
    """The marks lie 20 mm out of where they were bedded in, the bury had 2 mm to spare; baselines came between."""
    case = pendant_case()
    set_values(case["baselines"][0], "A", "bury", ["1730 mm"])
    set_values(case["inspection"], "A", "mark_offset", ["20 mm", "20 mm"])
    case["baselines"] += new_baselines
    return case


def _bedded(day: int, *values: str) -> Json:
    again = inspection(pendant_case()["item"], "bedded in", day)
    set_values(again, "A", "mark_offset", list(values))
    return again


def test_bury_under_what_it_must_be_is_removed_without_a_new_baseline() -> None:
    assert judged(_out_by_20_with_2_to_spare()).answer is Answer.REMOVE


def test_new_baseline_read_once_does_not_hide_how_far_the_tail_came_out() -> None:
    assert rank(_out_by_20_with_2_to_spare(_bedded(50, "20 mm"))) >= HOLD


def test_new_baselines_in_small_steps_do_not_hide_how_far_the_tail_came_out() -> None:
    small = [_bedded(20 + 10 * step, f"{4 * step} mm", f"{4 * step} mm") for step in range(1, 6)]
    assert rank(_out_by_20_with_2_to_spare(*small)) >= HOLD


def test_new_baseline_in_another_state_leaves_the_bury_unknown_and_never_passes_it() -> None:
    case = _out_by_20_with_2_to_spare(_bedded(50, "20 mm", "20 mm"))
    for one in (case["baselines"][-1], case["inspection"]):
        found = reading(one, "A", "mark_offset")
        assert found is not None
        found["tension"] = "reference tension"
    told = [ruling for ruling in judged(case).rulings if ruling.rule == "remaining-bury"]
    assert [(ruling.answer, ruling.value) for ruling in told] == [(Answer.WATCH, None)]


def test_bedded_in_once_more_on_one_reading_far_from_the_baseline_is_held() -> None:
    case = pendant_case()
    case["inspection"] = {**_bedded(80, "20 mm"), "id": "once more"}
    assert rank(case) >= HOLD


@pytest.mark.parametrize("counts", [["5", "3"], ["3", "5"]])
def test_strand_with_the_fewest_tucks_counts_in_any_order(counts: list[str]) -> None:
    case = laid_case() | {"regimes": ["US lifting"]}
    set_values(case["inspection"], "A", "tucks", counts)
    assert judged(case).answer is Answer.REMOVE
