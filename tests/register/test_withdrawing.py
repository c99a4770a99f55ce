"""What a correction must put in place of a look that stopped an item, and that none slips round it."""

from typing import Any

import pytest

from app.register import Correction, Register, RegisterError
from app.register.bodies import Inspected
from app.register.withdrawing import withdrawals
from inspection_rules.record import Finding
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, InspectionKind, Mend, Seen

from .making import EXAMINER, MATE, day, inspection, judgement, on, pendant, ruling

REMOVED = ruling(Answer.REMOVE, "eye-cut", observation="eye_bearing", mends=Mend.NOTHING)
HELD = ruling(Answer.HOLD, "eye-chafed", observation="eye_bearing")
LOOKED = (Finding(observation="eye_bearing", part="A", seen=Seen.ABSENT),)


def sound(record_id: str = "right", number: int = 1, **changes: Any) -> Judged:
    """A look that finds the eye in order."""
    return Judged(inspection=inspection(record_id, number, **{"findings": LOOKED, **changes}), judgement=judgement(1))


@pytest.fixture(params=[REMOVED, HELD], ids=["removed", "held"])
def stopped(register: Register, request: pytest.FixtureRequest) -> Register:
    """The pendant, stopped for its eye on day 1."""
    register.log_inspection(inspection("bad", 1), judgement(1, request.param))
    return register


def test_a_competent_look_of_the_same_kind_at_the_same_place_stands_in_for_it(stopped: Register) -> None:
    stopped.correct("bad", "it was the other line", EXAMINER, day(2), sound())
    assert stopped.standing("pendant", on(2)).answer is Answer.SERVICEABLE


LACKING: dict[str, tuple[Judged | None, str]] = {
    "nothing": (None, r"Enter in its place an inspection of kind 'periodic' made by a competent person"),
    "a user's look": (sound(by=MATE), "its replacement is no such look"),
    "another kind": (sound(kind=InspectionKind.BEFORE_USE), "its replacement is no such look"),
    "a look elsewhere": (sound(findings=()), "for eye_bearing of part A, which its replacement does not look at"),
}


@pytest.mark.parametrize(("put", "why"), LACKING.values(), ids=LACKING)
def test_nothing_less_takes_it_out(stopped: Register, put: Judged | None, why: str) -> None:
    with pytest.raises(RegisterError, match=why):
        stopped.correct("bad", "a mistake", EXAMINER, day(2), put)
    assert stopped.standing("pendant", on(2)).answer in (Answer.HOLD, Answer.REMOVE)
    assert [one.inspection.id for one in stopped.judged("pendant")] == ["bad"]


def test_what_stands_in_for_it_is_not_taken_out_by_less(stopped: Register) -> None:
    stopped.correct("bad", "it was the other line", EXAMINER, day(2), sound())
    with pytest.raises(RegisterError, match="keeps the item out of use"):
        stopped.correct("right", "and that was wrong too", EXAMINER, day(3))
    with pytest.raises(RegisterError, match="Have a competent person correct it"):
        stopped.correct("right", "and that was wrong too", MATE, day(3), sound("third"))
    stopped.correct("right", "a better look", EXAMINER, day(3), sound("third"))
    assert stopped.standing("pendant", on(3)).answer is Answer.SERVICEABLE


def test_a_watch_is_taken_out_by_a_competent_person_alone(register: Register) -> None:
    register.log_inspection(inspection("watch", 1), judgement(1, ruling(Answer.WATCH)))
    register.correct("watch", "it was the other line", EXAMINER, day(2))
    assert register.judged("pendant") == []


def correction(by: Any = EXAMINER, replacement: str = "") -> Correction:
    return Correction(
        id="c", at=day(2), by=by, device="other phone", item="pendant", supersedes="bad", replacement=replacement,
        reason="a mistake",
    )  # fmt: skip


BAD = Inspected(device="deck phone", judged=Judged(inspection=inspection("bad", 1), judgement=judgement(1, REMOVED)))
RIGHT = Inspected(device="other phone", judged=sound())


@pytest.mark.parametrize(
    ("records", "out"),
    [
        ({"bad": BAD, "c": correction()}, set()),
        ({"bad": BAD, "c": correction(MATE, "right"), "right": RIGHT}, set()),
        ({"bad": BAD, "c": correction(replacement="right")}, set()),
        ({"bad": BAD, "c": correction(replacement="right"), "right": RIGHT}, {"bad"}),
    ],
    ids=["with nothing", "by a user", "its replacement has not come yet", "as it should be"],
)
def test_a_correction_from_another_device_counts_where_it_could_have_been_made_here(
    records: Any, out: set[str]
) -> None:
    assert withdrawals(records.items()).out == out


def test_corrections_that_replace_each_other_in_a_ring_take_out_nothing_that_stops() -> None:
    one = correction(replacement="bad")
    assert withdrawals([("bad", BAD), ("c", one)]).out == set()


# Revisions that disagree


def second_revision(register: Register, strangers_sql: Any, **changes: Any) -> None:
    """Another device's revision of the item as it was first entered."""
    from app.register import log, projections
    from app.register.bodies import ItemRevised

    (first,) = [one for (one,) in strangers_sql("SELECT id FROM record WHERE kind = 'item' ORDER BY seq LIMIT 1")]
    for number, fields in enumerate(({"description": "pendant, revised here"}, changes)):
        body = ItemRevised(
            id=f"revision {number}", at=day(number), by=MATE, device=f"phone {number}", parents=(first,),
            item=pendant(**fields),
        )  # fmt: skip
        with register._engine.begin() as connection:
            log.append(connection, body, {})
            projections.refresh(connection, "pendant", {})


def test_revisions_that_disagree_in_what_is_judged_hold_the_item_until_it_is_revised(
    register: Register, strangers_sql: Any
) -> None:
    register.log_inspection(inspection("n1", 1), judgement(1))
    second_revision(register, strangers_sql, diameter="12 mm")
    stands = register.standing("pendant", on(2))
    assert stands.answer is Answer.HOLD
    assert stands.sentence.startswith("Its record was revised in ways that disagree (diameter); revise it once more")
    assert register.find(on=on(2))[0].answer is Answer.HOLD
    register.revise_item(pendant(), EXAMINER, day(3))
    assert register.standing("pendant", on(3)).answer is Answer.SERVICEABLE


def test_revisions_that_disagree_in_nothing_that_is_judged_hold_nothing(register: Register, strangers_sql: Any) -> None:
    register.log_inspection(inspection("n1", 1), judgement(1))
    second_revision(register, strangers_sql, place="quay yard")
    assert register.standing("pendant", on(2)).answer is Answer.SERVICEABLE
