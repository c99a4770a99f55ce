"""About this item: everything that was recorded of it, with its units as they were typed."""

from typing import Any

from kivy.uix.widget import Widget

from app.language import say, told
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import day, part_name
from inspection_rules.item import Item, Part
from inspection_rules.words import Service, Thimble

Line = tuple[str, str]


class AboutPage(Page):
    """All that stands in the record of one item."""

    def __init__(self, item: Item, regimes: tuple[str, ...], **kwargs: Any) -> None:
        super().__init__(heading=say("About {tag}", tag=item.tag), under=item.description, **kwargs)
        content: list[Widget] = [_lines(about_item(item))]
        for part in item.parts:
            content += [Title(text=part_name(item, part.id)), _lines(about_part(part))]
        content.append(Title(text=say("Rules that count here")))
        content.append(Words(text="\n".join(say(one) for one in regimes) or say("Common practice only")))
        self.fill(*content)


def about_item(item: Item) -> list[Line]:
    """Return what is recorded of the item as a whole: each name with what was typed."""
    rated = [say("{hitch}: {force}", hitch=say(str(one.hitch)), force=one.force) for one in item.rated]
    spliced = {None: "", True: say("tested spliced"), False: say("tested unspliced")}[item.breaking_spliced]
    lines = [
        (say("Kind"), say(str(item.kind))),
        (say("Duty"), say(str(item.duty))),
        (say("Service"), say(str(item.service)) if item.service is not Service.NORMAL else ""),
        (say("Place"), item.place),
        (say("Fibre"), say(str(item.fibre))),
        (say("Construction"), say(str(item.construction)) if item.construction else ""),
        (say("Nominal diameter"), _typed(item.diameter)),
        (say("Nominal circumference"), _typed(item.circumference)),
        (say("Width"), _typed(item.width)),
        (say("Thickness"), _typed(item.thickness)),
        (say("Length"), _typed(item.length)),
        (say("Load-bearing strands"), _typed(item.strands)),
        (say("Load carried by the cover"), say(str(item.cover_load)) if item.cover_load else ""),
        (say("Tension"), say("under tension all the time") if item.continuous else ""),
        (say("Legs"), _typed(item.legs) if item.legs > 1 else ""),
        (say("Working load limit of one leg"), _typed(item.working_load_limit)),
        (say("Rated loads"), ", ".join(rated)),
        (say("Breaking force"), " · ".join(one for one in (_typed(item.breaking_force), spliced) if one)),
        (say("Ship design force"), _typed(item.ship_design_force)),
        (say("Made"), day(item.made)),
        (say("First used"), day(item.first_used)),
        (say("Maker's criteria"), item.maker_criteria),
        (say("Maker's rules"), item.maker_pack),
    ]
    for one in item.instructions:
        lines.append((say("Maker's instruction"), f"{one.document}: {one.reason} ({', '.join(one.rules)})"))
    return [(name, text) for name, text in lines if text]


def about_part(part: Part) -> list[Line]:
    """Return what is recorded of one part."""
    lines = [
        (say("Kind"), say(str(part.splice or part.fitting or part.kind))),
        (say("Thimble"), say(str(part.thimble)) if part.thimble is not Thimble.NONE else ""),
        (say("Lock stitching"), say("lock-stitched") if part.lock_stitched else ""),
        (say("Chafe gear"), say("fitted") if part.chafe_gear else ""),
        (say("Required bury"), _typed(part.required_bury)),
        (say("Required core bury"), _typed(part.required_core_bury)),
        (say("Required by"), told(part.required_by)),
        (say("Marks from the throat"), _typed(part.marks_at)),
        (say("Strand tails"), say("tapered and buried") if part.tails_buried else ""),
        (say("Made by the layout"), say(str(part.layout)) if part.layout else ""),
        (say("From end A"), _typed(part.from_a)),
        (say("Throat opening when new"), _typed(part.throat_opening)),
        (say("Thickness when new"), _typed(part.thickness)),
    ]
    return [(name, text) for name, text in lines if text]


def _typed(value: object) -> str:
    return "" if value is None else str(value)


def _lines(lines: list[Line]) -> Widget:
    return Words(text="\n".join(f"{name}: {text}" for name, text in lines)) if lines else Quiet(text="")
