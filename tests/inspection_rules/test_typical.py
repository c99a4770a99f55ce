"""The plain items that checks over all rules go through: each is one that can be, and says what its kind needs."""

from inspection_rules.typical import typical_items
from inspection_rules.words import Construction, CoverLoad, FittingKind, ItemKind, PartKind


def test_there_is_an_item_of_every_kind_and_of_every_construction() -> None:
    assert {item.kind for item in typical_items()} == set(ItemKind)
    assert {item.construction for item in typical_items()} == {None, *Construction}


def test_a_connector_is_one_fitting_and_nothing_else() -> None:
    (connector,) = [item for item in typical_items() if item.kind is ItemKind.CONNECTOR]
    assert [(part.kind, part.fitting) for part in connector.parts] == [(PartKind.FITTING, FittingKind.CONNECTOR)]


def test_rope_with_a_cover_says_that_the_cover_shares_the_load() -> None:
    covered = {item.construction for item in typical_items() if item.cover_load is CoverLoad.SHARED}
    assert covered == {Construction.DOUBLE_BRAID, Construction.KERNMANTLE, Construction.PARALLEL_CORE}
