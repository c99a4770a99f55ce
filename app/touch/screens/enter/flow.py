"""Entering one item: what was said so far, which page comes next, and what looks wrong with an answer."""

from collections.abc import Callable, Collection
from functools import partial
from pathlib import Path
from typing import Any

from app.item_list import key_of
from app.language import say, told
from app.touch.screens.ask.ask import ChoicePage, DoubtPage
from app.touch.screens.enter import keeping
from app.touch.screens.enter.asking import ChooseItPage, CountItPage, DateItPage, TypeItPage, YesNoPage
from app.touch.screens.enter.keeping import Begun
from app.touch.screens.enter.questions import name_of, part_of
from app.touch.services import Services
from app.touch.widgets.page import Page
from inspection_rules.entering import choices_of, field_of, item_of, sort_of
from inspection_rules.form import SIZE, asked, pruned, respliced, same_as_a
from inspection_rules.item import Item
from inspection_rules.unlikely import unlikely

TURNING = ("kind", "construction", "splice")  # what else applies hangs on these


class Entering:
    """What several pages ask about one new item; kept on the disk with every answer.

    Attributes:
        home: the page under the first page of this item.
    """

    def __init__(
        self,
        services: Services,
        app: Any,
        begun: Begun,
        item_id: str,
        places: Collection[tuple[str, str]],
        finish: Callable[["Entering"], None],
    ) -> None:
        """`places` are place and tag of every item there is; `finish` shows what will be entered."""
        self.services, self.app, self.begun, self.item_id = services, app, begun, item_id
        self.places = sorted({place for place, _ in places if place}, key=str.casefold)
        self._taken = {key_of(place, tag) for place, tag in places}
        self._finish = finish
        self.first: Page | None = None
        self.logging = False

    @property
    def said(self) -> dict[str, str]:
        """What was said so far, by name."""
        return self.begun.said

    def push(self, page: Page) -> None:
        """Lay the next page on top."""
        if self.first is None:
            self.first = page
        self.app.stack.push(page)

    def built(self) -> Any:
        """Return the item as described, or what keeps it from being one."""
        return item_of(self.said, self.item_id)

    @property
    def item(self) -> Item | None:
        """The item as described; None while something keeps it from being one."""
        found = self.built()
        return found if isinstance(found, Item) else None

    # --- one question after the other ----------------------------------------------------------------------

    def go_on(self) -> None:
        """Ask the next thing that was not said yet; show all of it when there is none."""
        said, skipped = self.said, self.begun.skipped
        name = next((one for one in asked(said) if not said.get(one) and one not in skipped), None)
        if name is None:
            self._finish(self)
        else:
            self.ask(name, self.go_on)

    def ask(self, name: str, then: Callable[[], None]) -> None:
        """Ask one thing; `then` goes on after it was said or left out."""
        self.push(self._page(name, then))

    def _page(self, name: str, then: Callable[[], None]) -> Page:
        sort = sort_of(name)
        if name in SIZE and not any(self.said.get(one) for one in SIZE):
            return self._which_size(then)
        if choices_of(name):
            return ChooseItPage(self, name, choices_of(name, self.said), then)
        if sort == "yes or no":
            return YesNoPage(self, name, then)
        if sort in ("length", "force", "count"):
            return CountItPage(self, name, then)
        if sort == "date":
            return DateItPage(self, name, then)
        return TypeItPage(self, name, then)

    def _which_size(self, then: Callable[[], None]) -> Page:
        """A rope is named by one of two sizes: the person says which, and it is kept as it was given."""

        def chosen(text: str) -> None:
            self.push(CountItPage(self, SIZE[0] if text == "Nominal diameter" else SIZE[1], then))

        return ChoicePage(
            say("Which size was given?"),
            ["Nominal diameter", "Nominal circumference"],
            chosen,
            under=say("Inch sizes are mostly nominal circumferences"),
        )

    # --- what was said -------------------------------------------------------------------------------------

    def take(self, name: str, text: str, then: Callable[[], None]) -> None:
        """Take an answer; what looks wrong in it is asked about first."""
        changed, skipped = {**self.said, name: text}, self.begun.skipped
        if field_of(name) in TURNING and text != self.said.get(name):
            changed = pruned(respliced(changed, name) if field_of(name) == "splice" else changed)
            of_part = name.removesuffix(field_of(name))  # what was left out of it before is asked anew
            skipped = [one for one in skipped if not (one.startswith(of_part) if of_part else part_of(one))]
        self._take(changed, skipped, name, then)

    def same_as_a(self, then: Callable[[], None]) -> None:
        """Take it that end B is made the same as end A."""
        own = [one for one in self.begun.skipped if not one.startswith("end_b_")]
        same = [f"end_b_{one[6:]}" for one in own if one.startswith("end_a_")]
        self._take(same_as_a(self.said), [*own, *same], "end_b_splice", then)

    def leave_out(self, name: str, then: Callable[[], None]) -> None:
        """Take it that a thing is not known or not there."""
        changed = {one: text for one, text in self.said.items() if one != name}
        skipped = [*(one for one in self.begun.skipped if one != name), name]
        self._keep(pruned(changed) if field_of(name) in (*TURNING, "required_bury") else changed, skipped)
        then()

    def _take(self, changed: dict[str, str], skipped: list[str], name: str, then: Callable[[], None]) -> None:
        skipped = [one for one in skipped if one != name]
        odd = [one for one in self.doubts(changed) if one not in self.begun.confirmed]
        if not odd:
            self._keep(changed, skipped)
            then()
            return

        def right() -> None:
            self.begun.confirmed += odd
            self._keep(changed, skipped)
            then()

        self.push(
            DoubtPage(
                say("{name}: is this right?", name=name_of(name)),
                [told(one) for one in odd],
                (say("It is right: keep it"), right),
                (say("No: say it again"), _nothing),
            )
        )

    def doubts(self, said: dict[str, str]) -> list[str]:
        """Return what looks wrong, a sentence each."""
        found = [one.sentence for one in unlikely(said, self.services.today())]
        tag, place = said.get("tag", ""), said.get("place", "")
        known = "place" in said or "place" in self.begun.skipped
        if tag and known and key_of(place, tag) in self._taken:
            found.append(
                say("The tag {tag} is in the register already at the same place: two items would be mistaken.", tag=tag)
            )
        return list(dict.fromkeys(found))

    def _keep(self, said: dict[str, str], skipped: list[str]) -> None:
        self.begun.said, self.begun.skipped = said, skipped
        self.begun.confirmed = [one for one in self.begun.confirmed if one in self.doubts(said)]
        folder, begun = Path(self.services.register.folder), self.begun
        kept = Begun(dict(begun.said), list(begun.skipped), list(begun.confirmed), dict(begun.offered))
        self.services.records.do(partial(keeping.keep, folder, kept))


def _nothing() -> None:
    """The page that asked is still there."""
