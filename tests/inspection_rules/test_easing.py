"""What an accepted condition makes milder, and everything that it does not."""

import json
from datetime import date
from typing import Any

import pytest
from pydantic import ValidationError

from inspection_rules.book import shipped
from inspection_rules.events import Acceptance
from inspection_rules.rulings.easing import NEAR_MM
from inspection_rules.words import Answer, Door

from .small_book import LINE, MATE, accepted, book, judged, look, rule, ruling, surface

SCUFFED = rule("scuffed", surface("scuffed stiff", "hold"))
FIRST = look("2050-03-01", "scuffed")
ACCEPTED = accepted("2050-03-02", FIRST, "scuffed")
NO_BIGGER = {"accepted": ["accepted 2050-03-02"]}


def told(
    now: dict[str, Any], *accepted: dict[str, Any], past: tuple[dict[str, Any], ...] = (FIRST,), **more: Any
) -> Any:
    return ruling(judged(book(SCUFFED), now, *past, accepted=list(accepted), **more), "scuffed")


def test_what_was_accepted_and_is_no_bigger_is_watched_and_says_by_whom_and_until_when() -> None:
    found = told(look("2050-03-10", "scuffed", **NO_BIGGER), ACCEPTED)
    assert (found.answer, found.door, found.accepted) == (Answer.WATCH, None, "accepted 2050-03-02")
    assert "yard examiner on 2050-03-02 until 2050-12-31: a palm's breadth at 3 m" in found.sentence


@pytest.mark.parametrize(("until", "look_again"), [("2050-03-20", date(2050, 3, 20)), ("2050-12-31", date(2050, 4, 9))])
def test_it_is_looked_at_again_by_the_sooner_of_its_end_and_the_rules_own_date(until: str, look_again: date) -> None:
    ends = accepted("2050-03-02", FIRST, "scuffed", until=until)
    assert told(look("2050-03-10", "scuffed", **NO_BIGGER), ends).look_again == look_again


@pytest.mark.parametrize(("day", "answer"), [("2050-03-20", Answer.WATCH), ("2050-03-21", Answer.HOLD)])
def test_it_is_accepted_to_the_end_of_its_last_day(day: str, answer: Answer) -> None:
    ends = accepted("2050-03-02", FIRST, "scuffed", until="2050-03-20")
    assert told(look(day, "scuffed", **NO_BIGGER), ends).answer is answer


def _reference(**changed: str) -> dict[str, Any]:
    named = {"inspection": FIRST["id"], "rule": "scuffed", "part": "body"} | changed
    return {"examined": [named]}


NOT_ACCEPTED: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "nobody said it is no bigger": ({}, ACCEPTED),
    "it was compared with something else": ({"accepted": ["accepted 2049-01-01"]}, ACCEPTED),
    "another part": (NO_BIGGER, ACCEPTED | _reference(part="A")),
    "another rule": (NO_BIGGER, ACCEPTED | _reference(rule="torn")),
    "an inspection not on record": (NO_BIGGER, ACCEPTED | _reference(inspection="look 2049-01-01")),
    "accepted later": (NO_BIGGER, ACCEPTED | {"at": "2050-03-11T12:00:00Z"}),
    "accepted before it was examined": (NO_BIGGER, ACCEPTED | {"at": "2050-02-01T12:00:00Z"}),
}


@pytest.mark.parametrize(("said", "acceptance"), NOT_ACCEPTED.values(), ids=NOT_ACCEPTED)
def test_it_is_held_as_ever_where_the_acceptance_does_not_reach(
    said: dict[str, Any], acceptance: dict[str, Any]
) -> None:
    found = told(look("2050-03-10", "scuffed", **said), acceptance)
    assert (found.answer, found.door) == (Answer.HOLD, Door.REFER)


def test_bigger_than_it_was_accepted_is_told_as_that() -> None:
    found = told(look("2050-03-10", "scuffed"), ACCEPTED)
    assert "It is not what was accepted on 2050-03-02 (a palm's breadth at 3 m)" in found.sentence


def test_another_condition_of_the_same_rule_was_not_accepted() -> None:
    assert told(look("2050-03-10", "scuffed", "stiff", **NO_BIGGER), ACCEPTED).answer is Answer.HOLD


def test_of_two_acceptances_the_newest_decides() -> None:
    second = look("2050-04-01", "scuffed")
    newer = accepted("2050-04-02", second, "scuffed", until="2050-04-30", extent="two palms' breadth")
    past = (FIRST, second)
    old = told(look("2050-04-10", "scuffed", **NO_BIGGER), ACCEPTED, newer, past=past)
    new = told(look("2050-04-10", "scuffed", accepted=["accepted 2050-04-02"]), newer, ACCEPTED, past=past)
    late = told(look("2050-05-01", "scuffed", accepted=["accepted 2050-04-02"]), ACCEPTED, newer, past=past)
    assert (old.answer, new.answer, late.answer) == (Answer.HOLD, Answer.WATCH, Answer.HOLD)


# --- places ----------------------------------------------------------------------------------------------

AT_3_M = look("2050-03-01", "scuffed", places=["3 m"])


def test_it_is_found_again_at_its_place_as_near_as_a_place_on_soft_rope_can_be() -> None:
    assert NEAR_MM == 100  # common practice, no source
    near = look("2050-03-10", "scuffed", places=["3.1 m"], **NO_BIGGER)
    far = look("2050-03-10", "scuffed", places=["3.101 m"], **NO_BIGGER)
    assert [told(one, ACCEPTED, past=(AT_3_M,)).answer for one in (near, far)] == [Answer.WATCH, Answer.HOLD]


def test_a_second_place_was_not_accepted_with_the_first() -> None:
    two = look("2050-03-10", "scuffed", places=["3 m", "3.02 m"], **NO_BIGGER)
    assert told(two, ACCEPTED, past=(AT_3_M,)).answer is Answer.HOLD


@pytest.mark.parametrize(("place", "answer"), [("1 m", Answer.WATCH), ("3 m", Answer.HOLD)])
def test_after_cutting_back_its_place_is_reckoned_from_the_new_end(place: str, answer: Answer) -> None:
    cut = {
        "id": "cut", "item": "line", "at": "2050-03-05T08:00:00Z", "by": MATE, "work": "cut back", "mends": "nothing",
        "what": "two metres off end A", "cut_from_a": "2 m",
    }  # fmt: skip
    now = look("2050-03-10", "scuffed", places=[place], **NO_BIGGER)
    assert told(now, ACCEPTED, past=(AT_3_M,), work=[cut]).answer is answer


# --- what is never accepted ------------------------------------------------------------------------------


def _never(body: str, now: dict[str, Any], mends: str = "a competent look", **more: Any) -> Answer:
    known = book(rule("subject", body, mends))
    part = "" if now["findings"][0]["part"] == "" else "body"
    every = accepted("2050-03-02", FIRST, "subject")
    every["examined"][0]["part"] = part
    found = judged(known, now, FIRST, accepted=[every], **more)
    return ruling(found, "subject").answer


def _girths(now: dict[str, Any], worst: str) -> dict[str, Any]:
    for name, girth in (("girth_worst", worst), ("girth_sound", "75 mm")):
        now["readings"].append(
            {
                "observation": name, "part": "body", "values": [girth] * 3, "method": "girth tape",
                "tension": "hand-taut", "moisture": "dry",
            }
        )  # fmt: skip
    return now


def _event() -> dict[str, Any]:
    now = look("2050-03-10")
    now["findings"].insert(
        0, {"observation": "event", "part": "", "seen": "present", "conditions": ["shock"], **NO_BIGGER}
    )
    return now


def test_a_removal_is_never_accepted() -> None:
    assert _never(surface("scuffed", "remove"), look("2050-03-10", "scuffed", **NO_BIGGER)) is Answer.REMOVE


@pytest.mark.parametrize("girth", ["60 mm", "69 mm"], ids=["beyond", "in doubt"])
def test_a_number_is_never_accepted(girth: str) -> None:
    limit = 'limit = { measure = "effective_diameter_loss", at_most = "10 %", outcome = "hold" }'
    now = _girths(look("2050-03-10", "scuffed", **NO_BIGGER), girth)
    assert _never(limit, now) is Answer.HOLD


def test_what_was_not_looked_at_is_never_accepted() -> None:
    now = look("2050-03-10")
    now["findings"][0] |= {"seen": "could not be examined", "reason": "under tape"}
    needs = 'needs = { inspection = ["before use"], observations = ["surface"] }'
    assert _never(needs, now) is Answer.HOLD


def test_what_wants_work_is_never_accepted_without_it() -> None:
    now = look("2050-03-10", "scuffed", **NO_BIGGER)
    assert _never(surface("scuffed", "hold"), now, "renew the lock stitching") is Answer.HOLD


def test_a_shock_since_the_last_time_is_another_shock() -> None:
    body = 'condition = { observation = "event", when = ["shock"], outcome = "hold" }'
    assert _never(body, _event()) is Answer.HOLD


def test_a_rule_that_says_so_of_itself_is_never_accepted() -> None:
    body = "acceptable = false\n" + surface("scuffed", "hold")
    assert _never(body, look("2050-03-10", "scuffed", **NO_BIGGER)) is Answer.HOLD


SLIP = (
    "marks-not-level", "crossing-not-level", "bury-bunched", "bury-hollow", "lock-stitch-leaning", "tip-away",
    "strand-tail-shorter", "shackle-knot-shorter", "adjustable-crept",
)  # fmt: skip
UNTOLD = (
    "marks-missing", "crossing-marks-missing", "tip-mark-missing", "web-face-a-soiled", "web-face-b-soiled",
    "round-soiled", "fitting-unreadable", "fittings-worn", "clear-rope-unsure", "mooring-other-tail",
)  # fmt: skip


@pytest.mark.parametrize("name", [*SLIP, *UNTOLD])
def test_neither_a_sign_of_slip_nor_what_could_not_be_told_is_acceptable(name: str) -> None:
    (found,) = [one for pack in shipped().packs for one in pack.rules if one.id == name]
    assert not found.acceptable


# --- age -------------------------------------------------------------------------------------------------


def _aged(outcome: str, **item: Any) -> Answer:
    known = book(rule("old", f'age = {{ since = "made", longest = "5 years", outcome = "{outcome}" }}'))
    every = accepted("2050-03-02", FIRST, "old")
    every["examined"][0]["part"] = ""
    now = look("2050-03-10")
    return ruling(judged(known, now, FIRST, accepted=[every], item=LINE | item), "old").answer


def test_an_age_that_holds_may_be_accepted_for_longer() -> None:
    assert _aged("hold") is Answer.WATCH


def test_a_binding_life_is_never_accepted_for_longer() -> None:
    assert _aged("remove") is Answer.REMOVE


def test_a_binding_life_that_nobody_knows_the_start_of_is_never_accepted() -> None:
    assert _aged("remove", made=None) is Answer.HOLD


# --- who -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("competence", ["user", "designated person"])
def test_only_a_competent_person_accepts(competence: str) -> None:
    raw = ACCEPTED | {"by": {"name": "mate", "competence": competence}}
    with pytest.raises(ValidationError, match="only a competent or a qualified person accepts a condition"):
        Acceptance.model_validate_json(json.dumps(raw))


def test_an_acceptance_does_not_end_before_it_begins() -> None:
    with pytest.raises(ValidationError, match="'until' is before the day it was accepted"):
        Acceptance.model_validate_json(json.dumps(ACCEPTED | {"until": "2050-03-01"}))
