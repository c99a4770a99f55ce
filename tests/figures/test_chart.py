"""A chart puts each number where it belongs, with its doubt and its limit, and adds nothing of its own."""

import shutil
import subprocess
from datetime import date, timedelta
from pathlib import Path

import pytest

from app.figures import Circle, Ink, Label, Line
from app.figures.chart import LARGEST_SHARE, Scale, chart, largest_type, scale_of
from app.figures.measured import Series, State, Taken
from app.reports.drawing import draw
from app.reports.paper import FONT, Paper
from inspection_rules.words import Answer, InspectionKind, Moisture, Tension

SIZE = 0.04
DRY: State = (Tension.HAND_TAUT, Moisture.DRY)
WET: State = (Tension.HAND_TAUT, Moisture.WET)
START = date(2050, 1, 1)


def taken(
    days: int,
    value: float,
    limit: float | None = 10.0,
    *,
    good: float = 0.5,
    state: State | None = DRY,
    kind: InspectionKind = InspectionKind.PERIODIC,
) -> Taken:
    return Taken(START + timedelta(days=days), kind, value, limit, good, Answer.SERVICEABLE, state)


def series(*several: Taken, at_least: bool = False, unit: str = "mm") -> Series:
    baselines = tuple((one.on, one.kind) for one in several if one.kind is not InspectionKind.PERIODIC)
    return Series("pack", "rule", "A", "Slip", unit, at_least, several, baselines, None)


def day(on: date) -> str:
    return f"{on.day} {on.month} {on.year}"


def lines(found: Series, ink: Ink) -> list[Line]:
    return [s for s in chart(found, SIZE, day).shapes if isinstance(s, Line) and s.ink is ink]


def limits(found: Series) -> list[Line]:
    return [line for line in lines(found, Ink.MARK) if line.width == pytest.approx(SIZE * 0.24)]


def bars(found: Series) -> list[Line]:
    upright = [line for line in lines(found, Ink.INK) if line.points[0][0] == line.points[1][0]]
    return [line for line in upright if line.points[0][1] > SIZE * 3]  # not the ticks at the dates


def joins(found: Series) -> list[Line]:
    return [line for line in lines(found, Ink.FAINT) if line.width == pytest.approx(SIZE * 0.08)]


def dots(found: Series) -> list[Circle]:
    return [shape for shape in chart(found, SIZE, day).shapes if isinstance(shape, Circle)]


def words(found: Series, size: float = SIZE) -> list[str]:
    return [shape.text for shape in chart(found, size, day).shapes if isinstance(shape, Label)]


def test_dates_lie_in_proportion_to_their_days() -> None:
    scale = Scale(START, START + timedelta(days=100), 0.1, 0.9, 0, 10, 0.2, 0.7)
    assert [scale.x(START + timedelta(days=n)) for n in (0, 25, 100)] == pytest.approx([0.1, 0.3, 0.9])


def test_values_lie_in_proportion_between_the_lowest_and_the_highest() -> None:
    scale = Scale(START, START, 0.1, 0.9, -5, 15, 0.2, 0.7)
    assert [scale.y(value) for value in (-5, 0, 15)] == pytest.approx([0.2, 0.325, 0.7])


def test_the_scale_runs_from_the_lowest_doubt_to_the_limit() -> None:
    scale = scale_of(series(taken(0, 2), taken(10, 3)), SIZE)
    assert (scale.low, scale.high) == (1.5, 10.0)


def test_a_number_stands_where_its_day_and_value_put_it() -> None:
    # Type 0.04: the numbers span 0.096 to 0.904 across, 1.5 to 10 mm from 0.216 up by 0.64 - 2 × 3.4 × 0.04 = 0.368.
    middle = dots(series(taken(0, 2), taken(50, 5), taken(100, 3)))[1]
    assert middle.x == pytest.approx(0.5)
    assert middle.y == pytest.approx(0.216 + 0.368 * (5 - 1.5) / 8.5)


def test_a_bar_is_as_long_as_the_doubt_on_both_sides() -> None:
    found = series(taken(0, 2, good=1), taken(100, 6, good=2))
    scale = scale_of(found, SIZE)
    ends = [sorted(y for _, y in bar.points) for bar in bars(found)]
    assert ends == [pytest.approx([scale.y(1), scale.y(3)]), pytest.approx([scale.y(4), scale.y(8)])]


def test_an_exact_number_has_no_bar() -> None:
    assert not bars(series(taken(0, 4, good=0), taken(10, 5, good=0)))


def test_the_limit_runs_through_at_its_value() -> None:
    found = series(taken(0, 2), taken(100, 3))
    (limit,) = limits(found)
    assert [y for _, y in limit.points] == pytest.approx([scale_of(found, SIZE).y(10)] * 2)
    assert [x for x, _ in limit.points] == pytest.approx([SIZE, 1 - SIZE])


def test_the_limit_says_its_value_and_its_side() -> None:
    assert "limit 10 mm, at most" in words(series(taken(0, 2)))
    assert "limit 10 mm, at least" in words(series(taken(0, 12), at_least=True))


def test_the_side_where_nothing_passes_is_hatched() -> None:
    def out(found: Series) -> float:
        (limit,) = limits(found)
        hatch = next(line for line in lines(found, Ink.MARK) if line.width < limit.width)
        return hatch.points[1][1] - limit.points[0][1]

    assert out(series(taken(0, 2))) > 0
    assert out(series(taken(0, 12), at_least=True)) < 0


def test_a_limit_that_changed_is_drawn_over_the_time_it_was_judged_by() -> None:
    found = series(taken(0, 2), taken(50, 2), taken(100, 5, 3.3))
    later, earlier = limits(found)
    scale = scale_of(found, SIZE)
    assert earlier.points[1][0] == later.points[0][0] == pytest.approx((0.5 + scale.right) / 2)
    assert later.points[0][1] == pytest.approx(scale.y(3.3))
    assert {"limit then 10 mm", "limit 3.3 mm, at most"} <= set(words(found))


def test_without_a_limit_none_is_drawn() -> None:
    found = series(taken(0, 2, None), taken(10, 3, None))
    assert not lines(found, Ink.MARK)
    assert not any("limit" in text for text in words(found))


def test_a_single_number_stands_in_the_middle_of_its_time() -> None:
    (dot,) = dots(series(taken(0, 2)))
    assert dot.x == pytest.approx(0.5)


def test_a_single_exact_number_without_a_limit_stands_in_the_middle_of_its_height() -> None:
    found = series(taken(0, 0, None, good=0))
    scale = scale_of(found, SIZE)
    assert dots(found)[0].y == pytest.approx((scale.bottom + scale.top) / 2)


def test_equal_values_lie_level_and_say_their_value_once() -> None:
    found = series(*(taken(day, 4, good=0) for day in (0, 30, 60)))
    assert len({round(dot.y, 9) for dot in dots(found)}) == 1
    assert words(found).count("4 mm") == 1


def test_a_limit_far_away_is_drawn_as_far_away_as_it_is() -> None:
    found = series(taken(0, 1800, 160, good=5), taken(90, 1809, 160, good=5), at_least=True)
    scale = scale_of(found, SIZE)
    (limit,) = limits(found)
    shares = [(dot.y - limit.points[0][1]) / (scale.top - scale.bottom) for dot in dots(found)]
    assert shares == pytest.approx([1640 / 1654, 1649 / 1654])


def test_first_last_and_extreme_numbers_carry_their_value_with_its_unit() -> None:
    found = series(*(taken(30 * n, value) for n, value in enumerate((1, 5, 2, -3, 0.5, 2.5))))
    assert {"1 mm", "5 mm", "-3 mm", "2.5 mm"} <= set(words(found))
    assert not {"2 mm", "0.5 mm"} & set(words(found))


def test_a_number_read_in_another_state_is_hollow() -> None:
    first, second = dots(series(taken(0, 2, state=WET), taken(10, 3)))
    assert (first.fill, first.ink) == (Ink.PAPER, Ink.INK)
    assert second.fill is Ink.INK


def test_a_number_read_in_another_state_is_not_joined() -> None:
    assert len(joins(series(taken(0, 2), taken(10, 3), taken(20, 4, state=WET), taken(30, 5), taken(40, 5)))) == 2


def test_a_reckoned_number_is_a_cross_and_no_dot() -> None:
    found = series(taken(0, 2), taken(10, 3, state=None))
    assert [dot.fill for dot in dots(found)] == [Ink.PAPER, Ink.INK]
    slanted = [line for line in lines(found, Ink.FAINT) if line.points[0][0] != line.points[1][0]]
    assert len([line for line in slanted if line.width < SIZE * 0.12 and line.points[0][1] != line.points[1][1]]) >= 2


def test_nothing_is_joined_across_a_baseline() -> None:
    found = series(taken(0, 2), taken(10, 3), taken(20, 0, kind=InspectionKind.BEDDED_IN), taken(30, 1), taken(40, 1))
    assert len(joins(found)) == 2


def test_a_baseline_is_marked_with_its_word_at_its_day() -> None:
    found = series(taken(0, 0, kind=InspectionKind.BEDDED_IN), taken(100, 1))
    assert "bedded in" in words(found)
    x = scale_of(found, SIZE).x(START)
    assert any(line.points[0][0] == pytest.approx(x) for line in lines(found, Ink.FAINT))


def test_a_baseline_before_the_first_number_is_inside_the_time_drawn() -> None:
    read = (taken(50, 1), taken(100, 1))
    found = Series("p", "r", "A", "Slip", "mm", False, read, ((START, InspectionKind.AS_MADE),), None)
    assert scale_of(found, SIZE).first == START


def test_no_stroke_goes_on_past_the_last_number() -> None:
    found = series(*(taken(30 * n, n) for n in range(8)))
    last = scale_of(found, SIZE).x(START + timedelta(days=210))
    assert max(x for line in joins(found) for x, _ in line.points) == pytest.approx(last)


def test_movement_into_the_bury_is_drawn_against_a_limit_below() -> None:
    found = series(taken(0, 0), taken(30, -5, -3.3))
    assert "limit -3.3 mm, at least" in words(found)


def test_the_dates_at_the_ends_are_written() -> None:
    assert {"1 1 2050", "11 4 2050"} <= set(words(series(taken(0, 1), taken(100, 2))))


@pytest.mark.parametrize("size", [0.018, 0.04, 0.06])
def test_no_word_lies_on_another_or_outside(size: float) -> None:
    found = series(*(taken(7 * n, (n * 37 % 11) / 2 - 2, good=1.5) for n in range(60)))
    drawn = chart(found, size, day)
    boxes = []
    for one in drawn.shapes:
        if isinstance(one, Label):
            wide = len(one.text) * one.size * 0.5
            left = one.x - {"left": 0.0, "centre": wide / 2, "right": wide}[one.anchor]
            boxes.append((left, one.y - one.size / 2, left + wide, one.y + one.size / 2))
    assert all(box[0] >= 0 and box[2] <= 1 and box[1] >= 0 and box[3] <= drawn.height for box in boxes)
    for index, one in enumerate(boxes):
        for other in boxes[index + 1 :]:
            assert not (one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3])


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="pdftotext (poppler-utils) is not installed")
def test_a_report_can_draw_it(tmp_path: Path) -> None:
    paper = Paper("chart", "foot", START)
    paper.add_page()
    draw(paper, chart(series(taken(0, 2), taken(100, 3)), SIZE, day), 20, 20, 120, FONT)
    (tmp_path / "chart.pdf").write_bytes(bytes(paper.output()))
    text = subprocess.run(["pdftotext", "-layout", tmp_path / "chart.pdf", "-"], capture_output=True, check=True)
    assert "limit 10 mm, at most" in text.stdout.decode()


def test_the_largest_type_leaves_room_for_the_limit_and_both_dates() -> None:
    found = series(taken(0, 1915, 1728), taken(300, 1920, 1728), at_least=True)
    size = largest_type(found, day)
    assert len("limit 1728 mm, at least") * size * 0.6 < 1
    assert 0.03 < size < LARGEST_SHARE
