"""Drawing figures into a PDF: the four primitives, in colours that stay apart when printed in grey."""

from collections.abc import Callable

from fpdf import FPDF
from fpdf.drawing import PaintedPath

from app.figures import Circle, Figure, Ink, Label, Line, Point, Polygon

# Sign colours near those of ISO 3864-4 as quoted by secondary sources; lightness set so that grey keeps them apart.
INKS = {
    Ink.INK: "#1a1a18", Ink.FAINT: "#6b675c", Ink.PAPER: "#ffffff", Ink.ROPE: "#e6d8ae", Ink.ROPE_EDGE: "#80703f",
    Ink.MARK: "#a5121a", Ink.THREAD: "#1a1a18", Ink.METAL: "#8b8f94", Ink.TAPE: "#ffffff", Ink.HAND: "#f3e9dd",
    Ink.SIGN_GREEN: "#0b6b3a", Ink.SIGN_YELLOW: "#f9a900", Ink.SIGN_BLUE: "#004a80", Ink.SIGN_RED: "#9b1c20",
    Ink.SIGN_WHITE: "#ffffff", Ink.SIGN_BLACK: "#000000",
}  # fmt: skip


def draw(pdf: FPDF, figure: Figure, x: float, y: float, width: float, font: str) -> None:
    """Draw a figure with its upper left corner at (x, y), `width` millimetres wide, labels in this font family.

    Its labels are written last, above all other shapes.
    """

    def at(point: Point) -> Point:
        return x + point[0] * width, y + (figure.height - point[1]) * width

    labels: list[Label] = []
    # One context for all paths: opening one costs more than the path in it.
    with pdf.drawing_context() as paths:
        for shape in figure.shapes:
            if isinstance(shape, Label):
                labels.append(shape)
            else:
                paths.add_item(_path(shape, at, width), False)  # drawn once, so not copied
    for label in labels:
        _write(pdf, label, at((label.x, label.y)), width, font)


def _path(shape: Line | Polygon | Circle, at: Callable[[Point], Point], scale: float) -> PaintedPath:
    if isinstance(shape, Circle):
        path = PaintedPath()
        path.circle(*at((shape.x, shape.y)), shape.radius * scale)
    else:
        points = [at(point) for point in shape.points]
        path = PaintedPath(*points[0])
        for point in points[1:]:
            path.line_to(*point)
    fill = None if isinstance(shape, Line) else shape.fill
    path.style.fill_color = None if fill is None else INKS[fill]
    path.style.stroke_color = None if shape.ink is None else INKS[shape.ink]
    path.style.stroke_width = shape.width * scale
    path.style.stroke_join_style = "round"
    path.style.stroke_cap_style = "butt" if isinstance(shape, Line) and shape.cap == "flat" else "round"
    path.style.auto_close = not isinstance(shape, Line)
    return path


def _write(pdf: FPDF, label: Label, at: Point, width: float, font: str) -> None:
    pdf.set_font(font, "B" if label.bold else "", label.size * width * 72 / 25.4)
    pdf.set_text_color(INKS[label.ink])
    wide = pdf.get_string_width(label.text)
    left = at[0] - {"left": 0.0, "centre": wide / 2, "right": wide}[label.anchor]
    # Inter's capitals are 0.73 em high: half of that below the middle is the baseline.
    pdf.text(left, at[1] + label.size * width * 0.365, label.text)
