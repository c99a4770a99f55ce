"""Accepted conditions in the register: what they close, what a case is given of them, how they are taken back."""

import pytest

from app.register import Register, RegisterError
from inspection_rules.judge import judge
from inspection_rules.record import Finding
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, Door, InspectionKind, Mend, Seen

from .making import (
    EXAMINER,
    MATE,
    accept,
    day,
    inspection,
    judgement,
    may_be_accepted,
    on,
    photo,
    ruling,
    work,
)


@pytest.fixture
def held(register: Register) -> Register:
    """The pendant, held on day 1 for something that may be accepted."""
    register.log_inspection(inspection("bad", 1), judgement(1, may_be_accepted()))
    return register


def test_an_acceptance_lets_the_item_back_under_watch_and_shows_what_was_accepted(held: Register) -> None:
    held.accept(accept("a", 2, "bad"))
    stands = held.standing("pendant", on(3))
    assert (stands.answer, [one.extent for one in stands.accepted]) == (Answer.WATCH, ["two yarns fluffed"])
    (row,) = held.find(on=on(3))
    assert (row.answer, row.next_due) == (Answer.WATCH, on(31))
    assert held.open_rulings() == []
    assert held.verify() == []


def test_its_picture_is_kept_with_it(held: Register) -> None:
    taken = photo(7)
    held.accept(accept("a", 2, "bad", pictures=(taken.sha256,)), [taken])
    assert held.standing("pendant", on(3)).accepted[0].pictures == (taken.sha256,)
    assert held.picture(taken.sha256) == taken.jpeg
    assert held.verify() == []


def test_it_is_in_the_history(held: Register) -> None:
    made = accept("a", 2, "bad")
    held.accept(made)
    assert held.history("pendant")[-1] == made


@pytest.mark.parametrize(
    "rulings",
    [
        (ruling(Answer.REMOVE, mends=Mend.LOOK),),
        (ruling(Answer.HOLD),),
        (ruling(Answer.HOLD, door=Door.LOOK_AGAIN),),
        (),
    ],
    ids=["removal", "hold that may not be", "not looked at", "nothing"],
)
def test_what_may_not_be_accepted_is_refused_and_nothing_kept(register: Register, rulings: tuple) -> None:
    register.log_inspection(inspection("bad", 1), judgement(1, *rulings))
    with pytest.raises(RegisterError, match=r"bad has no hold by tail-slip of part A that may be accepted\. Nothing"):
        register.accept(accept("a", 2, "bad"))
    assert len(register.history("pendant")) == 1


def test_an_acceptance_of_an_inspection_that_is_not_there_is_refused(held: Register) -> None:
    with pytest.raises(RegisterError, match="inspection other has no hold"):
        held.accept(accept("a", 2, "other"))


def test_a_case_is_given_what_was_accepted_and_done_before_it(held: Register) -> None:
    held.accept(accept("a", 2, "bad"))
    held.log_work(work("w", 3))
    early, late = (held.case(inspection("now", number), on=on(9)) for number in (2, 4))
    assert ([one.id for one in early.accepted], [one.id for one in early.work]) == (["a"], [])
    assert ([one.id for one in late.accepted], [one.id for one in late.work]) == (["a"], ["w"])


def test_an_acceptance_is_taken_back_by_a_competent_person_and_the_hold_stands_again(held: Register) -> None:
    held.accept(accept("a", 2, "bad"))
    held.correct("a", "it was the other eye", EXAMINER, day(3))
    assert held.standing("pendant", on(3)).answer is Answer.HOLD
    assert held.case(inspection("now", 4), on=on(4)).accepted == ()
    assert [row.rule for row in held.open_rulings()] == ["tail-slip"]
    assert held.verify() == []


def test_a_user_does_not_take_an_acceptance_back(held: Register) -> None:
    # The older one might stand again, for longer.
    held.accept(accept("a", 2, "bad"))
    with pytest.raises(RegisterError, match="Have a competent person correct it"):
        held.correct("a", "I think not", MATE, day(3))


def test_a_look_that_rested_on_an_acceptance_taken_back_is_a_hold(held: Register) -> None:
    held.accept(accept("a", 2, "bad"))
    seen = Finding(observation="eye_bearing", part="A", seen=Seen.PRESENT, conditions=("chafed",), accepted=("a",))
    watched = ruling(Answer.WATCH, accepted="a", if_accepted="30 days")
    right = Judged(inspection=inspection("later", 5, findings=(seen,)), judgement=judgement(5, watched))
    held.log_inspection(right.inspection, right.judgement)
    assert held.standing("pendant", on(6)).answer is Answer.WATCH
    held.correct("a", "it was the other eye", EXAMINER, day(6))
    assert [one.inspection for one in held.standing("pendant", on(6)).open] == ["bad", "later"]


def test_the_rules_that_ship_watch_what_was_accepted_while_it_is_no_bigger(register: Register) -> None:
    def look(record_id: str, number: int, *accepted: str) -> list[tuple[Answer, str]]:
        chafed = Finding(
            observation="eye_bearing", part="A", seen=Seen.PRESENT, conditions=("chafed",), accepted=accepted
        )
        seen = inspection(record_id, number, readings=(), findings=(chafed,), by=MATE, kind=InspectionKind.BEFORE_USE)
        verdict = judge(register.case(seen, on=on(number)), register.book())
        register.log_inspection(seen, verdict)
        found = [one for one in verdict.rulings if (one.observation, one.part) == ("eye_bearing", "A")]
        return [(one.answer, one.rule) for one in found if one.if_accepted]

    ((first, rule),) = look("bad", 1)
    register.accept(accept("a", 2, "bad", rule=rule))
    assert first is Answer.HOLD
    assert [look("same", 3, "a"), look("bigger", 4)] == [[(Answer.WATCH, rule)], [(Answer.HOLD, rule)]]
    assert [one.inspection for one in register.standing("pendant", on(4)).open if one.ruling.rule == rule] == ["bigger"]
