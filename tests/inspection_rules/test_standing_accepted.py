"""An accepted condition in the whole history: what it closes, how long it is watched, and when it counts no more."""

from datetime import date
from typing import Any

import pytest

from inspection_rules.events import Acceptance, Reference
from inspection_rules.judgement import Ruling
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, Door, InspectionKind, Mend, State

from .histories import (
    EXAMINER,
    at,
    condemn,
    looked,
    on,
    refer,
    release,
    remove,
    ruling,
    stands,
    still_open,
)


def held(**changed: Any) -> Ruling:
    """A hold that a competent person may accept; then it is looked at again within 30 days."""
    return refer(if_accepted="30 days", **changed)


def watched(acceptance: str = "accepted-1", until: float = 31, **changed: Any) -> Ruling:
    """What an acceptance made of the hold at a later look."""
    values = {"observation": "eye_bearing", "if_accepted": "30 days", "accepted": acceptance, **changed}
    return ruling("eye-chafed", Answer.WATCH, look_again=on(until), mends=Mend.LOOK, **values)


def accept(day: float, named: Judged, until: float = 200, rule: str = "eye-chafed", part: str = "A") -> Acceptance:
    return Acceptance(
        id=f"accepted-{day:g}", item="pendant", at=at(day), by=EXAMINER, until=on(until),
        examined=(Reference(inspection=named.inspection.id, rule=rule, part=part),),
        extent="two yarns fluffed", reason="core sound",
    )  # fmt: skip


FOUND = looked(0, held())


def test_an_acceptance_closes_the_hold_it_examined_and_leaves_a_watch() -> None:
    found = stands(FOUND, accept(1, FOUND), day=2)
    assert (found.state, found.answer, found.open) == (State.IN_SERVICE, Answer.WATCH, ())


@pytest.mark.parametrize(("until", "due"), [(10, 10), (200, 31)], ids=["its end", "the rule's own date"])
def test_it_is_looked_at_again_by_the_sooner_of_both_dates(until: float, due: float) -> None:
    assert stands(FOUND, accept(1, FOUND, until), day=2).due == on(due)


def test_it_is_held_once_nobody_has_looked_by_then() -> None:
    found = stands(FOUND, accept(1, FOUND), day=32)
    assert (found.answer, found.door, found.overdue) == (Answer.HOLD, Door.REFER, True)


def test_a_look_that_finds_it_no_bigger_puts_the_date_off() -> None:
    found = stands(FOUND, accept(1, FOUND), looked(20, watched(until=50)), day=40)
    assert (found.answer, found.due) == (Answer.WATCH, on(50))


def test_what_is_accepted_is_shown_with_its_extent_and_until_when() -> None:
    (one,) = stands(FOUND, accept(1, FOUND), day=2).accepted
    assert (one.acceptance, one.rule, one.part, one.observation) == ("accepted-1", "eye-chafed", "A", "eye_bearing")
    assert (one.extent, one.by, one.until) == ("two yarns fluffed", "yard examiner", on(200))


@pytest.mark.parametrize(("day", "shown"), [(10, 1), (11, 0)])
def test_what_was_accepted_is_shown_to_the_end_of_its_last_day(day: float, shown: int) -> None:
    assert len(stands(FOUND, accept(1, FOUND, until=10), day=day).accepted) == shown


def test_found_bigger_it_is_open_again_until_somebody_competent_has_looked() -> None:
    bigger = looked(20, held())
    again = looked(21, watched())
    assert still_open(stands(FOUND, accept(1, FOUND), bigger, again, day=22)) == ["eye-chafed"]
    assert stands(FOUND, accept(1, FOUND), bigger, accept(21.5, bigger), day=22).open == ()


def test_an_acceptance_does_not_reach_what_was_found_after_the_look_it_examined() -> None:
    bigger = looked(1, held())
    assert still_open(stands(FOUND, bigger, accept(2, FOUND))) == ["eye-chafed"]


def test_a_watch_whose_acceptance_was_withdrawn_is_the_hold_it_was() -> None:
    sound_otherwise = looked(20, watched())
    found = stands(FOUND, release(10, FOUND, "eye-chafed"), sound_otherwise)
    assert (found.answer, found.door, still_open(found)) == (Answer.HOLD, Door.REFER, ["eye-chafed"])


def test_a_withdrawn_acceptance_opens_the_hold_it_closed() -> None:
    later = looked(20, watched())
    assert len(stands(FOUND, later).open) == 2


def test_a_watch_by_an_acceptance_that_a_newer_one_replaced_is_a_hold() -> None:
    second = looked(5, watched())
    by_the_old = looked(20, watched())
    found = stands(FOUND, accept(1, FOUND), second, accept(6, second), by_the_old, day=21)
    assert still_open(found) == ["eye-chafed"]


def test_an_acceptance_is_renewed_on_the_look_that_found_it_no_bigger() -> None:
    second = looked(5, watched())
    found = stands(FOUND, accept(1, FOUND, until=8), second, accept(6, second, until=90), day=20)
    assert [(one.acceptance, one.until) for one in found.accepted] == [("accepted-6", on(90))]
    assert found.answer is Answer.WATCH


NOT_ACCEPTABLE: dict[str, Ruling] = {
    "a removal": remove(Mend.LOOK, "eye-chafed"),
    "a hold that may not be": refer(),
    "a number beyond its limit": refer(measure="effective_diameter_loss"),
    "what was not looked at": ruling("eye-chafed", Answer.HOLD, door=Door.LOOK_AGAIN, mends=Mend.LOOK),
}


@pytest.mark.parametrize("found", NOT_ACCEPTABLE.values(), ids=NOT_ACCEPTABLE)
def test_what_may_not_be_accepted_stays_open(found: Ruling) -> None:
    seen = looked(0, found)
    after = stands(seen, accept(1, seen))
    assert (still_open(after), after.accepted) == (["eye-chafed"], ())


@pytest.mark.parametrize(("rule", "part"), [("bury-hollow", "A"), ("eye-chafed", "B")])
def test_an_acceptance_of_another_rule_or_part_closes_nothing(rule: str, part: str) -> None:
    assert still_open(stands(FOUND, accept(1, FOUND, rule=rule, part=part))) == ["eye-chafed"]


def test_an_acceptance_of_an_inspection_not_on_record_closes_nothing() -> None:
    assert still_open(stands(FOUND, accept(6, looked(5, held())))) == ["eye-chafed"]


def test_an_acceptance_made_before_the_look_it_names_closes_nothing() -> None:
    later = looked(2, held())
    assert still_open(stands(accept(1, later), later)) == ["eye-chafed"]


def test_a_removal_beside_it_stays() -> None:
    both = looked(0, held(), remove(Mend.NOTHING))
    assert stands(both, accept(1, both)).answer is Answer.REMOVE


def test_a_condemned_item_is_not_accepted_back() -> None:
    found = stands(FOUND, condemn(1), accept(2, FOUND))
    assert (found.state, found.answer) == (State.CONDEMNED, Answer.REMOVE)


def test_what_was_accepted_on_an_eye_does_not_stand_for_the_one_spliced_anew() -> None:
    made = looked(5, kind=InspectionKind.AS_MADE, by=EXAMINER)
    assert stands(FOUND, accept(1, FOUND), made, day=6).accepted == ()


def test_the_date_is_the_local_one() -> None:
    assert stands(FOUND, accept(1, FOUND), day=2).accepted[0].on == date(2050, 3, 2)
