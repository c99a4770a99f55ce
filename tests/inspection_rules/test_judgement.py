"""What a judgement is written with: citations, and numbers without an exponent."""

from decimal import Decimal
from fractions import Fraction

import pytest

from inspection_rules.judgement import Source, decimal


@pytest.mark.parametrize(
    ("kind", "verified", "cited"),
    [
        ("regulation", "read", "Quay order 7 (2040)"),
        ("standard", "secondary", "Quay order 7 (2040) · secondary source"),
        ("handbook", "memory", "Quay order 7 (2040) · source not verified"),
        ("maker", "none", "Quay order 7 (2040) · as recorded, not verified"),
        ("site", "none", "Quay order 7 (2040) · no published source"),
    ],
)
def test_a_citation_says_how_well_it_was_verified(kind: str, verified: str, cited: str) -> None:
    assert str(Source(document="Quay order", clause="7", edition="2040", kind=kind, verified=verified)) == cited


@pytest.mark.parametrize(
    ("document", "clause", "cited"),
    [("29 CFR 1910.184", "(h)(3)", "29 CFR 1910.184(h)(3)"), ("Quay order", "7", "Quay order 7"), ("Hint", "", "Hint")],
)
def test_a_clause_in_brackets_follows_its_document_without_a_blank(document: str, clause: str, cited: str) -> None:
    assert str(Source(document=document, clause=clause, kind="standard", verified="read")) == cited


@pytest.mark.parametrize(
    ("value", "digits", "written"),
    [
        (Fraction(1, 3), 6, "0.333333"), (Fraction(-2, 3), 4, "-0.6667"), (Fraction(1, 2), 0, "1"),
        (Fraction(-1, 2), 0, "-1"), (Fraction(1200), 6, "1200"), (Fraction(1, 10**7), 6, "0"), (0.25, 1, "0.3"),
    ],
)  # fmt: skip
def test_a_number_is_rounded_half_away_from_zero_and_written_out(value: Fraction, digits: int, written: str) -> None:
    found = decimal(value, digits)
    assert found == Decimal(written)
    assert str(found).lstrip("-") == written.lstrip("-")
