"""The loupe: what lies under the finger, enlarged, in the corner of the picture that is farthest from it."""

from typing import TYPE_CHECKING

from kivy.graphics import Color, InstructionGroup, Line, Rectangle
from kivy.metrics import dp

from app.touch.theme import Theme

if TYPE_CHECKING:
    from app.touch.widgets.canvas import PictureCanvas

SIDE, SHARE = 136, 0.44  # dp, and of the picture's window at most
NEAR = 4.0  # times what the window shows
MOST = 6.0  # dp for a pixel of the picture


def draw_loupe(
    group: InstructionGroup, window: "PictureCanvas", theme: Theme, tint: tuple[float, float, float]
) -> None:
    """Draw the surroundings of the point being placed, with a cross through it."""
    side = min(dp(SIDE), SHARE * min(window.width, window.height))
    if side < dp(40):
        return
    x, y = window.pending
    px, py = window.on_screen((x, y))
    left = window.x + dp(6) if px > window.center_x else window.right - side - dp(6)
    bottom = window.y + dp(6) if py > window.center_y else window.top - side - dp(6)
    wide, high = window.picture_size
    unit = max(min(window.unit * NEAR, dp(MOST)), window.unit)
    half = side / unit / 2
    u0, u1, v0, v1 = (x - half) / wide, (x + half) / wide, (y - half) / high, (y + half) / high
    group.add(Color(*theme.colour("band")))
    group.add(Rectangle(pos=(left, bottom), size=(side, side)))
    # Only the part that lies inside the picture, so that nothing is made up beyond its edge.
    a, b, c, d = max(u0, 0.0), min(u1, 1.0), max(v0, 0.0), min(v1, 1.0)
    if b > a and d > c:
        at = left + (a - u0) / (u1 - u0) * side, bottom + (v1 - d) / (v1 - v0) * side
        size = (b - a) / (u1 - u0) * side, (d - c) / (v1 - v0) * side
        group.add(Color(*tint, 1))
        group.add(Rectangle(texture=window.texture, pos=at, size=size, tex_coords=(a, d, b, d, b, c, a, c)))
    cx, cy = left + side / 2, bottom + side / 2
    for role, width in (("paper", 2.0), ("mark", 0.8)):
        group.add(Color(*theme.colour(role)))
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            near, far = dp(5), side / 2 - dp(4)
            group.add(Line(points=(cx + dx * near, cy + dy * near, cx + dx * far, cy + dy * far), width=dp(width)))
    group.add(Color(*theme.colour("ink")))
    group.add(Line(rectangle=(left, bottom, side, side), width=dp(1.6)))
