"""`throatmark photo-length`: a length from a photograph, on the command line."""

import argparse
import json
from dataclasses import replace
from pathlib import Path

from inspection_rules.measures.photo_length import ID1_MM, U_CORNER_PX, U_POINT_PX, PhotoLength, recorded_u
from inspection_rules.measures.plane import Point
from inspection_rules.rulings.numbers import good as good_to

CORNERS = ("x1,y1", "x2,y2", "x3,y3", "x4,y4")
MM_PER = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
AS_GIVEN = (
    f"The card's corners are taken as given, each good to {U_CORNER_PX:g} pixel: its edges are not looked for in the "
    f"picture. The points of the path are taken as good to {U_POINT_PX:g} pixel."
)
ON_THE_PLANE = (
    "Not corrected: this is the length on the card's own plane. A rope that lies on it is nearer to the camera and "
    "reads long, by its diameter over the camera's distance: a 24 mm rope by 4 % from 600 mm, by 9 % from 300 mm. The "
    "doubt told does not hold that. Give --rope-mm, and --camera-mm where the file tells no focal length."
)
MOST_MM, MOST = 100_000.0, 1e9


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    parser.add_argument("photo", type=Path, metavar="PHOTO")
    parser.add_argument(
        "--card",
        nargs=4,
        type=_point,
        required=True,
        metavar=CORNERS,
        help="the card's corners in pixels of the upright picture, one way round, the first two along its width; "
        "where the corners are rounded, where the edges would meet",
    )
    parser.add_argument(
        "--card-size",
        type=_size,
        default=ID1_MM,
        metavar="WxH",
        help="the card's sides, in mm unless a unit is given (default: a blank ID-1 card, 85.60x53.98)",
    )
    parser.add_argument(
        "--path", nargs="+", type=_point, required=True, metavar="x,y", help="two or more points along the rope"
    )
    parser.add_argument(
        "--camera-mm",
        type=_positive,
        metavar="Z",
        help="the camera's distance from the card, mm (default: from the focal length in the file; where it tells "
        "none, all that is possible is counted as doubt)",
    )
    parser.add_argument(
        "--rope-mm",
        type=_not_negative,
        metavar="D",
        help="diameter of the rope whose top is measured, mm (default: the length is told as it lies on the card's own "
        "plane, where a rope reads long)",
    )
    parser.add_argument(
        "--json",
        action="store_true",
        help="print length_mm, u_mm, good_to_mm, reading (whether it is certain enough for one) and warnings as JSON",
    )


def run(options: argparse.Namespace) -> int:
    """Measure and print.

    Raises:
        PhotoRefusedError: no length can be taken; the message says why.
    """
    from app.photos.length import length_in_file  # Pillow takes a while to load

    on_the_plane = options.rope_mm is None
    found = length_in_file(
        options.photo,
        options.card,
        options.path,
        card_mm=options.card_size,
        camera_mm=options.camera_mm,
        rope_mm=0.0 if on_the_plane else options.rope_mm,
    )
    if on_the_plane:
        found = replace(found, warnings=(ON_THE_PLANE, *found.warnings))
    print(_as_json(found) if options.json else _as_text(found))
    return 0


def _as_json(found: PhotoLength) -> str:
    said = {
        "length_mm": round(found.length_mm, 3),
        "u_mm": round(found.u_mm, 3),
        "good_to_mm": float(good_to(recorded_u(found.u_mm))),
        "reading": found.reading,
        "warnings": list(found.warnings),
    }
    return json.dumps(said, ensure_ascii=False)


def _as_text(found: PhotoLength) -> str:
    u = recorded_u(found.u_mm)
    lines = [
        f"{found.length_mm:.1f} mm, good to ± {good_to(u)} mm (1.645 u; standard uncertainty u {u:.1f} mm)",
        AS_GIVEN,
    ]
    lines += [f"note: {one}" for one in found.warnings]
    if found.reading:
        lines.append("A photograph alone never passes or removes an item: it is one reading with its doubt.")
    return "\n".join(lines)


def _point(text: str) -> Point:
    x, y = _two(text, ",", "a point is written x,y in pixels, for instance 1485.7,1328.6")
    return x, y


def _size(text: str) -> tuple[float, float]:
    plain = text.strip().lower().replace("×", "x")
    unit = next((name for name in ("mm", "cm", "in", "m") if plain.endswith(name)), "")
    factor = MM_PER[unit or "mm"]
    one, other = _two(plain.removesuffix(unit), "x", "a size is written WxH, for instance 85.60x53.98 or 6x4in")
    sides = one * factor, other * factor
    if min(sides) <= 0 or max(sides) > MOST_MM:
        raise argparse.ArgumentTypeError(f"'{text}' is no card's size")
    return sides


def _not_negative(text: str) -> float:
    return 0.0 if _number(text, f"'{text}' is no length in mm") == 0 else _positive(text)


def _positive(text: str) -> float:
    value = _number(text, f"'{text}' is no length in mm")
    if not 0 < value <= MOST_MM:
        raise argparse.ArgumentTypeError(f"'{text}' is no length in mm above zero")
    return value


def _two(text: str, between: str, otherwise: str) -> tuple[float, float]:
    parts = text.split(between)
    if len(parts) != 2:
        raise argparse.ArgumentTypeError(f"'{text}': {otherwise}")
    one, other = (_number(part, f"'{text}': {otherwise}") for part in parts)
    return one, other


def _number(text: str, otherwise: str) -> float:
    try:
        value = float(text)
    except ValueError:
        raise argparse.ArgumentTypeError(otherwise) from None
    if not abs(value) < MOST:
        raise argparse.ArgumentTypeError(otherwise)
    return value
