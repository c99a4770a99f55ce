"""What is worth knowing about a use and decides nothing."""

from collections.abc import Iterator

from inspection_rules.case import Case
from inspection_rules.measures.design_factor import design_factor
from inspection_rules.measures.leg_tension import MOST_LEGS, SLINGS
from inspection_rules.measures.temperature import hottest
from inspection_rules.quantity import Measured, decimal_text
from inspection_rules.words import Fibre, Moisture

LONG_HEAT_C = 60  # 140 °F: EM 385-1-1, secondary


def use_advice(case: Case) -> Iterator[str]:
    """Yield the advice that goes with what was said of this use; nothing where nothing was said."""
    if case.use is None:
        return
    yield from _heat(case)
    yield from _load(case)
    if case.use.moisture is Moisture.WET and case.item.fibre is Fibre.NYLON:
        yield (
            "Wet nylon is usually 10 to 20 % weaker than dry. Ask its maker whether the tag allows for it "
            "(common practice, no published source)."
        )


def _heat(case: Case) -> Iterator[str]:
    met = hottest(case, "")
    if not isinstance(met, Measured):
        return
    if met.value > LONG_HEAT_C:
        yield (
            "Some yarns lose strength when they are kept above 60 °C (140 °F) for long "
            "(USACE EM 385-1-1 section 15.D.05 · secondary source)."
        )
    if case.item.fibre is Fibre.POLYPROPYLENE:
        yield (
            "Sources differ on polypropylene: EN 1492-1 and -2 stop at 80 °C, 29 CFR 1910.184(i)(7) for web slings at "
            "200 °F (93.3 °C). The strictest that counts here decides."
        )


def _load(case: Case) -> Iterator[str]:
    if case.use is None or case.use.load is None:
        return
    factor = design_factor(case, "")
    if isinstance(factor, Measured):
        yield (
            f"The breaking force is {decimal_text(factor.value)} times what a leg carries. CI 1401 (2006, 2015) has 5 "
            "to 12: the low end only with expert knowledge, more for shock, unknown loads and long tension "
            "(secondary source)."
        )
    elif case.item.breaking_force is None:
        yield "No breaking force is on record: the tag is taken on its maker's word."
    if (case.use.legs or case.item.legs) > MOST_LEGS and case.item.kind in SLINGS:
        yield (
            "On a stiff load two of four legs may carry nearly all of it while the others balance it "
            "(NAVEDTRA 14081, page 13-28)."
        )
