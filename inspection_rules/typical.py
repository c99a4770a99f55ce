"""One plain item of every kind that can be told apart by what is asked of it: for checks over all rules."""

from collections.abc import Iterator
from functools import cache

from inspection_rules.item import Item, Part
from inspection_rules.words import (
    ENDLESS,
    JOINTS,
    WEB_KINDS,
    Construction,
    CoverLoad,
    Duty,
    Fibre,
    FittingKind,
    ItemKind,
    PartKind,
    SpliceKind,
)

WEBBED = (ItemKind.WEB_SLING, ItemKind.LANYARD)
COVERED = (Construction.DOUBLE_BRAID, Construction.KERNMANTLE, Construction.PARALLEL_CORE)


@cache
def typical_items() -> tuple[Item, ...]:
    """Return two-eye items without thimbles, endless ones, and connectors, of every kind, construction and splice."""
    return tuple(_items())


def _items() -> Iterator[Item]:
    for kind in ItemKind:
        if kind is ItemKind.CONNECTOR:
            yield _item(kind, None, (Part(id="F", kind=PartKind.FITTING, fitting=FittingKind.CONNECTOR),))
        elif kind is ItemKind.ROUNDSLING:
            yield _item(kind, None, (BODY,))
        else:
            for construction in _constructions(kind):
                for ends in _ends(kind, construction):
                    yield _item(kind, construction, (*ends, BODY, *_hung(kind)))


BODY = Part(id="body", kind=PartKind.BODY)


def _constructions(kind: ItemKind) -> tuple[Construction, ...]:
    if kind is ItemKind.WEB_SLING:
        return (Construction.WEBBING,)
    ropes = tuple(c for c in Construction if c is not Construction.WEBBING)
    return (*ropes, Construction.WEBBING) if kind is ItemKind.LANYARD else ropes


def _ends(kind: ItemKind, construction: Construction) -> Iterator[tuple[Part, ...]]:
    if construction is Construction.WEBBING:
        yield _pair(SpliceKind.SEWN_EYE)
    elif kind in ENDLESS:
        yield ()
        for splice in sorted(JOINTS):
            yield (Part(id="J", kind=PartKind.JOINT, splice=splice, lock_stitched=True),)
    else:
        for splice in SpliceKind:
            if splice not in JOINTS:
                yield _pair(splice)


def _pair(splice: SpliceKind) -> tuple[Part, ...]:
    return tuple(
        Part(
            id=end, kind=PartKind.TERMINATION, end=end, splice=splice, lock_stitched=splice is not SpliceKind.PLAIN_END
        )
        for end in "AB"
    )


def _hung(kind: ItemKind) -> tuple[Part, ...]:
    if kind is not ItemKind.LANYARD:
        return ()
    kinds = (FittingKind.CONNECTOR, FittingKind.CONNECTOR, FittingKind.ADJUSTER, FittingKind.ABSORBER)
    return tuple(Part(id=f"F{n}", kind=PartKind.FITTING, fitting=fitting) for n, fitting in enumerate(kinds, 1))


def _item(kind: ItemKind, construction: Construction | None, parts: tuple[Part, ...]) -> Item:
    fields = {"id": "typical", "tag": "typical", "kind": kind, "duty": Duty.LIFTING, "fibre": Fibre.POLYESTER}
    if construction is Construction.WEBBING or kind in WEB_KINDS:
        fields |= {"width": "50 mm", "thickness": "5 mm"}
    else:
        fields |= {"diameter": "24 mm"}
    covered = CoverLoad.SHARED if construction in COVERED else None
    return Item.model_validate({**fields, "construction": construction, "cover_load": covered, "parts": parts})
