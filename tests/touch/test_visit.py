"""The inspection under way, as values."""

import pytest
from harbour import BURIED, MATE, NOW, TUCKED

from app.touch import visit as visits
from app.touch.guide import guide
from inspection_rules.book import shipped
from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement
from inspection_rules.quantity import parse
from inspection_rules.record import Inspection, Reading
from inspection_rules.walk import walk
from inspection_rules.words import Answer, InspectionKind, Method, Seen

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
    silent = Judgement(on=NOW.date(), answer=Answer.SERVICEABLE, door=None, rulings=(), packs=(), rules_version="1")
    assert visits.signs(visit, silent)[("", "tag")] is Answer.HOLD


def test_damages_are_told_with_their_places_only_when_each_has_one() -> None:
    read = {"part": "body", "observation": "edge_cut", "values": ("4 mm", "6 mm"), "method": Method.STEEL_RULE}
    assert visits.values_of(Reading.model_validate({**read, "places": ("1 m", "3 m")})) == "4 mm at 1 m · 6 mm at 3 m"
    assert visits.values_of(Reading.model_validate(read)) == "4 mm · 6 mm"


BODY = ("body", "body_surface")


def added(visit: visits.Visit, key: visits.Key) -> visits.Visit:
    told = guide(visit.item, visit.inspection.kind, (), shipped())
    return visits.with_step(visit, told.step(key), [step.key for step in told.possible])


def test_a_step_that_is_added_takes_its_place_in_the_order_of_the_hands() -> None:
    visit = added(added(visits.go_to(begun(), BODY), ("body", "girth_sound")), ("body", "body_inside"))
    keys = [step.key for step in visit.steps]
    assert keys.index(("body", "body_inside")) < keys.index(("body", "girth_sound"))


def test_after_a_step_that_was_added_the_hands_go_back_to_where_they_were() -> None:
    visit = added(visits.go_to(begun(), BODY), ("body", "body_inside"))
    assert visits.onward(visits.found(visit, Seen.ABSENT)).at == BODY


def test_going_elsewhere_forgets_where_the_hands_were() -> None:
    visit = visits.go_to(added(visits.go_to(begun(), BODY), ("body", "body_inside")), ("A", "throat_lay"))
    assert visits.onward(visits.found(visit, Seen.ABSENT)).at != BODY


def cut_at(*places: str) -> visits.Visit:
    visit = visits.found(visits.go_to(begun(), BODY), Seen.PRESENT, ("cut",))
    for place in places:
        visit = visits.placed(visit, "A strand cut through or broken", parse(place, "length"))
    return visit


def test_a_condition_may_lie_in_several_places() -> None:
    finding = cut_at("1 m", "3 m").inspection.findings[0]
    assert [place.text for place in finding.places] == ["1 m", "3 m"]
    assert finding.note.count("where: ") == 2


def test_another_condition_named_beside_it_keeps_the_places() -> None:
    visit = visits.found(cut_at("1 m"), Seen.PRESENT, ("abraded", "cut"))
    assert [place.text for place in visit.inspection.findings[0].places] == ["1 m"]


def test_a_condition_that_is_taken_back_takes_the_places_with_it() -> None:
    finding = visits.found(cut_at("1 m"), Seen.PRESENT, ("abraded",)).inspection.findings[0]
    assert (finding.places, finding.note) == ((), "")


def test_places_can_be_taken_back() -> None:
    assert visits.without_places(cut_at("1 m")).inspection.findings[0].places == ()


def test_the_judge_takes_a_finding_with_places() -> None:
    visit = cut_at("1 m", "3 m")
    said = judge(Case(on=NOW.date(), item=visit.item, inspection=visit.inspection), shipped())
    assert next(one for one in said.rulings if (one.part, one.observation) == BODY).answer is Answer.HOLD


def test_a_remark_is_added_to_the_note_of_its_answer() -> None:
    visit = visits.remarked(cut_at(), BODY, "confirmed: so it is")
    assert visit.inspection.findings[0].note == "confirmed: so it is"


def test_what_stands_in_for_a_reading_that_was_taken_is_not_offered() -> None:
    told = guide(BURIED, InspectionKind.PERIODIC, (), shipped())
    visit = visits.go_to(begun(BURIED, InspectionKind.PERIODIC), ("A", "mark_offset"))
    assert ("A", "mark_tail") in [step.key for step in told.more(visit)]
    reading = Reading(part="A", observation="mark_offset", values=("0 mm",), method=Method.STEEL_RULE)
    assert ("A", "mark_tail") not in [step.key for step in told.more(visits.read(visit, reading))]
