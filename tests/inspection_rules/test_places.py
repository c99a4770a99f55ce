"""Where a place of an earlier record lies after the rope was worked on."""

from fractions import Fraction

import pytest

from inspection_rules.events import WorkDone
from inspection_rules.places import place_now
from inspection_rules.quantity import parse
from inspection_rules.words import Mend, Work

from .histories import MATE, at


def worked(day: float, kind: Work, mends: Mend = Mend.NOTHING, **more: str) -> WorkDone:
    return WorkDone.model_validate(
        {
            "id": f"w{day}",
            "item": "pendant",
            "at": at(day),
            "by": MATE,
            "work": kind,
            "mends": mends,
            "what": "x",
            **more,
        }
    )


CUT = worked(5, Work.CUT_BACK, cut_from_a="2 m")
SPLICED = worked(8, Work.RE_SPLICED, Mend.RE_SPLICE, cut_from_a="1 ft")
TURNED = worked(6, Work.ENDS_TURNED)


@pytest.mark.parametrize(
    ("work", "now"),
    [
        ([], Fraction(3000)),
        ([CUT], Fraction(1000)),
        ([SPLICED, CUT], Fraction("695.2")),  # 1 ft is 304.8 mm by definition
        ([TURNED], Fraction(3000)),
        ([worked(5, Work.CUT_BACK)], Fraction(3000)),
    ],
    ids=["nothing", "cut back at A", "cut back twice", "turned end for end", "cut back at B"],
)
def test_what_is_cut_off_at_end_a_shifts_it_and_nothing_else_does(work: list[WorkDone], now: Fraction) -> None:
    assert place_now(parse("3 m", "length"), at(0), work) == now


def test_what_was_cut_before_it_was_recorded_is_in_it_already() -> None:
    assert place_now(parse("3 m", "length"), at(5), [CUT]) == 3000


@pytest.mark.parametrize(("place", "now"), [("2 m", 0), ("1.9 m", None)])
def test_a_place_on_the_piece_that_was_cut_off_is_gone(place: str, now: int | None) -> None:
    assert place_now(parse(place, "length"), at(0), [CUT]) == now
