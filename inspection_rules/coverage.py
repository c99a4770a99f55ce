"""Which rules apply which published criterion, and why the others are left out."""

from dataclasses import dataclass

from inspection_rules.book import RuleBook
from inspection_rules.rule import Criterion, Pack, Rule


@dataclass(frozen=True, slots=True)
class Covered:
    """One criterion and the rules that apply it, each with its pack; `criterion.left_out` says why there are none."""

    criterion: Criterion
    rules: tuple[tuple[Pack, Rule], ...]


def coverage(book: RuleBook) -> tuple[Covered, ...]:
    """Return every criterion with the rules that name it, in the order of the criteria file."""
    return tuple(
        Covered(
            criterion,
            tuple((pack, rule) for pack in book.packs for rule in pack.rules if rule.criterion == criterion.id),
        )
        for criterion in book.criteria.values()
    )
