"""A photograph to work on: seen whole or near, points tapped on it, what was marked drawn over it.

Coordinates are the picture's own pixels, from its upper left corner, y down. Everything a finger does can be done by
buttons as well: `larger`, `smaller`, `shift` and `nudge`.
"""

from collections.abc import Sequence
from typing import Any

from kivy.clock import Clock
from kivy.core.text import Label as Text
from kivy.graphics import Color, InstructionGroup, Line, Rectangle
from kivy.graphics.texture import Texture
from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.stencilview import StencilView

from app.figures import Figure
from app.touch.drawing import draw
from app.touch.markup import load_markup
from app.touch.theme import picture_tint
from app.touch.widgets.buttons import TapButton
from app.touch.widgets.loupe import draw_loupe

Point = tuple[float, float]
Pixels = tuple[tuple[int, int], bytes]
ZOOM, MOST_ZOOM = 1.6, 8.0  # a step; screen dp for a pixel of the picture, at most
SHIFT = 0.25  # of the window, a step
LEAST_STROKE = 4.0  # px between the points of a line by hand


def texture_of(pixels: Pixels) -> Texture:
    """Return decoded pixels as a texture; on the window's thread."""
    size, data = pixels
    texture = Texture.create(size=size, colorfmt="rgb")
    texture.blit_buffer(data, colorfmt="rgb", bufferfmt="ubyte")
    texture.flip_vertical()
    return texture


class PadButton(TapButton):
    """A small button beside a picture: its word shrinks rather than wraps."""


class PictureCanvas(StencilView):
    """Shows a picture; `on_spot` tells where it was tapped, `on_stroke` the line a finger drew.

    Attributes:
        texture: the picture. over, strength: another of the same size laid over it, and how strongly, 0 to 1.
        figure: what is drawn over the picture, in its proportions.
        pending: the point being placed, shown in the loupe; None when there is none.
        full_light: whether the picture keeps its own colours where the theme would dim it.
        caption: what stands in its corner, where there are two of them.
        places, draws: whether a finger places a point; whether it draws a line instead.
        unit: screen pixels for one pixel of the picture.
    """

    theme = ObjectProperty(None, allownone=True)
    texture = ObjectProperty(None, allownone=True)
    over = ObjectProperty(None, allownone=True)
    strength = NumericProperty(0.5)
    figure: Figure | None = ObjectProperty(None, allownone=True)
    pending = ObjectProperty(None, allownone=True)
    places = BooleanProperty(True)
    draws = BooleanProperty(False)
    caption = StringProperty("")
    full_light = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self.redraw = Clock.create_trigger(self._redraw, -1)
        self.register_event_type("on_spot")
        self.register_event_type("on_stroke")
        super().__init__(**kwargs)
        self._group = InstructionGroup()
        self.canvas.add(self._group)
        self._zoom = 1.0
        self._middle: Point | None = None
        self._stroke: list[Point] = []
        self.points: list[Point] = []
        self.outline: list[Point] = []
        self.lines: list[Sequence[Point]] = []
        self.bind(
            size=self.redraw, pos=self.redraw, texture=self.redraw, over=self.redraw, strength=self.redraw,
            figure=self.redraw, pending=self.redraw, caption=self.redraw, full_light=self.redraw,
        )  # fmt: skip
        self.fbind("theme", self._follow)
        self._follow()

    def _follow(self, *_changed: object) -> None:
        if self.theme is not None:
            self.theme.bind(name=self._recolour)
        self.redraw()

    def _recolour(self, *_changed: object) -> None:
        self.redraw()

    # --- where is what ---------------------------------------------------------------------------------

    @property
    def picture_size(self) -> tuple[int, int]:
        """Width and height of the picture, pixels; (1, 1) before there is one."""
        return tuple(self.texture.size) if self.texture is not None else (1, 1)

    @property
    def unit(self) -> float:
        """Screen pixels for one pixel of the picture."""
        wide, high = self.picture_size
        return min(self.width / wide, self.height / high) * self._zoom

    @property
    def middle(self) -> Point:
        """The pixel in the middle of the window."""
        wide, high = self.picture_size
        return self._middle or (wide / 2, high / 2)

    def on_screen(self, point: Point) -> Point:
        """Return where a pixel of the picture is on the screen."""
        (mx, my), unit = self.middle, self.unit
        return self.center_x + (point[0] - mx) * unit, self.center_y - (point[1] - my) * unit

    def in_picture(self, x: float, y: float) -> Point:
        """Return which pixel of the picture lies at a place on the screen, kept inside the picture."""
        (mx, my), unit = self.middle, self.unit
        wide, high = self.picture_size
        return (
            min(max(mx + (x - self.center_x) / unit, 0.0), float(wide)),
            min(max(my - (y - self.center_y) / unit, 0.0), float(high)),
        )

    # --- moved by buttons ------------------------------------------------------------------------------

    def larger(self) -> None:
        """Come nearer by a step, to the point being placed."""
        least = min(self.width / self.picture_size[0], self.height / self.picture_size[1])
        self._zoom = min(self._zoom * ZOOM, max(1.0, dp(MOST_ZOOM) / max(least, 1e-6)))
        self._look(self.pending or self.middle)

    def smaller(self) -> None:
        """Go back by a step, at most until the whole picture is seen."""
        self._zoom = max(1.0, self._zoom / ZOOM)
        self._look(self.middle)

    def whole(self) -> None:
        """Show the whole picture."""
        self._zoom, self._middle = 1.0, None
        self.redraw()

    def shift(self, right: int, down: int) -> None:
        """Look farther to one side, by a quarter of the window."""
        (mx, my), unit = self.middle, self.unit
        self._look((mx + right * SHIFT * self.width / unit, my + down * SHIFT * self.height / unit))

    def nudge(self, right: int, down: int) -> None:
        """Move the point being placed by one pixel of the picture."""
        if self.pending is None:
            return
        (x, y), (wide, high) = self.pending, self.picture_size
        self.pending = (min(max(x + right, 0.0), float(wide)), min(max(y + down, 0.0), float(high)))
        px, py = self.on_screen(self.pending)
        if not self.collide_point(px, py):
            self._look(self.pending)

    def _look(self, point: Point) -> None:
        (wide, high), unit = self.picture_size, self.unit
        half_x, half_y = self.width / unit / 2, self.height / unit / 2
        x = wide / 2 if 2 * half_x >= wide else min(max(point[0], half_x), wide - half_x)
        y = high / 2 if 2 * half_y >= high else min(max(point[1], half_y), high - half_y)
        self._middle = (x, y)
        self.redraw()

    # --- touched ---------------------------------------------------------------------------------------

    def on_spot(self, _x: float, _y: float) -> None:
        """A place of the picture was tapped."""

    def on_stroke(self, _points: list[Point]) -> None:
        """A line was drawn by hand."""

    def on_touch_down(self, touch: Any) -> bool:
        """Begin to place a point, or to draw."""
        if self.texture is None or not self.places or not self.collide_point(*touch.pos):
            return False
        touch.grab(self)
        self._to(touch, begin=True)
        return True

    def on_touch_move(self, touch: Any) -> bool:
        """Move the point with the finger."""
        if touch.grab_current is not self:
            return False
        self._to(touch, begin=False)
        return True

    def on_touch_up(self, touch: Any) -> bool:
        """The point stays where the finger left."""
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        if self.draws:
            stroke, self._stroke = self._stroke, []
            self.redraw()
            if len(stroke) > 1:
                self.dispatch("on_stroke", stroke)
        elif self.pending is not None:
            self.dispatch("on_spot", *self.pending)
        return True

    def _to(self, touch: Any, begin: bool) -> None:
        point = self.in_picture(*touch.pos)
        if not self.draws:
            self.pending = point
            return
        if begin:
            self._stroke = []
        last = self._stroke[-1] if self._stroke else None
        if last is None or abs(point[0] - last[0]) + abs(point[1] - last[1]) >= LEAST_STROKE / min(self.unit, 1.0):
            self._stroke.append(point)
            self.redraw()

    # --- drawn -----------------------------------------------------------------------------------------

    def _redraw(self, _dt: float) -> None:
        group = self._group
        group.clear()
        theme = self.theme
        if theme is None or self.width < 1 or self.height < 1:
            return
        group.add(Color(*theme.colour("band")))
        group.add(Rectangle(pos=self.pos, size=self.size))
        if self.texture is None:
            return
        wide, high = self.picture_size
        left, bottom = self.on_screen((0, high))
        size = (wide * self.unit, high * self.unit)
        tint = (1.0, 1.0, 1.0) if self.full_light else picture_tint(theme.name)[:3]
        group.add(Color(*tint, 1))
        group.add(Rectangle(texture=self.texture, pos=(left, bottom), size=size))
        if self.over is not None:
            group.add(Color(*tint, self.strength))
            group.add(Rectangle(texture=self.over, pos=(left, bottom), size=size))
        if self.figure is not None:
            draw(group, self.figure, left, bottom, size[0], theme)
        if self.outline:
            self._line([*self.outline, self.outline[0]])
        for line in [*self.lines, self._stroke]:
            if len(line) > 1:
                self._line(line)
        for number, point in enumerate(self.points, 1):
            self._point(point, str(number))
        if self.caption:
            self._write_caption()
        if self.pending is not None:
            self._cross(self.pending)
            draw_loupe(group, self, theme, tint)

    def _write_caption(self) -> None:
        text = Text(
            text=self.caption, font_name="Inter", font_size=16 * self.theme.head_unit, bold=True, color=(1, 1, 1, 1)
        )
        text.refresh()
        wide, high = text.texture.size
        pad = dp(6)
        group, at = self._group, (self.x + pad, self.top - high - 2 * pad)
        group.add(Color(*self.theme.colour("paper")))
        group.add(Rectangle(pos=(at[0] - pad, at[1] - pad / 2), size=(wide + 2 * pad, high + pad)))
        group.add(Color(*self.theme.colour("ink")))
        group.add(Rectangle(texture=text.texture, pos=at, size=(wide, high)))
        group.add(Line(points=(self.x, self.top, self.right, self.top), width=dp(1.2)))

    def _line(self, points: Sequence[Point]) -> None:
        flat = [value for point in points for value in self.on_screen(point)]
        for role, width in (("paper", 2.6), ("mark", 1.3)):
            self._group.add(Color(*self.theme.colour(role)))
            self._group.add(Line(points=flat, width=dp(width), joint="round"))

    def _point(self, point: Point, _number: str) -> None:
        x, y = self.on_screen(point)
        for role, width in (("paper", 2.6), ("mark", 1.3)):
            self._group.add(Color(*self.theme.colour(role)))
            self._group.add(Line(circle=(x, y, dp(7)), width=dp(width)))
            self._group.add(Line(points=(x - dp(2), y, x + dp(2), y), width=dp(width) / 2))
            self._group.add(Line(points=(x, y - dp(2), x, y + dp(2)), width=dp(width) / 2))

    def _cross(self, point: Point) -> None:
        x, y = self.on_screen(point)
        for role, width in (("paper", 2.6), ("mark", 1.2)):
            self._group.add(Color(*self.theme.colour(role)))
            for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)):  # open in the middle: what is aimed at stays in sight
                near, far = dp(6), dp(24)
                self._group.add(
                    Line(points=(x + dx * near, y + dy * near, x + dx * far, y + dy * far), width=dp(width))
                )


load_markup(__file__)
