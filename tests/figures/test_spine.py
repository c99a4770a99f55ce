"""The spine keeps the order of the real rope and gives every station its place for the thumb."""

from itertools import combinations, pairwise

import pytest

from app.figures import Ink, Line, Polygon, Spine, by_hand, spine
from inspection_rules.book import shipped
from inspection_rules.item import Item, Part
from inspection_rules.quantity import parse
from inspection_rules.record import Inspection
from inspection_rules.typical import typical_items
from inspection_rules.walk import walk
from inspection_rules.words import (
    JOINTS,
    Construction,
    Duty,
    Fibre,
    FittingKind,
    InspectionKind,
    ItemKind,
    Method,
    PartKind,
    SpliceKind,
    Thimble,
)

BURIED = ("eye", "marks", "throat", "stitch", "bury", "tip")


def end(name: str, splice: SpliceKind = SpliceKind.BURIED_EYE, **more: object) -> Part:
    return Part.model_validate({"id": name, "kind": PartKind.TERMINATION, "end": name, "splice": splice, **more})


def line(*parts: Part, kind: ItemKind = ItemKind.LINE, construction: Construction | None = None) -> Item:
    body = Part(id="body", kind=PartKind.BODY)
    return Item.model_validate(
        {
            "id": "01", "tag": "ML-04", "kind": kind, "duty": Duty.MOORING, "fibre": Fibre.POLYESTER,
            "construction": construction, "diameter": "24 mm", "parts": (*parts, body),
        }
    )  # fmt: skip


def names(one: Spine) -> list[tuple[str, str]]:
    return [(station.part, station.name) for station in one.stations]


def inks(one: Spine) -> set[Ink]:
    return {shape.ink for shape in one.figure.shapes if isinstance(shape, Line)}


def test_stations_stand_in_the_order_of_the_hands_as_they_are_given() -> None:
    asked = [
        ("", "tag"), *(("A", n) for n in BURIED), ("body", "body"), *(("B", n) for n in reversed(BURIED)),
        ("", "since last time"),
    ]  # fmt: skip
    assert names(spine(line(end("A"), end("B")), asked)) == asked


def test_parts_are_met_from_what_hangs_at_end_a_along_body_and_joints_to_end_b() -> None:
    joint = Part.model_validate({"id": "J", "kind": "joint", "splice": "end-to-end splice"})
    hook = Part.model_validate({"id": "F", "kind": "fitting", "fitting": "hook"})
    item = line(hook, joint, end("B"), end("A"))
    assert [part.id for part in by_hand(item)] == ["F", "A", "body", "J", "B"]


@pytest.mark.parametrize("kind", [InspectionKind.BEFORE_USE, InspectionKind.PERIODIC])
def test_every_typical_item_is_drawn_along_its_whole_walk(kind: InspectionKind) -> None:
    book = shipped()
    regimes = {pack.regime for pack in book.packs if pack.regime}
    for item in typical_items():
        walked = list(dict.fromkeys((step.part, step.observation.station) for step in walk(item, kind, regimes, book)))
        found = spine(item, walked)
        assert names(found) == walked
        heights = [y for shape in found.figure.shapes if isinstance(shape, Line) for _, y in shape.points]
        assert min(heights) > -0.1
        assert max(heights) < found.figure.height + 0.1


def test_a_joint_lies_in_the_rope_between_the_ends() -> None:
    joint = Part.model_validate({"id": "J", "kind": "joint", "splice": "end-to-end splice"})
    asked = [("A", "eye"), ("body", "body"), ("J", "throat"), ("J", "bury"), ("B", "eye")]
    found = spine(line(end("A"), end("B"), joint), asked)
    marks = [shape for shape in found.figure.shapes if isinstance(shape, Line) and shape.ink is Ink.MARK]
    assert len(marks) == 2  # its two tip marks
    assert all(found.station("B", "eye").y < y < found.station("body", "body").y for m in marks for _, y in m.points)


@pytest.mark.parametrize("kind", FittingKind)
def test_every_kind_of_fitting_is_drawn_at_its_station(kind: FittingKind) -> None:
    fitting = Part.model_validate({"id": "F", "kind": "fitting", "fitting": kind})
    found = spine(line(end("A"), fitting), [("A", "eye"), ("body", "body"), ("F", "fitting")])
    place = found.station("F", "fitting").y
    near = [
        shape
        for shape in found.figure.shapes
        if isinstance(shape, Line | Polygon) and all(abs(y - place) < 0.4 for _, y in shape.points)
    ]
    assert near


def test_a_plain_end_is_whipped() -> None:
    asked = [("A", "end"), ("body", "body")]
    assert Ink.THREAD in inks(spine(line(end("A", SpliceKind.PLAIN_END)), asked))


def test_stations_are_evenly_spaced_and_inside_the_drawing() -> None:
    found = spine(line(end("A")), [("", "tag"), *(("A", n) for n in BURIED), ("body", "body")], step=0.8)
    heights = [station.y for station in found.stations]
    assert [a - b for a, b in pairwise(heights)] == pytest.approx([0.8] * 7)
    assert heights[0] == pytest.approx(found.figure.height - 0.4)
    assert heights[-1] == pytest.approx(0.4)


def test_a_station_asked_for_twice_is_drawn_once() -> None:
    found = spine(line(end("A")), [("A", "eye"), ("A", "eye"), ("body", "body")])
    assert names(found) == [("A", "eye"), ("body", "body")]


def test_a_tap_between_two_stations_finds_the_nearer_one() -> None:
    found = spine(line(end("A")), [("A", "eye"), ("A", "throat"), ("body", "body")], step=1)
    assert [found.at(y).name for y in (2.2, 1.9, 1.1, 0.9, 0.1)] == ["eye", "throat", "throat", "body", "body"]


def test_a_part_the_item_does_not_have_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="'C'"):
        spine(line(end("A")), [("C", "eye")])


def test_no_station_at_all_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one station"):
        spine(line(end("A")), [])


def test_marks_are_drawn_where_the_splice_has_them_or_they_are_asked_for() -> None:
    asked = [("A", "eye"), ("A", "throat"), ("A", "bury")]
    assert Ink.MARK in inks(spine(line(end("A", marks_at="60 mm")), asked))
    assert Ink.MARK in inks(spine(line(end("A")), [*asked, ("A", "marks")]))
    assert Ink.MARK not in inks(spine(line(end("A")), asked))


def test_a_thimble_is_drawn_only_where_there_is_one() -> None:
    asked = [("A", "eye"), ("A", "throat")]
    assert Ink.METAL in inks(spine(line(end("A", thimble=Thimble.CAPTIVE)), asked))
    assert Ink.METAL not in inks(spine(line(end("A")), asked))


def test_lock_stitching_is_drawn_only_where_there_is_some() -> None:
    asked = [("A", "eye"), ("A", "stitch"), ("A", "bury")]
    assert Ink.THREAD in inks(spine(line(end("A", lock_stitched=True)), asked))
    assert Ink.THREAD not in inks(spine(line(end("A")), asked))


@pytest.mark.parametrize("splice", sorted(set(SpliceKind) - JOINTS))
def test_every_kind_of_splice_is_drawn_at_either_end(splice: SpliceKind) -> None:
    item = line(end("A", splice), end("B", splice), construction=Construction.LAID_3)
    found = spine(item, [("A", "eye"), ("body", "body"), ("B", "eye")])
    by_height = [
        (min(y for _, y in shape.points), max(y for _, y in shape.points))
        for shape in found.figure.shapes
        if isinstance(shape, Line)
    ]
    assert min(low for low, _ in by_height) < 0.3
    assert max(high for _, high in by_height) > found.figure.height - 0.3


@pytest.mark.parametrize("kind", [ItemKind.ROUNDSLING, ItemKind.WEB_SLING, ItemKind.GROMMET])
def test_an_item_without_ends_is_drawn_as_its_body(kind: ItemKind) -> None:
    found = spine(line(kind=kind), [("", "tag"), ("body", "body")])
    assert names(found) == [("", "tag"), ("body", "body")]


def test_the_rope_is_unbroken_from_eye_to_eye() -> None:
    asked = [("A", "eye"), ("A", "bury"), ("body", "body"), ("B", "bury"), ("B", "eye")]
    found = spine(line(end("A"), end("B")), asked, step=0.8)
    covered = sorted(
        (min(y for _, y in s.points), max(y for _, y in s.points))
        for s in found.figure.shapes
        if not hasattr(s, "text") and hasattr(s, "points") and Ink.ROPE in {getattr(s, "fill", None), s.ink}
    )
    reach = covered[0][1]
    for low, high in covered:
        assert low <= reach + 0.02
        reach = max(reach, high)
    assert reach > found.station("A", "eye").y


def test_an_item_asked_only_about_its_tag_is_drawn_without_rope() -> None:
    found = spine(line(end("A")), [("", "tag")])
    assert Ink.ROPE not in inks(found)


# --- drawn by the item's own record ------------------------------------------------------------------------

OWN = {"required_bury": "1728 mm", "required_by": "splice instruction"}


def whole(*ends: Part, construction: Construction | None = None, inspections: tuple[Inspection, ...] = ()) -> Spine:
    """An item as its own page draws it: one station a part."""
    item = line(*ends, construction=construction)
    return spine(item, [(part.id, "eye" if part.end else "body") for part in by_hand(item)], 1.6, inspections)


def tails(one: Spine) -> list[float]:
    """How long each tapered bury is drawn, from the top down."""
    found = [
        (max(ys), max(ys) - min(ys))
        for shape in one.figure.shapes
        if isinstance(shape, Polygon) and shape.fill is Ink.ROPE and len(shape.points) == 4
        for ys in [[y for _, y in shape.points]]
    ]
    return [long for _, long in sorted(found, reverse=True)]


def made(part: str, observation: str, *values: str) -> Inspection:
    """An as-made record with one reading."""
    reading = {"part": part, "observation": observation, "values": values, "method": "tape on the laid-out tail"}
    return Inspection.model_validate(
        {
            "id": "made", "item": "01", "kind": "as made", "at": "2050-03-01T08:00:00Z", "readings": [reading],
            "by": {"name": "splicer", "competence": "competent person"},
        }
    )  # fmt: skip


def test_two_burys_are_drawn_in_proportion_to_their_lengths() -> None:
    first, other = tails(whole(end("A", **OWN), end("B", **OWN | {"required_bury": "864 mm"})))
    assert other / first == pytest.approx(0.5, abs=0.01)


def test_a_bury_that_was_measured_when_made_is_drawn_by_what_was_measured() -> None:
    first, other = tails(whole(end("A", **OWN), end("B", **OWN), inspections=(made("B", "bury", "432 mm"),)))
    assert other / first == pytest.approx(0.25, abs=0.01)


def test_a_measured_bury_is_not_taken_from_a_look_of_another_kind() -> None:
    look = made("B", "bury", "432 mm").model_copy(update={"kind": InspectionKind.PERIODIC})
    first, other = tails(whole(end("A", **OWN), end("B", **OWN), inspections=(look,)))
    assert other == pytest.approx(first)


def test_the_tip_mark_stands_at_the_end_of_the_bury() -> None:
    found = whole(end("A", marks_at="48 mm", **OWN))
    marks = [s.points[0][1] for s in found.figure.shapes if isinstance(s, Line) and s.ink is Ink.MARK]
    bottoms = [
        min(y for _, y in s.points)
        for s in found.figure.shapes
        if isinstance(s, Polygon) and s.fill is Ink.ROPE and len(s.points) == 4
    ]
    assert min(marks) == pytest.approx(min(bottoms))


@pytest.mark.parametrize("place", ["marks", "throat", "stitch", "bury", "tip"])
def test_a_place_with_a_station_of_its_own_stays_where_the_thumb_finds_it(place: str) -> None:
    asked = [("A", "eye"), ("A", place), ("body", "body")]
    one, other = (spine(line(end("A", **OWN | {"required_bury": bury})), asked) for bury in ("900 mm", "1800 mm"))
    assert one.station("A", place) == other.station("A", place)


@pytest.mark.parametrize(("length", "broken"), [("3 m", False), ("200 m", True)])
def test_rope_that_is_longer_than_it_is_drawn_is_shown_as_left_out(length: str, broken: bool) -> None:
    ends = end("A", **OWN), end("B", **OWN)
    item = line(*ends).model_copy(update={"length": parse(length, "length")})
    asked = [("A", "eye"), ("body", "body"), ("B", "eye")]
    gaps = [s for s in spine(item, asked, 1.6).figure.shapes if isinstance(s, Line) and s.ink is Ink.PAPER]
    assert bool(gaps) is broken


def test_chafe_gear_is_drawn_only_where_there_is_some() -> None:
    assert Ink.PAPER in inks(whole(end("A", chafe_gear=True), end("B")))
    assert Ink.PAPER not in inks(whole(end("A"), end("B")))


@pytest.mark.parametrize("count", [3, 5])
def test_as_many_tucks_are_drawn_as_were_counted(count: int) -> None:
    counted = made("A", "tucks", str(count))
    counted = counted.model_copy(
        update={"readings": (counted.readings[0].model_copy(update={"method": Method.COUNTED}),)}
    )
    ends = end("A", SpliceKind.TUCKED_EYE), end("B", SpliceKind.PLAIN_END)
    few, many = (whole(*ends, construction=Construction.LAID_3, inspections=one) for one in ((), (counted,)))
    assert len(many.figure.shapes) - len(few.figure.shapes) == 4 * (count - 4)


def test_strand_tails_that_are_buried_are_not_drawn_standing_out() -> None:
    plain = end("B", SpliceKind.PLAIN_END)
    out, buried = (
        whole(end("A", SpliceKind.TUCKED_EYE, tails_buried=one), plain, construction=Construction.LAID_3)
        for one in (False, True)
    )
    assert len(buried.figure.shapes) < len(out.figure.shapes)


@pytest.mark.parametrize(
    ("one", "other"),
    list(combinations([k for k in SpliceKind if k not in JOINTS and k is not SpliceKind.DOUBLE_BRAID_EYE], 2)),
)
def test_every_kind_of_end_looks_different(one: SpliceKind, other: SpliceKind) -> None:
    first, second = (whole(end("A", kind, **OWN), end("B", **OWN)).figure.shapes for kind in (one, other))
    assert first != second
