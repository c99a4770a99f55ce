"""What shared the load of an incident is held, each item until it was examined after it."""

from itertools import permutations

import pytest

from inspection_rules.events import Incident, Reference
from inspection_rules.item import Item
from inspection_rules.standing import ItemRecord, Standing, standing
from inspection_rules.words import Answer, Door, InspectionKind, Mend, State

from .histories import EXAMINER, MATE, PENDANT, at, condemn, looked, on, refer, release, stands, work

BRIDLE = PENDANT.model_copy(update={"id": "bridle", "tag": "SP-10"})
SHOCK = Incident(
    id="shock", item="pendant", at=at(5), by=MATE, what="the tow parted and came back", load_path=("bridle", "shackle")
)
EXAMINED = looked(6, kind=InspectionKind.AFTER_INCIDENT, by=EXAMINER)


def of(item: Item, *records: ItemRecord, day: float = 100) -> Standing:
    return standing(item, records, on(day))


@pytest.mark.parametrize("item", [PENDANT, BRIDLE], ids=["its own", "in the load path"])
def test_everything_that_shared_the_load_is_held_for_a_competent_person(item: Item) -> None:
    found = of(item, looked(0, item=item.id), SHOCK)
    assert (found.state, found.answer, found.door) == (State.QUARANTINED, Answer.HOLD, Door.REFER)
    assert found.sentence == "It shared the load of an incident on 2050-03-06: the tow parted and came back."


def test_what_did_not_share_the_load_is_not_held() -> None:
    other = BRIDLE.model_copy(update={"id": "head line"})
    assert of(other, looked(0, item="head line"), SHOCK).answer is Answer.SERVICEABLE


def test_an_examination_after_the_incident_lets_that_item_back() -> None:
    assert stands(looked(0), SHOCK, EXAMINED).answer is Answer.SERVICEABLE


def test_an_examination_of_one_item_leaves_the_others_held() -> None:
    assert of(BRIDLE, looked(0, item="bridle"), SHOCK, EXAMINED).answer is Answer.HOLD


def test_what_the_examination_finds_is_open_in_its_place() -> None:
    hurt = looked(6, refer(), kind=InspectionKind.AFTER_INCIDENT, by=EXAMINER)
    assert [one.ruling.rule for one in stands(looked(0), SHOCK, hurt).open] == ["eye-chafed"]


NOT_ENOUGH: dict[str, ItemRecord] = {
    "made before it": looked(4, kind=InspectionKind.AFTER_INCIDENT, by=EXAMINER),
    "made at the very moment": looked(5, kind=InspectionKind.AFTER_INCIDENT, by=EXAMINER),
    "by a user": looked(6, kind=InspectionKind.AFTER_INCIDENT, by=MATE),
    "of another kind": looked(6, kind=InspectionKind.PERIODIC, by=EXAMINER),
    "work": work(6, Mend.EXAMINE, ""),
}


@pytest.mark.parametrize("record", NOT_ENOUGH.values(), ids=NOT_ENOUGH)
def test_nothing_else_lets_it_back(record: ItemRecord) -> None:
    assert stands(looked(0), SHOCK, record).answer is Answer.HOLD


@pytest.mark.parametrize("named", ["shock", "look-7"])
def test_no_signature_lets_it_back(named: str) -> None:
    later = looked(7)
    signed = release(8, later, "incident", part="")
    signed = signed.model_copy(update={"examined": (Reference(inspection=named, rule="incident"),)})
    assert stands(looked(0), SHOCK, later, signed).answer is Answer.HOLD


def test_a_second_incident_asks_for_a_second_examination() -> None:
    second = SHOCK.model_copy(update={"id": "second", "at": at(8)})
    assert [one.inspection for one in stands(looked(0), SHOCK, EXAMINED, second).open] == ["second"]


def test_an_incident_still_to_come_holds_nothing_yet() -> None:
    assert stands(looked(0), SHOCK, day=4).answer is Answer.SERVICEABLE


def test_a_condemned_item_stays_evidence() -> None:
    found = stands(looked(0), SHOCK, condemn(6))
    assert (found.state, [one.ruling.rule for one in found.open]) == (State.CONDEMNED, ["incident"])


def test_the_order_in_which_records_come_changes_nothing() -> None:
    records = (looked(0), SHOCK, EXAMINED, looked(7, refer()))
    assert len({stands(*shuffled).model_dump_json() for shuffled in permutations(records)}) == 1


def test_an_item_that_names_itself_in_the_load_path_is_held_once() -> None:
    named = SHOCK.model_copy(update={"load_path": ("pendant", "bridle", "bridle")})
    assert named.items == ("pendant", "bridle")
    assert len(stands(looked(0), named).open) == 1
