"""Laying out a splice: offered lengths and the layout of a tuck-and-bury eye, for the person who makes it.

Common practice without a published source, but where a figure names one. Nothing here judges: a splice is judged by
its own instruction's length as recorded with it, and the three-fid layout only where the record says it was made so.
"""

from dataclasses import dataclass
from fractions import Fraction

from inspection_rules.item import Item, Part
from inspection_rules.measures.size import FID_CIRCUMFERENCES, fid_length, nominal_circumference, nominal_diameter
from inspection_rules.quantity import NotMeasured, decimal_text
from inspection_rules.words import Construction, Fibre, Layout, SpliceKind

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

# Common practice, no source: the last quarter to third of a buried tail is tapered; stitched over 6 to 8 diameters.
TAPERED_OF_BURY = (Fraction(1, 4), Fraction(1, 3))
STITCHED_DIAMETERS = (6, 8)
BURIED_IN_BRAID = (SpliceKind.BURIED_EYE, SpliceKind.TUCK_AND_BURY_EYE, SpliceKind.LOCKED_EYE, SpliceKind.END_TO_END)
# 29 CFR 1910.184 (h)(3)(i) to (iii), for slings of laid three-strand rope; read, as in the packs.
TUCKS_BY_LAW = {Fibre.POLYESTER: (4, "(ii)"), Fibre.NYLON: (4, "(ii)"), Fibre.POLYPROPYLENE: (4, "(ii)"),
                Fibre.MANILA: (3, "(i)")}  # fmt: skip
TAIL_DIAMETERS, TAIL_FROM_AN_INCH = 6, Fraction(6) * Fraction("25.4")
MORE_TUCKS_OF_TAPERED = 2
LAW = "29 CFR 1910.184 (h)(3){clause}, for slings of laid rope"


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


def splice_layout(item: Item, part: Part) -> tuple[LaidOut, ...]:
    """Return what is known of the layout a splice should have, in the order of the work.

    What is on record comes from its instruction; a rule of thumb stands beside it and never in its place. Of a
    tuck-and-bury eye that says it is made so, the three-fid layout; nothing for an end without a splice.
    """
    circumference = nominal_circumference(item)
    if circumference is None or part.splice in (None, SpliceKind.PLAIN_END, SpliceKind.SEWN_EYE):
        return ()
    by_method = three_fid_layout(item) if part.layout is Layout.THREE_FID else ()
    if isinstance(by_method, tuple) and by_method:
        return (*by_method, *_recorded(part))
    around, fid = _inches(circumference), fid_length(circumference)
    found = [LaidOut("nominal circumference", circumference, "mm", f"{around}, by the trade table, never π times")]
    if part.splice in BURIED_IN_BRAID or part.splice is SpliceKind.DOUBLE_BRAID_EYE:
        working = f"{FID_CIRCUMFERENCES} × nominal circumference {around} = {_inches(fid)}"
        found.append(LaidOut("fid length", fid, "mm", working))
    found += _recorded(part)
    if part.splice in BURIED_IN_BRAID:
        found += _of_bury(item, part)
    found += _of_tucks(item, part)
    d = nominal_diameter(item)
    if part.lock_stitched and d is not None:
        least, most = STITCHED_DIAMETERS
        working = f"{least} to {most} × nominal diameter {decimal_text(d)} mm, from the throat"
        found += [LaidOut("length of the lock stitching", least * d, "mm", working, upto=most * d), _cord()]
    return tuple(found)


def _recorded(part: Part) -> list[LaidOut]:
    """What the record asks for, as its instruction says."""
    lengths = (("required bury", part.required_bury), ("required bury of the core's tail", part.required_core_bury))
    found = [
        LaidOut(name, length.to("mm"), "mm", f"{length.text}, as recorded", label=f"by {part.required_by}")
        for name, length in lengths
        if length is not None
    ]
    if part.marks_at is not None:
        working = f"{part.marks_at.text}, as recorded: on the tail leg and on the standing leg"
        found.append(LaidOut("marks from the throat", part.marks_at.to("mm"), "mm", working, label="on record"))
    return found


def _of_bury(item: Item, part: Part) -> list[LaidOut]:
    offer = offered_bury(item)
    found = []
    if offer is not None:
        found.append(LaidOut("bury by the rule of thumb", offer.value, "mm", offer.working, label=offer.label))
    bury = part.required_bury.to("mm") if part.required_bury is not None else offer.value if offer else None
    if bury is not None:
        least, most = TAPERED_OF_BURY
        working = f"the last {least} to {most} of a bury of {decimal_text(bury)} mm"
        found.append(LaidOut("tapered end of the tail", least * bury, "mm", working, upto=most * bury))
    return found


def _of_tucks(item: Item, part: Part) -> list[LaidOut]:
    """Tucks and tails of three-strand laid rope, the only ones that a published number is known for."""
    d, law = nominal_diameter(item), TUCKS_BY_LAW.get(item.fibre)
    short = part.splice is SpliceKind.TUCKED_SHORT_SPLICE
    if d is None or item.construction is not Construction.LAID_3 or not (short or part.splice is SpliceKind.TUCKED_EYE):
        return []
    found = []
    if law is not None:
        count, clause = law
        where = "on each side" if short else "after the throat"
        label = LAW.format(clause=clause)
        found.append(LaidOut("full tucks, at least", Fraction(count), "", f"{count} {where}", label=label))
    label = LAW.format(clause="(iii)")
    if part.tails_buried:
        working = "where the tails are tapered and buried instead of standing out"
        found.append(
            LaidOut("more tucks of the tapered tails", Fraction(MORE_TUCKS_OF_TAPERED), "", working, label=label)
        )
    else:
        thick = d >= Fraction("25.4")
        tail = TAIL_FROM_AN_INCH if thick else TAIL_DIAMETERS * d
        working = "6 in, from 1 in diameter" if thick else f"{TAIL_DIAMETERS} × nominal diameter {decimal_text(d)} mm"
        found.append(LaidOut("strand tails beyond the last tuck, at least", tail, "mm", working, label=label))
    return found


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
