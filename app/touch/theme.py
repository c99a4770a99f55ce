"""The three themes: paper for daylight, night that keeps dark adaptation, glare for full sun.

A theme gives every colour by its role. Shape and word carry every sign, so a theme may dim its colour.
"""

import gc
from collections.abc import Iterator, Mapping
from contextlib import contextmanager

from kivy.event import EventDispatcher
from kivy.metrics import Metrics
from kivy.properties import ColorProperty, NumericProperty, OptionProperty
from kivy.utils import get_color_from_hex

SMALLEST_TEXT, LARGEST_TEXT = 0.85, 2.0
MOST_HEAD = 1.3
WIDEST_LETTER = 0.62  # mean width of a letter in bold words of this typeface, in type sizes, from above
CAPITAL = 0.16  # how much wider a capital is, in those
SMALLEST_TYPE = 12

PAPER: Mapping[str, str] = {
    "paper": "#FBF7EE",
    "card": "#FFFFFF",
    "band": "#EFE7D7",
    "ink": "#1B1914",
    "quiet": "#403B32",
    "line": "#6F685A",
    "pressed": "#DFD4BD",
    "head": "#1B1914",
    "head_ink": "#FFFFFF",
    "head_quiet": "#DDD5C4",
    "solid": "#1B1914",
    "solid_ink": "#FFFFFF",
    "focus": "#0B57D0",
    "rope": "#D8C497",
    "rope_edge": "#7A6638",
    "mark": "#B3001B",
    "thread": "#1B1914",
    "metal": "#6F6F6F",
    "faint": "#6F685A",
    "tape": "#F2D46B",
    "hand": "#E8CDB5",
    "sign_green": "#00693E",
    "sign_yellow": "#F5B400",
    "sign_blue": "#0A4DA0",
    "sign_red": "#C1001F",
    "sign_black": "#1B1914",
    "sign_white": "#FFFFFF",
}
NIGHT: Mapping[str, str] = {
    "paper": "#0B0600",
    "card": "#150C02",
    "band": "#1C1104",
    "ink": "#E69A32",
    "quiet": "#E0982F",
    "line": "#8F5F1F",
    "pressed": "#231504",
    "head": "#1C1104",
    "head_ink": "#E69A32",
    "head_quiet": "#DB922F",
    "solid": "#2E1C06",
    "solid_ink": "#F2AC4B",
    "focus": "#FFC36B",
    "rope": "#4D3512",
    "rope_edge": "#9A6A26",
    "mark": "#E0602A",
    "thread": "#E69A32",
    "metal": "#8F5F1F",
    "faint": "#8F5F1F",
    "tape": "#6B4C10",
    "hand": "#3F2A12",
    "sign_green": "#1D3A12",
    "sign_yellow": "#C98A16",
    "sign_blue": "#22304F",
    "sign_red": "#5A1205",
    "sign_black": "#0B0600",
    "sign_white": "#E69A32",
}
GLARE: Mapping[str, str] = {
    "paper": "#FFFFFF",
    "card": "#FFFFFF",
    "band": "#FFFFFF",
    "ink": "#000000",
    "quiet": "#000000",
    "line": "#000000",
    "pressed": "#BFBFBF",
    "head": "#000000",
    "head_ink": "#FFFFFF",
    "head_quiet": "#FFFFFF",
    "solid": "#000000",
    "solid_ink": "#FFFFFF",
    "focus": "#0037B3",
    "rope": "#E6E6E6",
    "rope_edge": "#000000",
    "mark": "#B00000",
    "thread": "#000000",
    "metal": "#404040",
    "faint": "#000000",
    "tape": "#FFFFFF",
    "hand": "#F2F2F2",
    "sign_green": "#004D2C",
    "sign_yellow": "#FFC400",
    "sign_blue": "#003A8C",
    "sign_red": "#B00000",
    "sign_black": "#000000",
    "sign_white": "#FFFFFF",
}
TABLES: Mapping[str, Mapping[str, str]] = {"paper": PAPER, "night": NIGHT, "glare": GLARE}
_COLOURS: Mapping[str, Mapping[str, tuple[float, ...]]] = {
    name: {role: tuple(get_color_from_hex(value)) for role, value in table.items()} for name, table in TABLES.items()
}
NIGHT_PICTURES = (0.9, 0.62, 0.3, 1.0)  # what a photograph is dimmed by: a white one would end what the eye got used to
STROKES: Mapping[str, float] = {"paper": 1.6, "night": 1.6, "glare": 3.0}


def picture_tint(theme: str) -> tuple[float, float, float, float]:
    """Return what a photograph's colours are multiplied by under a theme."""
    return NIGHT_PICTURES if theme == "night" else (1.0, 1.0, 1.0, 1.0)


class Theme(EventDispatcher):
    """The colours and strokes in use, by role; screens bind to them, so a change is seen at once.

    `stroke` is the width of an outline in dp. `text_scale` multiplies every text size, from 0.85 to 2.
    `type_unit` is one scaled pixel in pixels; `head_unit` the same for the heads of pages, which grow less,
    since they stay in place while everything else scrolls.
    """

    name = OptionProperty("paper", options=list(TABLES))
    text_scale = NumericProperty(1.0)
    stroke = NumericProperty(STROKES["paper"])
    type_unit = NumericProperty(1.0)
    head_unit = NumericProperty(1.0)
    paper = ColorProperty(PAPER["paper"])
    card = ColorProperty(PAPER["card"])
    band = ColorProperty(PAPER["band"])
    ink = ColorProperty(PAPER["ink"])
    quiet = ColorProperty(PAPER["quiet"])
    line = ColorProperty(PAPER["line"])
    pressed = ColorProperty(PAPER["pressed"])
    solid = ColorProperty(PAPER["solid"])
    solid_ink = ColorProperty(PAPER["solid_ink"])
    head = ColorProperty(PAPER["head"])
    head_ink = ColorProperty(PAPER["head_ink"])
    head_quiet = ColorProperty(PAPER["head_quiet"])
    focus = ColorProperty(PAPER["focus"])

    def __init__(self, name: str = "paper", text_scale: float = 1.0) -> None:
        super().__init__()
        self.name = name
        self.text_scale = text_scale
        self._take_colours()
        self._take_scale()
        self.bind(name=self._use, text_scale=self._scale)

    def colour(self, role: str) -> tuple[float, ...]:
        """Return the RGBA colour of a role, each part from 0 to 1.

        Raises:
            KeyError: no theme knows the role.
        """
        return _COLOURS[self.name][role]

    def _use(self, *_changed: object) -> None:
        with _no_widget_dies():
            self._take_colours()

    def _scale(self, *_changed: object) -> None:
        with _no_widget_dies():
            self._take_scale()

    def _take_colours(self) -> None:
        for role, value in TABLES[self.name].items():
            if hasattr(self, role):
                setattr(self, role, value)
        self.stroke = STROKES[self.name]

    def _take_scale(self) -> None:
        scale = min(max(self.text_scale, SMALLEST_TEXT), LARGEST_TEXT)
        Metrics.fontscale = scale
        self.type_unit = Metrics.dp * scale
        self.head_unit = Metrics.dp * min(scale, MOST_HEAD)


@contextmanager
def _no_widget_dies() -> Iterator[None]:
    """Collect widgets that are gone before a change, and none during it.

    Every widget's kv rules hang on the theme. One that were collected while its rules are still to be called
    would raise a ReferenceError there.
    """
    gc.collect()
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


def fitting(text: str, width: float, size: float) -> float:
    """Return the type size, at most `size` px, at which the longest word of a text fits into a width."""
    longest = max((len(word) + CAPITAL * sum(map(str.isupper, word)) for word in text.split()), default=0)
    if width < 10 or not longest:
        return size
    return max(min(size, width / (WIDEST_LETTER * longest)), SMALLEST_TYPE * Metrics.dp)
