"""Laying out a splice: offered lengths and the layout of a tuck-and-bury eye, for the person who makes it.

Common practice throughout, without a published source. Nothing here judges: a splice is judged by its own
instruction's length as recorded with it, and the three-fid layout only where the record says it was made so.
"""

from dataclasses import dataclass
from fractions import Fraction

from inspection_rules.measures.size import FID_CIRCUMFERENCES, fid_length, nominal_circumference, nominal_diameter
from inspection_rules.quantity import NotMeasured, decimal_text
from inspection_rules.record import Item
from inspection_rules.words import Construction, Fibre

RULE_OF_THUMB = "rule of thumb, common practice, no source: the splice's own instruction decides"
HOLLOW = (Construction.HOLLOW_BRAID_8, Construction.HOLLOW_BRAID_12)
OFFERED_DIAMETERS = {
    Fibre.HMPE: 72, Fibre.LCP: 72, Fibre.ARAMID: 72,
    Fibre.POLYESTER: 63, Fibre.NYLON: 63, Fibre.POLYPROPYLENE: 63,
}  # fmt: skip

# The three-fid layout of a tuck-and-bury eye in twelve-strand hollow braid. Common practice, no source.
FIDS_LAID_OUT = 3
FIDS_TAPERED = 1
STRANDS = 12
STRANDS_ENDED = 6
MARKED_EVERY = 2
SKIPPED_BEFORE_LAST = 2
LAST_MARK = 7
PASSES = 2
PAIRS_EACH_SIDE = 3
PICKS_BETWEEN = 4
CORD_OF_STRAND = (Fraction(1, 3), Fraction(1, 2))


@dataclass(frozen=True, slots=True)
class Offer:
    """A length to offer where a splice's instruction is being entered; never filled in by itself.

    Attributes:
        value: mm. working: how it comes about. label: what it is worth; shown wherever the value is.
    """

    value: Fraction
    working: str
    label: str = RULE_OF_THUMB


@dataclass(frozen=True, slots=True)
class LaidOut:
    """One figure of a layout.

    Attributes:
        name: what is laid out, counted or sewn. value: in `unit`; `upto` where it may lie between two.
        unit: "mm", or empty for a count, or "of a strand's diameter". working: how it comes about, in words.
    """

    name: str
    value: Fraction
    unit: str
    working: str
    upto: Fraction | None = None
    label: str = "common practice, no source"


def offered_bury(item: Item) -> Offer | None:
    """Return the bury to offer for a hollow braid of this fibre and size; None where the trade has no such rule."""
    d = nominal_diameter(item)
    times = OFFERED_DIAMETERS.get(item.fibre)
    if d is None or times is None or item.construction not in HOLLOW:
        return None
    value = times * d
    return Offer(value, f"{times} × nominal diameter {decimal_text(d)} mm = {decimal_text(value)} mm")


def three_fid_layout(item: Item) -> tuple[LaidOut, ...] | NotMeasured:
    """Return the layout of a tuck-and-bury eye in this rope, in the order of the work.

    Such a splice can always slip, and is inspected from time to time.

    Returns:
        The figures with their working, or why there are none: the method is one for twelve-strand hollow braid, and
        starts from the nominal circumference.
    """
    if item.construction is not Construction.HOLLOW_BRAID_12:
        return NotMeasured("this layout is one for twelve-strand hollow braid", attempted=True)
    circumference = nominal_circumference(item)
    if circumference is None:
        return NotMeasured("the nominal circumference is not on record", attempted=True, refer=True)
    return (*_lengths(circumference), *_taper(), *_passes(), _cord())


def _lengths(circumference: Fraction) -> tuple[LaidOut, ...]:
    fid = fid_length(circumference)
    around, one = _inches(circumference), _inches(fid)
    return (
        LaidOut("nominal circumference", circumference, "mm", f"{around}, by the trade table, never π times"),
        LaidOut("fid length", fid, "mm", f"{FID_CIRCUMFERENCES} × nominal circumference {around} = {one}"),
        LaidOut(
            "laid out from the end",
            FIDS_LAID_OUT * fid,
            "mm",
            f"{FIDS_LAID_OUT} × fid length {one} = {_inches(FIDS_LAID_OUT * fid)}",
        ),
        LaidOut("tapered, from the end", FIDS_TAPERED * fid, "mm", f"the first fid length, {one}"),
    )


def _taper() -> tuple[LaidOut, ...]:
    return (
        LaidOut(
            "pairs of strands from mark to mark",
            Fraction(MARKED_EVERY),
            "",
            f"mark every second pair along the taper; skip {SKIPPED_BEFORE_LAST} sets before mark {LAST_MARK}",
        ),
        LaidOut(
            "strands that end before the tail's end",
            Fraction(STRANDS_ENDED),
            "",
            f"one strand of each marked pair taken out, left and right in turn: {STRANDS_ENDED} of {STRANDS}",
        ),
    )


def _passes() -> tuple[LaidOut, ...]:
    return (
        LaidOut("passes through the rope", Fraction(PASSES), "", "then down the centre: the bury starts at the last"),
        LaidOut(
            "strand pairs on each side of the hole",
            Fraction(PAIRS_EACH_SIDE),
            "",
            f"{STRANDS} strands are {STRANDS // 2} pairs, half of them on each side",
        ),
        LaidOut("picks between the passes", Fraction(PICKS_BETWEEN), "", "counted along one line of the braid"),
    )


def _cord() -> LaidOut:
    least, most = CORD_OF_STRAND
    return LaidOut(
        "cord of the lock stitching",
        least,
        "of a strand's diameter",
        "braided nylon, no HMPE or aramid; it carries no load, and keeps a slack or handled splice from working apart. "
        "Other trade advice sews with the rope's own fibre: the splice's own instruction decides",
        upto=most,
    )


def _inches(mm: Fraction) -> str:
    return f"{decimal_text(mm / Fraction('25.4'), 3)} in"
