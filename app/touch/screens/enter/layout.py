"""The layout a splice should have: its figures with their working and where they come from, drawn to proportion."""

from fractions import Fraction
from functools import partial
from typing import Any

from kivy.uix.widget import Widget

from app.figures.laid_out import layout_figure
from app.language import say, told
from app.touch.screens.item.charts import ScaledView
from app.touch.services import Services
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.words import Words
from app.touch.wording import part_name
from inspection_rules.entering import BURIED
from inspection_rules.item import Item, Part
from inspection_rules.layout import LaidOut, splice_layout
from inspection_rules.quantity import decimal_text

SIXTEENTHS = 16


class LayoutPage(Page):
    """One splice's layout; nothing in it is filled in anywhere."""

    def __init__(self, services: Services, app: Any, item: Item, part: Part, **kwargs: Any) -> None:
        super().__init__(heading=say("The layout it should have"), **kwargs)
        splice = say(str(part.splice)) if part.splice else ""
        self.under = " · ".join(one for one in (item.tag, part_name(item, part.id), splice) if one)
        layout = splice_layout(item, part)
        lengths = {one.name: in_mm_and_inches(one) for one in layout if one.unit == "mm"}
        content: list[Widget] = []
        if layout_figure(layout, 0.03, lengths) is not None:
            content.append(ScaledView(partial(_drawn, layout, lengths), app.theme))
        for one in layout:
            content.append(
                Card(title=told(one.name), lines=[value_of(one), told(one.working)], small=[told(one.label)])
            )
        if part.splice in BURIED and part.required_bury is None:
            content.append(Words(text=say("No required bury is on record: its instruction decides."), bold=True))
        content.append(
            Words(text=say("Nothing of this is filled in by itself. Where its own instruction differs, it decides."))
        )
        self.fill(*content)


def _drawn(layout: tuple[LaidOut, ...], lengths: dict[str, str], size: float) -> Any:
    return layout_figure(layout, size, lengths)


def value_of(one: LaidOut) -> str:
    """Write a figure of a layout with its unit; where it may lie between two, both."""
    if one.unit == "mm":
        return in_mm_and_inches(one)
    if one.upto is None:
        return decimal_text(one.value)
    if one.unit:
        return say("{least} to {most} of a strand's diameter", least=str(one.value), most=str(one.upto))
    return say("{least} to {most}", least=decimal_text(one.value), most=decimal_text(one.upto))


def in_mm_and_inches(one: LaidOut) -> str:
    """Write a length in mm and in inches to the sixteenth."""
    if one.upto is None:
        return say("{mm} mm ({inches})", mm=decimal_text(one.value), inches=inches(one.value))
    return say(
        "{least} to {most} mm ({least_in} to {most_in})",
        least=decimal_text(one.value),
        most=decimal_text(one.upto),
        least_in=inches(one.value),
        most_in=inches(one.upto),
    )


def inches(mm: Fraction) -> str:
    """Write a length in inches, to the nearest sixteenth: `68 1/16 in`."""
    sixteenths = round(mm / Fraction("25.4") * SIXTEENTHS)
    whole, rest = divmod(sixteenths, SIXTEENTHS)
    if not rest:
        return f"{whole} in"
    part = Fraction(rest, SIXTEENTHS)
    return f"{whole} {part} in" if whole else f"{part} in"
