"""Work and the way back, each mending by itself; and that nothing brings a condemned item back."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from inspection_rules.events import Disposal, Incident, WorkDone
from inspection_rules.mending import MENDS, WORK_MENDS
from inspection_rules.standing import ItemRecord
from inspection_rules.words import Answer, InspectionKind, Mend, State, Work

from .histories import (
    EXAMINER,
    MATE,
    PICTURE,
    at,
    condemn,
    look_again,
    looked,
    refer,
    release,
    remove,
    stands,
    work,
)
from .test_standing_accepted import accept, held, watched


def done(kind: Work, mends: Mend, day: float = 1, part: str = "A", **more: Any) -> WorkDone:
    """Work entered by its trade name, with what such work has to say."""
    needs = {Work.REPAIRED: {"proof_load": "20 kN"}, Work.RE_TAGGED: {"known_by": "length, thimble and stitching"}}
    return WorkDone.model_validate(
        {
            "id": f"done-{day}", "item": "pendant", "at": at(day), "by": MATE, "part": part, "work": kind,
            "mends": mends, "what": "worked on it", **needs.get(kind, {}), **more,
        }
    )  # fmt: skip


# The trade's works, each with the mendings it can be; written from the design, not from the module.
CAN = {
    Work.RE_STITCHED: {Mend.RE_STITCH},
    Work.CLEANED: {Mend.LOOK, Mend.NOTHING},
    Work.ENDS_TURNED: {Mend.NOTHING},
    Work.CUT_BACK: {Mend.LOOK, Mend.NOTHING},
    Work.RE_SPLICED: {Mend.RE_SPLICE},
    Work.CHAFE_GEAR: {Mend.LOOK, Mend.NOTHING},
    Work.MOORING_TAIL: {Mend.LOOK, Mend.NOTHING},
    Work.FITTING: {Mend.REPLACE_FITTING},
    Work.RE_TAGGED: {Mend.RE_IDENTIFY},
    Work.REPAIRED: {Mend.REPAIR_AND_PROOF},
}
PAIRS = [(kind, mends) for kind in Work for mends in Mend]


@pytest.mark.parametrize(("kind", "mends"), PAIRS)
def test_each_work_mends_what_such_work_can_and_nothing_else(kind: Work, mends: Mend) -> None:
    if mends in CAN[kind]:
        assert done(kind, mends).mends is mends
    else:
        with pytest.raises(ValidationError, match=f"'{kind}' mends "):
            done(kind, mends)


def test_every_mending_that_wants_work_has_a_work_that_is_it() -> None:
    assert {mends for several in MENDS.values() for mends in several} >= WORK_MENDS


@pytest.mark.parametrize("mends", list(Mend))
def test_work_entered_without_its_trade_name_still_stands(mends: Mend) -> None:
    assert work(1, mends).work is None


@pytest.mark.parametrize(
    ("kind", "mends", "lacking", "why"),
    [
        (Work.REPAIRED, Mend.REPAIR_AND_PROOF, {"proof_load": None}, "a repair needs 'proof_load'"),
        (Work.RE_TAGGED, Mend.RE_IDENTIFY, {"known_by": ""}, "a new tag needs 'known_by'"),
        (Work.CLEANED, Mend.NOTHING, {"cut_from_a": "1 m"}, "only cutting back or re-splicing has 'cut_from_a'"),
    ],
)
def test_work_that_does_not_say_what_it_must_is_refused(kind: Work, mends: Mend, lacking: Any, why: str) -> None:
    with pytest.raises(ValidationError, match=why):
        done(kind, mends, **lacking)


# --- the way back ----------------------------------------------------------------------------------------

BY_WORK = [
    (Work.RE_STITCHED, Mend.RE_STITCH),
    (Work.FITTING, Mend.REPLACE_FITTING),
    (Work.RE_TAGGED, Mend.RE_IDENTIFY),
    (Work.REPAIRED, Mend.REPAIR_AND_PROOF),
]


@pytest.mark.parametrize(("kind", "mends"), BY_WORK)
@pytest.mark.parametrize("found", [remove, lambda mends: refer("eye-cut", mends=mends)], ids=["removed", "held"])
def test_it_comes_back_by_its_work_and_a_competent_look_and_by_neither_alone(
    found: Any, kind: Work, mends: Mend
) -> None:
    out = looked(0, found(mends))
    worked, signed = done(kind, mends), release(2, out, "eye-cut")
    assert stands(out, worked, signed).answer is Answer.SERVICEABLE
    assert stands(out, worked).answer is not Answer.SERVICEABLE
    assert stands(out, signed).answer is not Answer.SERVICEABLE


@pytest.mark.parametrize("kind", [Work.CLEANED, Work.ENDS_TURNED, Work.CUT_BACK, Work.CHAFE_GEAR, Work.MOORING_TAIL])
@pytest.mark.parametrize("mends", sorted(WORK_MENDS))
def test_what_wants_another_work_does_not_come_back_by_this_one(kind: Work, mends: Mend) -> None:
    out = looked(0, remove(mends))
    assert stands(out, done(kind, Mend.NOTHING), release(2, out, "eye-cut")).answer is Answer.REMOVE


def test_a_hold_that_wants_only_a_look_closes_after_cleaning_by_that_look() -> None:
    dirty = looked(0, refer())
    assert stands(dirty, done(Work.CLEANED, Mend.LOOK)).answer is Answer.HOLD
    assert stands(dirty, done(Work.CLEANED, Mend.LOOK), release(2, dirty, "eye-chafed")).answer is Answer.SERVICEABLE


def made(day: float) -> ItemRecord:
    return looked(day, kind=InspectionKind.AS_MADE, by=EXAMINER)


def test_an_eye_spliced_once_more_wants_the_record_of_the_last_splice() -> None:
    out = looked(0, remove(Mend.RE_SPLICE))
    first, second = (done(Work.RE_SPLICED, Mend.RE_SPLICE, day) for day in (1, 3))
    assert stands(out, first, made(2), second, release(4, out, "eye-cut")).answer is Answer.REMOVE
    assert stands(out, first, made(2), second, made(3.5), release(4, out, "eye-cut")).answer is Answer.SERVICEABLE


def test_an_examination_that_was_not_made_is_not_signed_away() -> None:
    late = looked(0, refer("examination-due", mends=Mend.EXAMINE))
    assert stands(late, release(1, late, "examination-due")).answer is Answer.HOLD


def test_turning_the_line_end_for_end_leaves_the_history_of_each_end_where_it_is() -> None:
    at_a = looked(0, refer(part="A"))
    found = stands(at_a, done(Work.ENDS_TURNED, Mend.NOTHING, part=""))
    assert [(one.ruling.rule, one.ruling.part) for one in found.open] == [("eye-chafed", "A")]
    assert found == stands(at_a)


# --- condemned -------------------------------------------------------------------------------------------


def _anything(day: float, what: str) -> ItemRecord:
    first = looked(0, held(), remove(Mend.LOOK), refer("bury-hollow"))
    sound = looked(day, kind=InspectionKind.AFTER_INCIDENT, by=EXAMINER)
    return {
        "look": looked(day),
        "as made": made(day),
        "examination": sound,
        "hold": looked(day, look_again()),
        "watch": looked(day, watched()),
        "release": release(day, first, "eye-cut", "eye-chafed", "bury-hollow"),
        "re-spliced": done(Work.RE_SPLICED, Mend.RE_SPLICE, day),
        "repaired": done(Work.REPAIRED, Mend.REPAIR_AND_PROOF, day),
        "acceptance": accept(day, first),
        "incident": Incident(id=f"incident-{day}", item="pendant", at=at(day), by=MATE, what="a shock"),
        "disposal": Disposal(
            id=f"gone-{day}", item="pendant", at=at(day), by=EXAMINER, how="cut up", pictures=(PICTURE,)
        ),
    }[what]  # fmt: skip


KINDS = (
    "look", "as made", "examination", "hold", "watch", "release", "re-spliced", "repaired", "acceptance", "incident",
    "disposal",
)  # fmt: skip


@given(st.lists(st.sampled_from(KINDS), max_size=8), st.integers(0, 9), st.integers(0, 400))
def test_no_record_of_any_kind_brings_a_condemned_item_back(kinds: list[str], place: int, later: int) -> None:
    first = looked(0, held(), remove(Mend.LOOK), refer("bury-hollow"))
    records = [first, *(_anything(number + 1, what) for number, what in enumerate(kinds)), condemn(place + 0.5)]
    found = stands(*records, day=place + 1 + later)
    assert found.state in (State.CONDEMNED, State.DISPOSED)
    assert (found.answer, found.next_due) == (Answer.REMOVE, None)
