"""What is said of photographs, what a length read on one may decide, and where a mark lies between two legs."""

from fractions import Fraction

import pytest
from pydantic import ValidationError

from inspection_rules.book import shipped
from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement, content_hash
from inspection_rules.measures.photo_height import PhotoRefusedError
from inspection_rules.measures.photo_length import ID1_MM, Photo, photo_offset
from inspection_rules.measures.plane import PlaneError, alignment, to_plane
from inspection_rules.pictures import Marking, PictureNote, pixel, spot, views_of
from inspection_rules.record import Inspection, Reading
from inspection_rules.uncertainty import PROPAGATED, spread
from inspection_rules.words import Answer, Door, View

from .building import buried_sling, inspection
from .building import case as built
from .strategies import Json, judged, laid_case, pendant_case, reading, set_values

SHA = "ab" * 32
BARE: Json = {
    "id": "i1",
    "item": "rs-01",
    "at": "2050-10-12T09:30:00Z",
    "kind": "periodic",
    "by": {"name": "mate", "competence": "user"},
}


def short_tail(method: str, **study: str) -> Json:
    """A strand tail now read at 20 mm, where the regime removes below six diameters."""
    case = laid_case() | {"regimes": ["US lifting"]}
    set_values(case["baselines"][0], "A", "tail", ["150 mm"])
    found = reading(case["inspection"], "A", "tail")
    assert found is not None
    found |= {"values": ["20 mm"], "method": method, **study}
    return case


def test_a_photograph_far_beyond_a_limit_holds_and_says_to_measure_by_hand() -> None:
    found = judged(short_tail("photograph"))
    own = next(one for one in found.rulings if one.measure == "tail" and one.rule == "tail-projection")
    assert (found.answer, own.door) == (Answer.HOLD, Door.LOOK_AGAIN)
    assert "Only photographs say so" in own.sentence


def test_the_same_length_read_with_a_rule_removes() -> None:
    assert judged(short_tail("steel rule")).answer is Answer.REMOVE


def test_slip_measured_on_a_photograph_holds() -> None:
    case = pendant_case()
    found = reading(case["inspection"], "A", "mark_offset")
    assert found is not None
    found |= {"values": ["60 mm", "60 mm"], "method": "photograph"}
    assert judged(case).answer is Answer.HOLD


def twice_moved(method: str) -> Judgement:
    """Marks of 24 mm rope, 5 mm out at one visit and 10 mm at the next, the second time read so."""
    item = buried_sling()
    past = inspection(item, "periodic", "2026-03-01", readings={("A", "mark_offset"): ["5 mm"] * 4})
    look = inspection(item, "periodic", "2026-07-01", readings={("A", "mark_offset"): ["10 mm"] * 4})
    next(one for one in look["readings"] if one["observation"] == "mark_offset")["method"] = method
    return judge(Case.model_validate(built(item, look, earlier=[past])), shipped())


def test_a_second_movement_read_on_a_photograph_only_holds() -> None:
    found = next(one for one in twice_moved("photograph").rulings if one.measure == "slip" and one.part == "A")
    assert (found.answer, found.door) == (Answer.HOLD, Door.REFER)


def test_a_second_movement_read_with_a_rule_removes() -> None:
    found = next(one for one in twice_moved("steel rule").rulings if one.measure == "slip" and one.part == "A")
    assert found.answer is Answer.REMOVE


def test_the_doubt_carried_from_taps_never_makes_a_photograph_better_than_its_default() -> None:
    raw: Json = {"observation": "mark_tail", "part": "A", "values": ["48.0 mm"], "method": "photograph"}
    plain = spread(Reading.model_validate(raw), Fraction(24), "mm")
    tapped = Reading.model_validate(raw | {"u": "0.2 mm", "u_study": f"{PROPAGATED}blank card"})
    assert spread(tapped, Fraction(24), "mm").of_mean(1) == plain.of_mean(1)


def test_the_doubt_carried_from_taps_counts_where_it_is_larger() -> None:
    raw: Json = {"observation": "mark_tail", "part": "A", "values": ["48.0 mm"], "method": "photograph"}
    tapped = Reading.model_validate(raw | {"u": "9 mm", "u_study": f"{PROPAGATED}blank card"})
    found = spread(tapped, Fraction(24), "mm")
    assert found.of_mean(1) >= 9
    assert not found.from_study


def test_an_inspection_without_noted_pictures_is_written_as_it_always_was() -> None:
    one = Inspection.model_validate(BARE)
    assert "noted_pictures" not in one.model_dump(mode="json")
    assert content_hash(one) == "8704749bd7dc43c40d2ee49c6ab7897c56bb21d78e686532fb34934b587c07ed"


def test_a_noted_picture_is_read_back_as_it_was_written() -> None:
    note = {"picture": SHA, "view": "tip mark", "markings": [{"kind": "ring", "points": [[100, 200], [120, 200]]}]}
    one = Inspection.model_validate(BARE | {"noted_pictures": [note]})
    assert Inspection.model_validate_json(one.model_dump_json()).noted(SHA) == PictureNote.model_validate(note)


def test_a_picture_is_noted_once() -> None:
    with pytest.raises(ValidationError, match="noted twice"):
        Inspection.model_validate(BARE | {"noted_pictures": [{"picture": SHA}, {"picture": SHA}]})


def test_a_length_says_how_it_was_measured() -> None:
    with pytest.raises(ValidationError, match="how it was measured"):
        Marking.model_validate({"kind": "length", "points": [[0, 0], [10, 10]]})


@pytest.mark.parametrize("size", [(2016, 1512), (900, 1600)])
def test_a_point_comes_back_to_a_fifth_of_a_pixel(size: tuple[int, int]) -> None:
    x, y = pixel(spot((123.4, 567.8), size), size)
    assert (x, y) == (pytest.approx(123.4, abs=0.2), pytest.approx(567.8, abs=0.2))


@pytest.mark.parametrize(
    ("part", "station", "first"),
    [
        ("A", "marks", View.THROAT),
        ("A", "bury", View.TIP),
        ("A", "stitch", View.LOCK),
        ("A", "eye", View.EYE_BACK),
        ("body", "body", View.WORST),
        ("", "tag", View.TAG),
    ],
)
def test_the_view_of_the_station_comes_first(part: str, station: str, first: View) -> None:
    assert views_of(Item.model_validate(pendant_case()["item"]), part, station)[0] is first


def test_a_body_has_no_throat_to_be_seen() -> None:
    assert View.THROAT not in views_of(Item.model_validate(pendant_case()["item"]), "body", "body")


# Ten pixels to a millimetre, seen straight from above: what comes out is known without any reckoning.
CARD = [(100.0, 100.0), (956.0, 100.0), (956.0, 639.8), (100.0, 639.8)]
ABOVE = Photo(2016, 1512, None)


@pytest.mark.parametrize(("farther", "mm"), [(50.0, 5.0), (0.0, 0.0), (-73.0, -7.3)])
def test_an_offset_is_what_lies_along_the_legs_with_its_sign(farther: float, mm: float) -> None:
    """The legs run to the right, 24 mm apart."""
    marks = [(800.0 + farther, 900.0), (800.0, 1140.0)]
    found = photo_offset(ABOVE, CARD, ID1_MM, marks, [(400.0, 1020.0), (1400.0, 1020.0)], rope_mm=0)
    assert found.length_mm == pytest.approx(mm, abs=0.01)


def test_an_offset_turned_the_other_way_has_the_other_sign() -> None:
    marks = [(850.0, 900.0), (800.0, 1140.0)]
    found = photo_offset(ABOVE, CARD, ID1_MM, marks, [(1400.0, 1020.0), (400.0, 1020.0)], rope_mm=0)
    assert found.length_mm == pytest.approx(-5.0, abs=0.01)


def test_legs_whose_way_is_given_by_two_points_close_together_are_refused() -> None:
    with pytest.raises(PhotoRefusedError, match="farther apart"):
        photo_offset(ABOVE, CARD, ID1_MM, [(850.0, 900.0), (800.0, 1140.0)], [(800.0, 1020.0), (820.0, 1020.0)])


def moved(point: tuple[float, float]) -> tuple[float, float]:
    """Turned by a quarter, twice as large, and moved."""
    return 50 - 2 * point[1], 7 + 2 * point[0]


@pytest.mark.parametrize("count", [2, 3])
def test_two_or_three_common_points_bring_a_turned_picture_into_line(count: int) -> None:
    points = [(10.0, 10.0), (200.0, 30.0), (90.0, 150.0)][:count]
    h = alignment(points, [moved(one) for one in points])
    assert to_plane(h, (123.0, 45.0)) == pytest.approx(moved((123.0, 45.0)))


def test_four_common_points_take_out_a_tilt_whatever_their_order() -> None:
    tilted = (1.0, 0.1, 5.0, 0.0, 1.2, -3.0, 0.0004, 0.0002, 1.0)
    points = [(10.0, 10.0), (300.0, 250.0), (300.0, 20.0), (20.0, 280.0)]
    h = alignment(points, [to_plane(tilted, one) for one in points])
    assert to_plane(h, (120.0, 77.0)) == pytest.approx(to_plane(tilted, (120.0, 77.0)))


def test_points_on_one_spot_bring_nothing_into_line() -> None:
    with pytest.raises(PlaneError, match="far apart"):
        alignment([(5.0, 5.0), (5.0, 5.0)], [(1.0, 1.0), (9.0, 9.0)])


def test_a_note_without_the_file_it_was_made_from_is_written_as_it_always_was() -> None:
    assert "original" not in PictureNote.model_validate({"picture": SHA}).model_dump(mode="json")


def test_the_file_a_picture_was_made_from_is_read_back_as_it_was_written() -> None:
    note = PictureNote.model_validate({"picture": SHA, "original": "b" * 64})
    assert PictureNote.model_validate_json(note.model_dump_json()) == note
