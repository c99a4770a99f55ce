"""A small rasteriser for looking at figures: the four primitives on a Pillow canvas, four times oversampled."""

from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from app.figures import Circle, Figure, Ink, Label, Line, Polygon
from app.resources import asset

OVER = 4
PAPER = {
    Ink.INK: "#1c1b16", Ink.FAINT: "#77705f", Ink.PAPER: "#fbf7ee", Ink.ROPE: "#d9c796", Ink.ROPE_EDGE: "#8d7a45",
    Ink.MARK: "#b3141b", Ink.THREAD: "#1c1b16", Ink.METAL: "#8b8f94", Ink.TAPE: "#ffffff", Ink.HAND: "#efe3d3",
    Ink.SIGN_GREEN: "#0b6b3a", Ink.SIGN_YELLOW: "#f6b500", Ink.SIGN_BLUE: "#0a4ea2", Ink.SIGN_RED: "#b3141b",
    Ink.SIGN_WHITE: "#ffffff", Ink.SIGN_BLACK: "#000000",
}  # fmt: skip


def picture(figure: Figure, width: int, *, colours: dict[Ink, str] = PAPER) -> Image.Image:
    """Return the figure drawn on paper, `width` pixels wide."""
    scale = width * OVER
    image = Image.new("RGB", (scale, round(figure.height * scale)), colours[Ink.PAPER])
    draw = ImageDraw.Draw(image)

    def at(x: float, y: float) -> tuple[float, float]:
        return x * scale, (figure.height - y) * scale

    def stroke(points: list[tuple[float, float]], ink: Ink, wide: float, cap: str) -> None:
        thick = max(1, round(wide * scale))
        draw.line(points, colours[ink], thick)
        dots = points if cap == "round" else points[1:-1]
        for x, y in dots:
            draw.ellipse((x - thick / 2, y - thick / 2, x + thick / 2, y + thick / 2), colours[ink])

    for shape in figure.shapes:
        if isinstance(shape, Line):
            stroke([at(*point) for point in shape.points], shape.ink, shape.width, shape.cap)
        elif isinstance(shape, Polygon):
            points = [at(*point) for point in shape.points]
            if shape.fill:
                draw.polygon(points, colours[shape.fill])
            if shape.ink:
                stroke([*points, points[0]], shape.ink, shape.width, "round")
        elif isinstance(shape, Circle):
            x, y = at(shape.x, shape.y)
            r = shape.radius * scale
            if shape.fill:
                draw.ellipse((x - r, y - r, x + r, y + r), colours[shape.fill])
            if shape.ink:
                wide = shape.width * scale
                out = r + wide / 2
                draw.ellipse((x - out, y - out, x + out, y + out), outline=colours[shape.ink], width=round(wide))
        elif isinstance(shape, Label):
            name = "fonts/Inter-SemiBold.ttf" if shape.bold else "fonts/Inter-Regular.ttf"
            font = ImageFont.truetype(str(asset(name)), round(shape.size * scale))
            anchor = {"left": "lm", "centre": "mm", "right": "rm"}[shape.anchor]
            draw.text(at(shape.x, shape.y), shape.text, colours[shape.ink], font, anchor)
    return image.resize((width, round(figure.height * width)), Image.Resampling.LANCZOS)


def sheet(figures: list[Figure], width: int, columns: int, path: Path, *, grey: bool = False) -> None:
    """Save several figures side by side."""
    pictures = [picture(figure, width) for figure in figures]
    rows = [pictures[start : start + columns] for start in range(0, len(pictures), columns)]
    heights = [max(one.height for one in row) for row in rows]
    whole = Image.new("RGB", ((width + 10) * columns, sum(heights) + 10 * len(rows)), "#cdc8bc")
    y = 0
    for row, high in zip(rows, heights, strict=True):
        for index, one in enumerate(row):
            whole.paste(one, (index * (width + 10), y))
        y += high + 10
    (whole.convert("L") if grey else whole).save(path)
