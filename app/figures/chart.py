"""A quantity over time against its limit: every number as it was judged, its doubt, and nothing between or after them.

No trend is drawn and no line goes on past the last number: what will come is not known. Everything is drawn to one
scale from the limit to the numbers, so that the room that is left looks as it is.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from itertools import groupby, pairwise

from app.figures.measured import Series, State, Taken, number
from app.figures.shapes import Anchor, Circle, Figure, Ink, Label, Line, Point, Shape, box, dashed
from app.language import say
from inspection_rules.words import BASELINE_KINDS

# All sizes in type sizes (the height of the type), so that a chart grows with its words.
SIDE = 1.0  # paper beside the plot
INSET = 1.4  # between the plot's edge and the first and last number
BELOW = 2.0  # where the dates stand
ROOM = 3.4  # above and below all that is drawn to scale, for words
PLOT = 16.0  # least height of the plot
LARGEST_SHARE = 0.065  # largest type, in box widths
LEAST_PLOT = 0.3  # of the plot's height, in box widths
LINE = 1.35  # height of a line of words
LETTER, WIDE = 0.6, 1.0  # widths of letters, from above
DOT, CAP, CROSS = 0.34, 0.34, 0.22
LEAST_MARK = 0.4  # of the type's size, where numbers stand close
EDGE = 0.004  # of the frame, in box widths

ANCHORS: tuple[Anchor, ...] = ("centre", "left", "right")
Box = tuple[float, float, float, float]  # left, bottom, right, top


@dataclass(frozen=True, slots=True)
class Scale:
    """Where a date and a value lie in the box.

    Attributes:
        first, last: dates at `left` and `right`; a single date lies in the middle.
        low, high: values at `bottom` and `top`.
    """

    first: date
    last: date
    left: float
    right: float
    low: float
    high: float
    bottom: float
    top: float

    def x(self, on: date) -> float:
        """Return how far from the left a date lies."""
        days = (self.last - self.first).days
        if not days:
            return (self.left + self.right) / 2
        return self.left + (self.right - self.left) * (on - self.first).days / days

    def y(self, value: float) -> float:
        """Return how high a value lies."""
        return self.bottom + (self.top - self.bottom) * (value - self.low) / (self.high - self.low)


@dataclass
class _Words:
    """The words placed so far, so that no two lie on each other."""

    size: float
    inside: Box
    taken: list[Box] = field(default_factory=list)
    marks: list[Box] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)

    def put(self, text: str, places: Sequence[tuple[float, float, Anchor]], *, bold: bool = False) -> None:
        """Write a text at the first of some places where it lies on no other word, and on the fewest marks."""
        free = [(self._cost(box), place) for place in places if (box := self._box(text, place)) is not None]
        if not free:
            return
        _, (x, y, anchor) = min(free, key=lambda one: one[0])
        around = self._around(text, x, y, anchor)
        self.taken.append(around)
        if x > 0.5 and around[2] >= self.inside[2]:  # it was pushed back in
            x, anchor = self.inside[2], "right"
        elif around[0] <= self.inside[0]:
            x, anchor = self.inside[0], "left"
        self.labels.append(Label(text, x, y, anchor, self.size, bold))

    def _box(self, text: str, place: tuple[float, float, Anchor]) -> Box | None:
        around = self._around(text, *place)
        if around[1] < self.inside[1] or around[3] > self.inside[3]:
            return None
        return None if any(_meet(around, other) for other in self.taken) else around

    def _around(self, text: str, x: float, y: float, anchor: Anchor) -> Box:
        wide = wide_of(text, self.size)
        left = x - {"left": 0.0, "centre": wide / 2, "right": wide}[anchor]
        left = max(min(left, self.inside[2] - wide), self.inside[0])
        return left, y - self.size * LINE / 2, left + wide, y + self.size * LINE / 2

    def _cost(self, around: Box) -> int:
        return sum(_meet(around, mark) for mark in self.marks)


def chart(series: Series, size: float, day: Callable[[date], str]) -> Figure:
    """Draw a series in a box one unit wide.

    Args:
        series: what was judged; at least one number.
        size: of the type, in box widths: 0.04 is 14 px on a chart 340 px wide.
        day: writes a date for people.
    """
    scale = scale_of(series, size)
    top = scale.top + ROOM * size
    height = top + LINE * size * len(series.baselines) + 0.4 * size
    frame = (EDGE, BELOW * size, 1 - EDGE, top)
    words = _Words(size, (frame[0] + size * 0.3, frame[1], frame[2] - size * 0.3, frame[3]))
    shapes: list[Shape] = [Line((*box(*frame), frame[:2]), Ink.FAINT, size * 0.06)]
    shapes += _baselines(series, scale, size, top, words)
    shapes += _joins(series, scale, size)
    shapes += _limits(series, scale, size, words)
    fine = _mark_size(series, scale, size)
    for one in sorted(series.taken, key=lambda one: one.state is not None):  # what was read lies on top
        shapes += _mark(one, series, scale, fine, words)
    _values(series, scale, size, words)
    shapes += _dates(scale, size, day)
    return Figure("chart", height, (*shapes, *words.labels))


def scale_of(series: Series, size: float) -> Scale:
    """Return where the dates and values of a chart with this size of type lie."""
    dates = [*(one.on for one in series.taken), *(on for on, _ in series.baselines)]
    values = [one.value + sign * one.good for one in series.taken for sign in (-1, 1)]
    values += [one.limit for one in series.taken if one.limit is not None]
    low, high = min(values), max(values)
    if high - low < 1e-9:  # one exact number and nothing to compare it with: anywhere in the middle
        apart = abs(high) / 10 or 1.0
        low, high = low - apart, high + apart
    inside = max(LEAST_PLOT, PLOT * size) - 2 * ROOM * size
    bottom = (BELOW + ROOM) * size
    edge = (SIDE + INSET) * size
    return Scale(min(dates), max(dates), edge, 1 - edge, low, high, bottom, bottom + inside)


def wide_of(text: str, size: float) -> float:
    """Return how wide a text is at most, in box widths."""
    return size * sum(WIDE if letter in "mMW%" else LETTER for letter in text)


def largest_type(series: Series, day: Callable[[date], str]) -> float:
    """Return the size of type, in box widths, at which the longest words of a chart still fit beside each other."""
    dates = {day(one.on) for one in series.taken}
    texts = [number(value, series.unit) for one in series.taken for value in (one.value, one.limit or 0)]
    least = wide_of(say("limit {limit}, at least", limit=max(texts, key=len)), 1.0) + 2 * SIDE
    return min(LARGEST_SHARE, 1 / max(least, 2 * max(wide_of(text, 1.0) for text in dates) + 1))


def usual_state(series: Series) -> State | None:
    """Return the state of the last number that was read; others compare with it only in the same one."""
    return next((one.state for one in reversed(series.taken) if one.state is not None), None)


def _baselines(series: Series, scale: Scale, size: float, top: float, words: _Words) -> Iterator[Shape]:
    for row, (on, kind) in enumerate(series.baselines):
        x = scale.x(on)
        y = top + LINE * size * (len(series.baselines) - row - 0.5)
        yield from dashed(((x, BELOW * size), (x, y - size * 0.5)), Ink.FAINT, size * 0.09, size * 0.5, size * 0.35)
        words.marks.append((x - size * 0.1, BELOW * size, x + size * 0.1, top))
        text = say(str(kind))
        left = x - size * 0.5
        anchor: Anchor = "left" if left + wide_of(text, size) < 1 else "right"
        words.labels.append(Label(text, left if anchor == "left" else x + size * 0.5, y, anchor, size))


def _joins(series: Series, scale: Scale, size: float) -> Iterator[Shape]:
    """Thin strokes between neighbours that compare: read in one state, with no baseline between or at them."""
    usual = usual_state(series)
    for one, other in pairwise(one for one in series.taken if one.state is not None):
        if one.state != usual or other.state != usual:
            continue
        if {one.kind, other.kind} & BASELINE_KINDS or any(one.on < on <= other.on for on, _ in series.baselines):
            continue
        ends = (scale.x(one.on), scale.y(one.value)), (scale.x(other.on), scale.y(other.value))
        yield Line(ends, Ink.FAINT, size * 0.08)


def _limits(series: Series, scale: Scale, size: float, words: _Words) -> Iterator[Shape]:
    """The limit as a bold line over the time it was judged by, hatched on the side where nothing passes."""
    runs = [(limit, list(several)) for limit, several in groupby(series.taken, key=lambda one: one.limit)]
    ends = [SIDE * size, *(_between(scale, a[1][-1], b[1][0]) for a, b in pairwise(runs)), 1 - SIDE * size]
    said: set[float] = set()
    for index in reversed(range(len(runs))):
        limit = runs[index][0]
        if limit is None:
            continue
        least = series.at_least or (limit < 0 and any(one.value < limit for one in runs[index][1]))
        y, left, right = scale.y(limit), ends[index], max(ends[index + 1], ends[index] + size)
        out = -1 if least else 1
        yield Line(((left, y), (right, y)), Ink.MARK, size * 0.24, "flat")
        yield from _hatched(left, right, y, out, size)
        words.taken.append((left, min(y, y + out * size * 0.6), right, max(y, y + out * size * 0.6)))
        if limit not in said:
            said.add(limit)
            last = index == len(runs) - 1
            _name_limit(number(limit, series.unit), least, last, (left, right, y), out, size, words)


def _name_limit(
    text: str, least: bool, last: bool, line: tuple[float, float, float], out: int, size: float, words: _Words
) -> None:
    left, right, y = line
    said = say("limit {limit}, at least", limit=text) if least else say("limit {limit}, at most", limit=text)
    said = said if last else say("limit then {limit}", limit=text)
    rows = [y + out * size * (LINE * row + 0.3) for row in (1, 2)] + [y - out * size * LINE * row for row in (1, 2)]
    across: list[tuple[float, Anchor]] = [(left, "left"), (right, "right"), ((left + right) / 2, "centre")]
    if right - left < wide_of(said, size):
        across = [(right, "right")] if last else across[:1]
    words.put(said, [(x, high, anchor) for high in rows for x, anchor in across], bold=True)


def _hatched(left: float, right: float, y: float, out: int, size: float) -> Iterator[Shape]:
    x = left + size * 0.3
    while x + size * 0.45 <= right:
        yield Line(((x, y), (x + size * 0.45, y + out * size * 0.5)), Ink.MARK, size * 0.09, "flat")
        x += size * 0.9


def _between(scale: Scale, one: Taken, other: Taken) -> float:
    return (scale.x(one.on) + scale.x(other.on)) / 2


def _mark_size(series: Series, scale: Scale, size: float) -> float:
    """The unit of the marks: the type's size, less where they stand close."""
    apart = (scale.right - scale.left) / max(len(series.taken) - 1, 1)
    return min(size, max(1.2 * apart, LEAST_MARK * size))


def _mark(one: Taken, series: Series, scale: Scale, size: float, words: _Words) -> Iterator[Shape]:
    """A number with the bar of its doubt: full where it was read, hollow in another state, a cross if reckoned."""
    x, y = scale.x(one.on), scale.y(one.value)
    low, high = scale.y(one.value - one.good), scale.y(one.value + one.good)
    words.marks.append((x - DOT * size, low, x + DOT * size, max(high, low + size * 0.1)))
    ink = Ink.INK if one.state is not None else Ink.FAINT
    if one.good:
        yield Line(((x, low), (x, high)), ink, size * 0.1, "flat")
        for end in (low, high):
            yield Line(((x - CAP * size, end), (x + CAP * size, end)), ink, size * 0.1, "flat")
    if one.state is None:
        arm = CROSS * size
        yield Circle(x, y, arm * 1.5, Ink.PAPER)
        yield Line(((x - arm, y - arm), (x + arm, y + arm)), Ink.FAINT, size * 0.11, "flat")
        yield Line(((x - arm, y + arm), (x + arm, y - arm)), Ink.FAINT, size * 0.11, "flat")
    elif one.state != usual_state(series):
        yield Circle(x, y, DOT * size, Ink.PAPER, Ink.INK, size * 0.14)
    else:
        yield Circle(x, y, DOT * size, Ink.INK)


def _values(series: Series, scale: Scale, size: float, words: _Words) -> None:
    """Write the last and the first number, and the highest and lowest where they are others."""
    taken = series.taken
    chosen = {taken[-1].value: taken[-1]}
    for one in (taken[0], max(taken, key=lambda one: one.value), min(taken, key=lambda one: one.value)):
        chosen.setdefault(one.value, one)
    for one in chosen.values():
        x = scale.x(one.on)
        high, low = scale.y(one.value + one.good), scale.y(one.value - one.good)
        places: list[tuple[float, float, Anchor]] = []
        for row in (0.85, 0.85 + LINE, 0.9 + 2 * LINE):
            for anchor in ANCHORS:
                places += [(x, high + row * size, anchor), (x, low - row * size, anchor)]
        words.put(number(one.value, series.unit), places, bold=one is taken[-1])


def _dates(scale: Scale, size: float, day: Callable[[date], str]) -> Iterator[Shape]:
    days = (scale.last - scale.first).days
    y = BELOW * size
    if not days:
        yield Line(((0.5, y), (0.5, y + size * 0.4)), Ink.INK, size * 0.1, "flat")
        yield Label(day(scale.first), 0.5, y - size, "centre", size)
        return
    count = max(2, min(4, int(0.9 / wide_of("00 May 0000 ", size)), days + 1))
    for index in range(count):
        on = scale.first + timedelta(days=round(days * index / (count - 1)))
        x = scale.x(on)
        yield Line(((x, y), (x, y + size * 0.4)), Ink.INK, size * 0.1, "flat")
        anchor: Anchor = "left" if index == 0 else "right" if index == count - 1 else "centre"
        at: Point = {"left": (EDGE, y), "right": (1 - EDGE, y), "centre": (x, y)}[anchor]
        yield Label(day(on), at[0], y - size, anchor, size)


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
