"""Which mending each of the trade's works can be.

A work that mends nothing a rule asks for still stands in the history; a hold that only wants a competent look
closes by that look, whatever was done before it.
"""

from collections.abc import Mapping
from types import MappingProxyType

from inspection_rules.words import Mend, Work

WORK_MENDS = frozenset({Mend.RE_IDENTIFY, Mend.RE_SPLICE, Mend.RE_STITCH, Mend.REPLACE_FITTING, Mend.REPAIR_AND_PROOF})
"""Mendings that want work on record before anything is released."""

MENDS: Mapping[Work, frozenset[Mend]] = MappingProxyType(
    {
        Work.RE_STITCHED: frozenset({Mend.RE_STITCH}),
        Work.CLEANED: frozenset({Mend.NOTHING, Mend.LOOK}),
        Work.ENDS_TURNED: frozenset({Mend.NOTHING}),
        # An eye that is cut off comes back by its re-splicing, which can say how much was cut.
        Work.CUT_BACK: frozenset({Mend.NOTHING, Mend.LOOK}),
        Work.RE_SPLICED: frozenset({Mend.RE_SPLICE}),
        Work.CHAFE_GEAR: frozenset({Mend.NOTHING, Mend.LOOK}),
        # A mooring tail is an item of its own, with its own inspections: changing it mends nothing of the line.
        Work.MOORING_TAIL: frozenset({Mend.NOTHING, Mend.LOOK}),
        Work.FITTING: frozenset({Mend.REPLACE_FITTING}),
        Work.RE_TAGGED: frozenset({Mend.RE_IDENTIFY}),
        Work.REPAIRED: frozenset({Mend.REPAIR_AND_PROOF}),
    }
)
"""What each work may be entered as mending."""
