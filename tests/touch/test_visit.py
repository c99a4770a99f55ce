"""The inspection under way, as values."""

import pytest
from harbour import BURIED, MATE, NOW, TUCKED

from app.touch import visit as visits
from inspection_rules.book import shipped
from inspection_rules.record import Inspection, Item, Reading
from inspection_rules.walk import walk
from inspection_rules.words import InspectionKind, Method, Seen

PICTURE = "a" * 64


def begun(item: Item = TUCKED, kind: InspectionKind = InspectionKind.BEFORE_USE) -> visits.Visit:
    inspection = Inspection(id="one", item=item.id, at=NOW, by=MATE, kind=kind)
    return visits.start(item, inspection, walk(item, kind, (), shipped()))


def girth(visit: visits.Visit, *values: str) -> visits.Visit:
    reading = Reading(part="body", observation="girth_worst", values=values, method=Method.GIRTH_TAPE)
    return visits.read(visits.go_to(visit, ("body", "girth_worst")), reading)


def test_it_begins_at_the_tag() -> None:
    assert begun().at == ("", "tag")


def test_nothing_to_look_at_is_said() -> None:
    inspection = Inspection(id="one", item=TUCKED.id, at=NOW, by=MATE, kind=InspectionKind.BEDDED_IN)
    with pytest.raises(ValueError, match="RS-02"):
        visits.start(TUCKED, inspection, ())


def test_it_is_taken_up_at_the_step_it_was_left_at() -> None:
    visit = begun()
    again = visits.start(visit.item, visit.inspection, visit.steps, ("A", "throat_lay"))
    assert again.at == ("A", "throat_lay")


def test_a_step_that_is_no_longer_asked_gives_way_to_the_first_open_one() -> None:
    visit = visits.found(begun(), Seen.ABSENT)
    again = visits.start(visit.item, visit.inspection, visit.steps, ("A", "gone"))
    assert again.at == ("A", "eye_bearing")


def test_onward_comes_back_to_what_was_passed_over() -> None:
    visit = visits.go_to(begun(), begun().steps[-1].key)
    assert visits.onward(visits.found(visit, Seen.ABSENT)).at == ("", "tag")


def test_a_new_answer_replaces_the_old_one() -> None:
    visit = visits.found(visits.found(begun(), Seen.ABSENT), Seen.PRESENT, ("unreadable",))
    assert [finding.seen for finding in visit.inspection.findings] == [Seen.PRESENT]


def test_an_answer_can_be_taken_back() -> None:
    assert visits.unanswered(visits.found(begun(), Seen.ABSENT)).inspection.findings == ()


def test_a_reading_needs_all_its_repeats() -> None:
    visit = girth(begun(TUCKED, InspectionKind.PERIODIC), "62 mm", "63 mm")
    assert not visit.answered(("body", "girth_worst"))
    assert girth(visit, "62 mm", "63 mm", "62 mm").answered(("body", "girth_worst"))


def test_a_picture_taken_before_the_answer_is_named_by_it_afterwards() -> None:
    visit = visits.pictured(begun(), ("", "tag"), PICTURE)
    assert visit.inspection.pictures == (PICTURE,)  # so an interruption does not lose it
    visit = visits.found(visit, Seen.ABSENT)
    assert visit.inspection.findings[0].pictures == (PICTURE,)
    assert visit.inspection.pictures == ()


def test_a_picture_stays_with_an_answer_that_is_changed() -> None:
    visit = visits.pictured(visits.found(begun(), Seen.ABSENT), ("", "tag"), PICTURE)
    visit = visits.found(visit, Seen.PRESENT, ("unreadable",))
    assert visit.inspection.findings[0].pictures == (PICTURE,)


def test_a_note_before_the_answer_names_its_place() -> None:
    visit = visits.noted(visits.go_to(begun(), ("A", "throat_lay")), "looks dry")
    assert visit.inspection.note == "throat A: looks dry"


def test_a_tap_on_the_present_station_goes_to_its_next_step() -> None:
    visit = visits.go_to(begun(BURIED, InspectionKind.PERIODIC), ("A", "throat_marks"))
    assert visits.go_to_station(visit, visit.station).at == ("A", "mark_offset")


def test_what_could_not_be_examined_never_signs_serviceable() -> None:
    visit = visits.found(begun(), Seen.NOT_EXAMINED, reason="dark")
    from inspection_rules.judgement import Judgement
    from inspection_rules.words import Answer

    silent = Judgement(on=NOW.date(), answer=Answer.SERVICEABLE, door=None, rulings=(), packs=(), rules_version="1")
    assert visits.signs(visit, silent)[("", "tag")] is Answer.HOLD


def test_damages_are_told_with_their_places_only_when_each_has_one() -> None:
    read = {"part": "body", "observation": "edge_cut", "values": ("4 mm", "6 mm"), "method": Method.STEEL_RULE}
    assert visits.values_of(Reading.model_validate({**read, "places": ("1 m", "3 m")})) == "4 mm at 1 m · 6 mm at 3 m"
    assert visits.values_of(Reading.model_validate(read)) == "4 mm · 6 mm"
