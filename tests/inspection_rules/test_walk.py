import pytest

from inspection_rules.book import shipped
from inspection_rules.item import Item
from inspection_rules.record import Inspection
from inspection_rules.typical import typical_items
from inspection_rules.walk import by_hand, first_open, optional_steps, possible_steps, useful_steps, walk
from inspection_rules.words import Answer, InspectionKind, ItemKind, PartKind

from .bodies import looked_at, said
from .building import buried_sling, inspection, laid_sling


def steps(item, kind=InspectionKind.BEFORE_USE):
    return walk(Item.model_validate(item), kind, ("US lifting",), shipped())


def test_the_walk_follows_the_rope_from_tag_to_memory():
    assert [(s.part, s.observation.station) for s in steps(buried_sling())] == [
        ("", "tag"),
        ("A", "eye"), ("A", "marks"), ("A", "stitch"), ("A", "bury"),
        ("body", "body"),
        ("B", "bury"), ("B", "stitch"), ("B", "marks"), ("B", "eye"),
        ("", "since last time"),
    ]  # fmt: skip


@pytest.mark.parametrize("make", [buried_sling, laid_sling])
def test_a_two_eye_item_is_asked_no_more_than_twelve_questions_before_use(make):
    assert len(steps(make())) <= 12


def test_no_stitching_is_asked_about_where_there_is_none():
    item = buried_sling()
    item["parts"][0]["lock_stitched"] = False

    asked = {s.key for s in steps(item)}

    assert ("A", "lock_stitching") not in asked
    assert ("B", "lock_stitching") in asked


def test_an_examination_asks_everything_a_look_before_use_asks():
    for item in (buried_sling(), laid_sling()):
        assert {s.key for s in steps(item)} < {s.key for s in steps(item, InspectionKind.PERIODIC)}


def test_what_is_not_needed_may_be_added():
    item = Item.model_validate(buried_sling())
    may = {s.observation.id for s in optional_steps(item, InspectionKind.BEFORE_USE, (), shipped())}

    assert {"mark_offset", "throat_entry", "girth_worst"} <= may


def test_what_is_read_only_when_a_splice_is_made_is_not_offered_before_use():
    item = Item.model_validate(buried_sling())
    before, made = (
        {s.observation.id for s in optional_steps(item, kind, (), shipped())}
        for kind in (InspectionKind.BEFORE_USE, InspectionKind.AS_MADE)
    )

    assert {"laid_out", "passes", "picks_between"} & before == set()
    assert {"hook_throat", "fitting_thickness", "edge_cut"} & made == set()  # it has neither a fitting nor a web


def test_the_first_open_step_is_the_first_without_an_answer():
    raw = inspection(buried_sling(), "before use", "2026-03-02", without=(("A", "lock_stitching"), ("B", "marks")))
    todo = steps(buried_sling())

    assert first_open(todo, Inspection.model_validate(raw)).key == ("A", "lock_stitching")


ALL_REGIMES = tuple(sorted({pack.regime for pack in shipped().packs if pack.regime}))
TOWARD_THE_BODY = ["eye", "marks", "throat", "stitch", "bury", "tucks", "adjustable", "end"]


def visited(item, kind=InspectionKind.PERIODIC):
    """The stations in the order in which their questions are asked; the readings that wait stand apart."""
    asked = [s for s in walk(item, kind, ALL_REGIMES, shipped()) if s.observation.kind == "question"]
    return list(dict.fromkeys((s.part, s.observation.station) for s in asked))


@pytest.mark.parametrize("kind", [InspectionKind.BEFORE_USE, InspectionKind.PERIODIC])
def test_every_typical_item_is_walked_in_the_order_of_the_hands(kind):
    for item in typical_items():
        order = [part.id for part in by_hand(item)]
        stops = visited(item, kind)
        parts = [part for part in dict.fromkeys(part for part, _ in stops) if part]
        assert parts == [part for part in order if part in parts]
        ends = sorted(item.terminations, key=lambda part: part.end)
        for number, end in enumerate(ends):
            names = [name for part, name in stops if part == end.id]
            along = sorted(names, key=TOWARD_THE_BODY.index, reverse=number > 0)
            assert names == along, (item.kind, item.construction, end.splice)


def test_every_typical_walk_begins_at_the_tag_and_ends_with_memory():
    for item in typical_items():
        stops = visited(item)
        assert stops[0] == ("", "tag")
        assert stops[-1] == ("", "since last time")


def test_no_walk_comes_back_to_a_station_with_another_question():
    for item in typical_items():
        for kind in (InspectionKind.BEFORE_USE, InspectionKind.PERIODIC):
            asked = [s for s in walk(item, kind, ALL_REGIMES, shipped()) if s.observation.kind == "question"]
            places = [(s.part, s.observation.station) for s in asked]
            runs = [one for one, before in zip(places, [None, *places], strict=False) if one != before]
            assert len(set(runs)) == len(runs), (item.kind, item.construction, runs)


def test_the_marks_at_the_first_end_are_read_after_its_bury_was_felt_and_smoothed():
    asked = [s.key for s in steps(buried_sling(), InspectionKind.PERIODIC)]
    for end in "AB":
        assert asked.index((end, "bury_feel")) < asked.index((end, "mark_offset"))


def lanyard(*fittings, ends=("sewn eye", "plain end")):
    raw = buried_sling() | {"kind": "lanyard", "duty": "life support", "construction": "kernmantle"}
    parts = [{"id": end, "kind": "termination", "end": end, "splice": how} for end, how in zip("AB", ends, strict=True)]
    hung = [{"id": f"F{n}", "kind": "fitting"} | one for n, one in enumerate(fittings, 1)]
    return Item.model_validate(raw | {"parts": [*parts, {"id": "body", "kind": "body"}, *hung]})


CONNECTOR, ADJUSTER = {"fitting": "connector"}, {"fitting": "adjuster"}


def test_a_positioning_lanyard_is_walked_from_its_connector_to_its_stopped_end():
    item = lanyard(CONNECTOR, CONNECTOR, ADJUSTER)
    parts = dict.fromkeys(s.part for s in walk(item, InspectionKind.BEFORE_USE, (), shipped()) if s.part)

    # The second connector hangs from the adjuster: end B has no eye for it.
    assert list(parts) == ["F1", "A", "body", "F3", "F2", "B"]


def test_a_lanyard_with_an_eye_at_each_end_is_walked_from_connector_to_connector():
    item = lanyard(CONNECTOR, CONNECTOR, {"fitting": "energy absorber"}, ends=("sewn eye", "sewn eye"))
    assert [part.id for part in by_hand(item)] == ["F1", "A", "body", "F3", "B", "F2"]


def test_a_fitting_is_met_at_the_end_where_the_record_says_it_hangs():
    item = lanyard(CONNECTOR | {"end": "B"}, CONNECTOR, ends=("sewn eye", "sewn eye"))
    assert [part.id for part in by_hand(item)] == ["F2", "A", "body", "B", "F1"]


def test_every_part_is_met_once():
    for item in typical_items():
        assert sorted(part.id for part in by_hand(item)) == sorted(part.id for part in item.parts)


def test_a_soft_shackle_is_walked_from_its_eye_to_its_knot():
    item = next(one for one in typical_items() if one.kind is ItemKind.SOFT_SHACKLE)
    assert [name for part, name in visited(item) if part == "body"] == ["eye", "body", "knot"]


def one_ended(**changed):
    line = buried_sling() | {"kind": "line", "duty": "mooring"} | changed
    return line | {"parts": [part for part in line["parts"] if part.get("end") != "B"]}


@pytest.mark.parametrize("kind", [InspectionKind.BEFORE_USE, InspectionKind.PERIODIC, InspectionKind.AS_FOUND])
@pytest.mark.parametrize("item", ["line", "mooring tail", "hitch cord"])
def test_where_one_end_only_is_on_record_the_walk_asks_for_the_other_past_the_body(kind, item):
    asked = [s.key for s in steps(one_ended(kind=item), kind)]

    assert asked.index(("", "other_end")) > max(n for n, (part, _) in enumerate(asked) if part == "body")


def test_where_both_ends_are_on_record_nobody_asks_for_another():
    for item in typical_items():
        if len(item.terminations) == 2:
            assert "other_end" not in {s.observation.id for s in walk(item, InspectionKind.PERIODIC, (), shipped())}


def test_a_plain_end_on_record_is_an_end():
    line = buried_sling() | {"kind": "line", "duty": "mooring"}
    plain = {"id": "B", "kind": "termination", "end": "B", "splice": "plain end"}
    asked = {s.key for s in steps(line | {"parts": [*one_ended()["parts"], plain]})}

    assert ("B", "end_sound") in asked
    assert ("", "other_end") not in asked


def at_the_other_end(what, **changed):
    seen = {} if what is None else {("", "other_end"): what}
    return looked_at(one_ended(**changed), seen, kind="before use", regimes=[])


def test_a_sound_plain_end_that_is_not_on_record_passes():
    assert at_the_other_end(None).answer is Answer.SERVICEABLE


def test_the_other_end_unseen_is_held():
    judgement = looked_at(one_ended(), kind="before use", regimes=[], without=(("", "other_end"),))
    assert judgement.answer is Answer.HOLD


def test_an_eye_that_is_not_on_record_is_held_until_it_is():
    judgement = at_the_other_end("eye")

    assert judgement.answer is Answer.HOLD
    assert "put the other end on its record" in said(judgement, "other-end-not-on-record").action


@pytest.mark.criterion("heat-damage")
def test_another_end_that_is_worn_at_its_knot_is_referred():
    assert said(at_the_other_end("worn"), "other-end-worn").answer is Answer.HOLD


@pytest.mark.criterion("distortion")
def test_another_end_whose_cover_slipped_is_referred():
    judgement = at_the_other_end("slipped", construction="double braid")
    assert said(judgement, "other-end-slipped").answer is Answer.HOLD


@pytest.mark.criterion("cut-fibres")
def test_another_end_that_is_cut_is_out_of_service():
    assert at_the_other_end("cut").answer is Answer.REMOVE


def test_another_end_that_frays_is_watched():
    assert at_the_other_end("frayed").answer is Answer.WATCH


def test_what_lies_along_the_body_comes_before_what_hangs_from_it():
    parts = [part for item in typical_items() if item.kind is ItemKind.LANYARD for part in by_hand(item)]
    assert {part.kind for part in parts} == {PartKind.FITTING, PartKind.TERMINATION, PartKind.BODY}


def test_steps_worth_adding_are_heard_by_a_rule_and_keep_the_order_of_the_hands() -> None:
    item = Item.model_validate(buried_sling())
    useful = useful_steps(item, InspectionKind.BEFORE_USE, (), shipped())
    every = possible_steps(item, InspectionKind.BEFORE_USE, (), shipped())
    assert [one.key for one in useful] == [one.key for one in every if one.key in {step.key for step in useful}]
    assert ("body", "girth_worst") in {one.key for one in useful}


def test_what_no_rule_hears_is_not_worth_adding() -> None:
    web = Item.model_validate(
        {"id": "ws", "tag": "WS-01", "kind": "web sling", "duty": "lifting", "fibre": "polyester",
         "construction": "webbing", "parts": [
             {"id": "A", "kind": "termination", "end": "A", "splice": "sewn eye"}, {"id": "body", "kind": "body"}]}
    )  # fmt: skip
    useful = {one.key for one in useful_steps(web, InspectionKind.BEFORE_USE, (), shipped())}
    assert ("A", "eye_length") not in useful
