"""Web slings and webbing: edge cuts, abrasion of both faces, damaged warp and weft.

What a limit allows here is told in parts of the web's width and thickness, which stand in the item's record; the
limits themselves are the packs'. Where the kind of a damage decides which limit holds for it (warp damaged shallow or
deep), doubt counts to the stricter side.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.measures.damage import Damage, damages_read, worst_read
from inspection_rules.quantity import Measured, NotMeasured, decimal_text

ABRASION = ("web_abrasion_a", "web_abrasion_b")
WARP = ("warp_width", "warp_edge", "warp_depth")
WEFT = ("weft_width", "weft_length")
SHALLOW_PERCENT = 50
DOUBT_K = 1.645
LENGTH_PER_WIDTH = 8  # weft: two web widths long and a quarter of one wide are the two limits that belong together


@dataclass(frozen=True, slots=True)
class Warp:
    """One place of damaged warp: its width across the web and its distance to the nearer edge in mm, its depth in %."""

    place: Fraction | None
    width: Fraction
    edge: Fraction
    depth: Fraction
    deep: bool


def edge_cut(case: Case, part: str) -> Measured | NotMeasured:
    """Return the length of the longest cut in an edge, mm, in from the edge."""
    return worst_read(case, part, "edge_cut", "mm")


def edge_cuts(case: Case, part: str) -> list[Damage]:
    """Return each edge cut, mm."""
    return damages_read(case, part, "edge_cut", "mm")


def web_abrasion(case: Case, part: str) -> Measured | NotMeasured:
    """Return how deep both faces together are worn, in per cent of the web's thickness.

    The worst places of the two faces are added wherever they lie: a web is as thin as both leave it.
    """
    faces = [worst_read(case, part, name, "%") for name in ABRASION]
    read = [face for face in faces if isinstance(face, Measured)]
    if not read:
        return NotMeasured("how deep the faces are worn was not read")
    if len(read) < len(faces):
        return NotMeasured("only one face's wear was read; read both", attempted=True)
    return Measured(
        value=sum((face.value for face in read), Fraction(0)),
        unit="%",
        u=math.hypot(*(face.u for face in read)),
        u_source=read[0].u_source,
        how=f"face A {decimal_text(read[0].value)} %, face B {decimal_text(read[1].value)} %",
    )


def abrasions(case: Case, part: str) -> list[Damage]:
    """Return each worn place of either face, face A first, in per cent of the thickness."""
    return [damage for name in ABRASION for damage in damages_read(case, part, name, "%")]


def warp_shallow(case: Case, part: str) -> Measured | NotMeasured:
    """Return the width, mm, of the widest place where the warp is surely damaged to no more than half of the depth."""
    return _widest(case, part, lambda warp: not warp.deep)


def warp_deep(case: Case, part: str) -> Measured | NotMeasured:
    """Return the width, mm, of the widest place where the warp may be damaged deeper than half of the thickness."""
    return _widest(case, part, lambda warp: warp.deep)


def shallow_warps(case: Case, part: str) -> list[Damage]:
    """Return each place of damaged warp, mm wide; 0 for the deep ones."""
    return _widths(case, part, lambda warp: not warp.deep)


def deep_warps(case: Case, part: str) -> list[Damage]:
    """Return each place of damaged warp, mm wide; 0 for the shallow ones."""
    return _widths(case, part, lambda warp: warp.deep)


def warp_edge(case: Case, part: str) -> Measured | NotMeasured:
    """Return the least distance of damaged warp to an edge, mm."""
    warps = _warps(case, part)
    if isinstance(warps, NotMeasured):
        return warps
    return _read(case, part, "warp_edge", min(warp.edge for warp in warps), "the nearest" if warps[1:] else "")


def weft_damage(case: Case, part: str) -> Measured | NotMeasured:
    """Return the size of the worst weft damage, mm: its width, or an eighth of its length where that is less.

    Such damage condemns when the warp parts over more than a quarter of the web's width and is longer than two
    widths: both at once, which is when the lesser of its width and an eighth of its length exceeds that quarter.
    """
    sizes = _aligned(case, part, WEFT)
    if isinstance(sizes, NotMeasured):
        return sizes
    width, length = max(sizes, key=lambda size: min(size[0], size[1] / LENGTH_PER_WIDTH))
    how = f"parted {decimal_text(width)} mm wide and {decimal_text(length)} mm long, an eighth of which counts"
    measured = _read(case, part, "weft_width", min(width, length / LENGTH_PER_WIDTH), how)
    return replace(measured, u=_weft_u(case, part)) if isinstance(measured, Measured) else measured


def weft_damages(case: Case, part: str) -> list[Damage]:
    """Return each place of damaged weft, mm, as `weft_damage` reckons it."""
    sizes = _aligned(case, part, WEFT)
    if isinstance(sizes, NotMeasured):
        return []
    u = _weft_u(case, part)
    places = [damage.place for damage in damages_read(case, part, "weft_width", "mm")]
    return [
        Damage(place, min(width, length / LENGTH_PER_WIDTH), u)
        for place, (width, length) in zip(places, sizes, strict=True)
    ]


def _weft_u(case: Case, part: str) -> float:
    """The coarser of the two, so that a worse damage never comes out better for being bounded by the finer one."""
    width, length = (damages_read(case, part, name, "mm")[0].u for name in WEFT)
    return max(width, length / LENGTH_PER_WIDTH)


def _warps(case: Case, part: str) -> list[Warp] | NotMeasured:
    sizes = _aligned(case, part, WARP)
    if isinstance(sizes, NotMeasured):
        return sizes
    widths = damages_read(case, part, "warp_width", "mm")
    depths = damages_read(case, part, "warp_depth", "%")
    return [
        Warp(found.place, width, edge, depth, float(depth) + DOUBT_K * deep.u > SHALLOW_PERCENT)
        for found, deep, (width, edge, depth) in zip(widths, depths, sizes, strict=True)
    ]


def _aligned(case: Case, part: str, names: tuple[str, ...]) -> list[tuple[Fraction, ...]] | NotMeasured:
    """The damages that several readings describe together, one value of each reading for each damage."""
    columns = [damages_read(case, part, name, "%" if name == "warp_depth" else "mm") for name in names]
    if not any(columns):
        return NotMeasured("the damage was not read")
    if len({len(column) for column in columns}) > 1:
        words = ", ".join(name.replace("_", " ") for name in names)
        return NotMeasured(f"each damage needs one value of each: {words}", attempted=True)
    return [tuple(damage.size for damage in row) for row in zip(*columns, strict=True)]


def _widest(case: Case, part: str, of: Callable[[Warp], bool]) -> Measured | NotMeasured:
    warps = _warps(case, part)
    if isinstance(warps, NotMeasured):
        return warps
    meant = [warp for warp in warps if of(warp)]
    if not meant:
        return NotMeasured("no damage of this depth was read")
    widest = max(meant, key=lambda warp: warp.width)
    return _read(case, part, "warp_width", widest.width, f"{decimal_text(widest.depth)} % deep")


def _read(case: Case, part: str, observation: str, value: Fraction, how: str) -> Measured | NotMeasured:
    """One damage's size out of a reading, with that reading's doubt."""
    read = worst_read(case, part, observation, "mm")
    return replace(read, value=value, how=how) if isinstance(read, Measured) else read


def _widths(case: Case, part: str, of: Callable[[Warp], bool]) -> list[Damage]:
    warps = _warps(case, part)
    if isinstance(warps, NotMeasured):
        return []
    widths = damages_read(case, part, "warp_width", "mm")
    return [
        found if of(warp) else Damage(found.place, Fraction(0), 0.0) for found, warp in zip(widths, warps, strict=True)
    ]
