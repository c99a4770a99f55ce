"""Who may make an inspection."""

import pytest

from inspection_rules.book import shipped
from inspection_rules.competence import examiner_rules, wanting
from inspection_rules.item import Item
from inspection_rules.words import Competence, InspectionKind

from .building import buried_sling

ITEM = Item.model_validate(buried_sling())


def lacks(kind: InspectionKind, competence: Competence, *regimes: str) -> set[str]:
    return {rule.id for rule in wanting(examiner_rules(ITEM, kind, regimes, shipped()), competence)}


def test_common_practice_lets_a_user_look_before_use() -> None:
    assert lacks(InspectionKind.BEFORE_USE, Competence.USER) == set()


def test_a_periodic_examination_wants_a_competent_person() -> None:
    assert lacks(InspectionKind.PERIODIC, Competence.USER) == {"needs-examiner"}


def test_a_regime_may_want_one_before_use_too() -> None:
    assert "us-sling-before-use-by" in lacks(InspectionKind.BEFORE_USE, Competence.USER, "US lifting")


@pytest.mark.parametrize("competence", [Competence.COMPETENT_PERSON, Competence.QUALIFIED_PERSON])
def test_a_competent_person_lacks_nothing(competence: Competence) -> None:
    assert lacks(InspectionKind.PERIODIC, competence, "EU", "UK", "US lifting") == set()
