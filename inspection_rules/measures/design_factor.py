"""Design factors: breaking force over what a leg carries, or over what its tag lets it carry.

A certificate tested without the splice says nothing of the spliced rope: product standards are said to allow it 10 %
less, which nobody here has read, so nothing is taken off and nothing is compared. A competent person supplies the
spliced force.
"""

from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.measures.leg_tension import leg_tension, tag_cannot_be_right
from inspection_rules.quantity import Measured, NotMeasured, decimal_text
from inspection_rules.words import SpliceKind


def force_as_spliced(item: Item) -> Fraction | NotMeasured:
    """Return the breaking force of the item as it hangs, with its splices and eyes, kN."""
    if item.breaking_force is None:
        return NotMeasured("the breaking force is not on record", attempted=True, refer=True)
    if any(part.splice is not SpliceKind.PLAIN_END for part in item.spliced) and item.breaking_spliced is not True:
        tested = (
            "was tested without its eyes" if item.breaking_spliced is False else "is not said to be of spliced rope"
        )
        return NotMeasured(
            f"the breaking force on record, {item.breaking_force.text}, {tested}: not comparable until the spliced "
            "force is known",
            attempted=True,
            refer=True,
        )  # fmt: skip
    return item.breaking_force.to("kN")


def design_factor(case: Case, part: str) -> Measured | NotMeasured:
    """Return how many times the breaking force holds what the leg with the most to carry has to hold."""
    carried = leg_tension(case, part)
    if isinstance(carried, NotMeasured):
        return carried
    breaks = force_as_spliced(case.item)
    if isinstance(breaks, NotMeasured):
        return breaks
    factor = breaks / carried.value
    # At the far end of the guard band the factor is F / (T + 1.645 u): its doubt is reckoned there.
    worst = float(breaks) / (float(carried.value) + 1.645 * carried.u)
    return Measured(
        value=factor,
        unit="times",
        u=(float(factor) - worst) / 1.645,
        u_source=carried.u_source,
        how=f"breaking force {_text(case.item)} over {decimal_text(carried.value, 2)} kN in a leg; {carried.how}",
    )


def design_factor_persons(case: Case, part: str) -> Measured | NotMeasured:
    """Return the design factor where a person is raised, lowered or held."""
    if case.use is None or not case.use.persons:
        return NotMeasured("no person is lifted")
    if case.use.load is None:
        return NotMeasured("say what the whole load is, the person in it", attempted=True)
    return design_factor(case, part)


def rating_factor(case: Case, part: str) -> Measured | NotMeasured:
    """Return breaking force over working load limit, where a load is to be lifted and both are on record.

    Exact: both are what a certificate and a tag promise. Where no breaking force is on record the tag is taken on its
    maker's word.
    """
    limit = case.item.working_load_limit
    if case.use is None or case.use.load is None or case.item.breaking_force is None or limit is None:
        return NotMeasured("no breaking force and working load limit on record to compare")
    wrong = tag_cannot_be_right(case.item)
    if wrong is not None:
        return wrong
    breaks = force_as_spliced(case.item)
    if isinstance(breaks, NotMeasured):
        return breaks
    if limit.value == 0:
        return NotMeasured("the working load limit on record is zero", attempted=True, refer=True)
    how = f"breaking force {_text(case.item)} over a working load limit of {limit.text}"
    return Measured(breaks / limit.to("kN"), "times", 0.0, "certificate and tag, taken as they stand", how=how)


def strength_for_persons(case: Case, part: str) -> Measured | NotMeasured:
    """Return the breaking force on record, kN, where a person is held by it; exact, as a certificate promises it."""
    if case.use is None or not case.use.persons:
        return NotMeasured("no person is held by it")
    wrong = tag_cannot_be_right(case.item)
    if wrong is not None:
        return wrong
    breaks = force_as_spliced(case.item)
    if isinstance(breaks, NotMeasured):
        return breaks
    return Measured(breaks, "kN", 0.0, "certificate, taken as it stands", how="breaking force on record")


def _text(item: Item) -> str:
    return item.breaking_force.text if item.breaking_force is not None else ""
