"""Figures on a Kivy canvas: each primitive as a graphics instruction, each ink as the theme's colour."""

from typing import Any

from kivy.clock import Clock
from kivy.core.text import Label as Text
from kivy.graphics import Color, Ellipse, InstructionGroup, Mesh, PopMatrix, PushMatrix, Rectangle, Translate
from kivy.graphics import Line as Stroke
from kivy.metrics import dp
from kivy.properties import ObjectProperty
from kivy.uix.widget import Widget

from app.figures import Circle, Figure, Ink, Label, Line, Polygon, Shape
from app.language import drawn
from app.touch.theme import Theme

SMALLEST_TYPE = 11  # dp; a drawing does not grow with the text, so its words must not either


def draw(group: InstructionGroup, figure: Figure, x: float, y: float, width: float, theme: Theme) -> None:
    """Add a figure to `group`, its box's lower left corner at (x, y), its box `width` pixels wide."""
    for shape in figure.shapes:
        _draw_shape(group, shape, x, y, width, theme)


def _draw_shape(group: InstructionGroup, shape: Shape, x: float, y: float, width: float, theme: Theme) -> None:
    def at(points: tuple[tuple[float, float], ...]) -> list[float]:
        return [value for px, py in points for value in (x + px * width, y + py * width)]

    match shape:
        case Line():
            _stroke(group, theme, shape.ink, shape.width * width, points=at(shape.points), cap=_cap(shape.cap))
        case Polygon():
            flat = at(shape.points)
            if shape.fill is not None:
                vertices = [v for n in range(0, len(flat), 2) for v in (flat[n], flat[n + 1], 0, 0)]
                group.add(_ink(theme, shape.fill))
                group.add(Mesh(vertices=vertices, indices=list(range(len(flat) // 2)), mode="triangle_fan"))
            if shape.ink is not None:
                _stroke(group, theme, shape.ink, shape.width * width, points=flat, close=True)
        case Circle():
            cx, cy, radius = x + shape.x * width, y + shape.y * width, shape.radius * width
            if shape.fill is not None:
                group.add(_ink(theme, shape.fill))
                group.add(Ellipse(pos=(cx - radius, cy - radius), size=(2 * radius, 2 * radius)))
            if shape.ink is not None:
                _stroke(group, theme, shape.ink, shape.width * width, circle=(cx, cy, radius))
        case Label():
            _write(group, shape, x, y, width, theme)


def _stroke(group: InstructionGroup, theme: Theme, ink: Ink, width: float, **what: Any) -> None:
    group.add(_ink(theme, ink))
    # Kivy's width is half the stroke's; at exactly 1 it falls back to a hair line.
    group.add(Stroke(width=max(width / 2, 0.6) * 1.0001, joint="round", **what))


def _cap(cap: str) -> str:
    return "none" if cap == "flat" else "round"


def _write(group: InstructionGroup, label: Label, x: float, y: float, width: float, theme: Theme) -> None:
    size = max(label.size * width, dp(SMALLEST_TYPE))
    text = Text(text=drawn(label.text), font_name="Inter", font_size=size, bold=label.bold, color=(1, 1, 1, 1))
    text.refresh()
    wide, high = text.texture.size
    left = {"left": 0.0, "centre": wide / 2, "right": float(wide)}[label.anchor]
    # The type has a least size, so a long label could leave its box: it is pushed back in.
    place = min(max(x + label.x * width - left, x), x + width - wide)
    group.add(_ink(theme, label.ink))
    group.add(Rectangle(texture=text.texture, pos=(place, y + label.y * width - high / 2), size=text.texture.size))


def _ink(theme: Theme, ink: Ink) -> Color:
    return Color(*theme.colour(ink.value.replace(" ", "_")))


class FigureView(Widget):
    """Shows one figure, as large as the widget allows, in the middle of it."""

    figure = ObjectProperty(None, allownone=True)
    theme = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: Any) -> None:
        self.redraw = Clock.create_trigger(self._redraw, -1)
        super().__init__(**kwargs)
        self._group = InstructionGroup()
        self._place = Translate(*self.pos, 0)
        for instruction in (PushMatrix(), self._place, self._group, PopMatrix()):
            self.canvas.add(instruction)
        self.bind(figure=self.redraw, pos=self._move, size=self.redraw, parent=self.redraw)
        self.fbind("theme", self._follow)
        self._follow()

    def _follow(self, *_changed: object) -> None:
        if self.theme is not None:
            self.theme.bind(name=self._recolour)
        self.redraw()

    def _recolour(self, *_changed: object) -> None:
        # A method, since the theme holds it weakly; bound to the trigger, it would keep every view alive.
        self.redraw()

    def _move(self, *_changed: object) -> None:
        # Moved, not drawn anew: while a page grows, every figure on it moves again and again.
        self._place.xy = self.pos

    def _redraw(self, _dt: float) -> None:
        """Draw anew for the present size and theme; one that was taken off the screen waits."""
        if self.parent is None:
            return
        self._group.clear()
        if self.figure is None or self.theme is None or self.width < 1 or self.height < 1:
            return
        width = min(self.width, self.height / self.figure.height)
        left, bottom = (self.width - width) / 2, (self.height - width * self.figure.height) / 2
        draw(self._group, self.figure, left, bottom, width, self.theme)
