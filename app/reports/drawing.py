"""Drawing figures into a PDF: the four primitives, in colours that stay apart when printed in grey."""

from collections.abc import Sequence

from fpdf import FPDF

from app.figures import Circle, Figure, Ink, Label, Line, Point, Polygon

# Sign colours near those of ISO 3864-4 as quoted by secondary sources; lightness set so that grey keeps them apart.
INKS = {
    Ink.INK: "#1a1a18", Ink.FAINT: "#6b675c", Ink.PAPER: "#ffffff", Ink.ROPE: "#e6d8ae", Ink.ROPE_EDGE: "#80703f",
    Ink.MARK: "#a5121a", Ink.THREAD: "#1a1a18", Ink.METAL: "#8b8f94", Ink.TAPE: "#ffffff", Ink.HAND: "#f3e9dd",
    Ink.SIGN_GREEN: "#0b6b3a", Ink.SIGN_YELLOW: "#f9a900", Ink.SIGN_BLUE: "#004a80", Ink.SIGN_RED: "#9b1c20",
    Ink.SIGN_WHITE: "#ffffff", Ink.SIGN_BLACK: "#000000",
}  # fmt: skip


def draw(pdf: FPDF, figure: Figure, x: float, y: float, width: float, font: str) -> None:
    """Draw a figure with its upper left corner at (x, y), `width` millimetres wide, labels in this font family."""

    def at(point: Point) -> Point:
        return x + point[0] * width, y + (figure.height - point[1]) * width

    for shape in figure.shapes:
        match shape:
            case Line():
                _stroke(pdf, [at(point) for point in shape.points], shape.ink, shape.width * width, shape.cap)
            case Polygon():
                points = [at(point) for point in shape.points]
                if shape.fill is not None:
                    pdf.set_fill_color(INKS[shape.fill])
                    pdf.polygon(points, style="F")
                if shape.ink is not None:
                    _stroke(pdf, [*points, points[0]], shape.ink, shape.width * width, "round")
            case Circle():
                cx, cy = at((shape.x, shape.y))
                if shape.fill is not None:
                    pdf.set_fill_color(INKS[shape.fill])
                    pdf.circle(cx, cy, shape.radius * width, style="F")
                if shape.ink is not None:
                    pdf.set_draw_color(INKS[shape.ink])
                    pdf.set_line_width(shape.width * width)
                    pdf.circle(cx, cy, shape.radius * width, style="D")
            case Label():
                _write(pdf, shape, at((shape.x, shape.y)), width, font)


def _stroke(pdf: FPDF, points: Sequence[Point], ink: Ink, wide: float, cap: str) -> None:
    with pdf.new_path(*points[0]) as path:
        path.style.stroke_color = INKS[ink]
        path.style.fill_color = None
        path.style.stroke_width = wide
        path.style.stroke_cap_style = "round" if cap == "round" else "butt"
        path.style.stroke_join_style = "round"
        path.style.auto_close = False
        for point in points[1:]:
            path.line_to(*point)


def _write(pdf: FPDF, label: Label, at: Point, width: float, font: str) -> None:
    pdf.set_font(font, "B" if label.bold else "", label.size * width * 72 / 25.4)
    pdf.set_text_color(INKS[label.ink])
    wide = pdf.get_string_width(label.text)
    left = at[0] - {"left": 0.0, "centre": wide / 2, "right": wide}[label.anchor]
    # Inter's capitals are 0.73 em high: half of that below the middle is the baseline.
    pdf.text(left, at[1] + label.size * width * 0.365, label.text)
