"""Where along the rope it lies, for a condition that was named: how far from end A, in one place or several."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from app.language import mark, say
from app.touch import visit as visits
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.keypad.place import PlacePage
from inspection_rules.observation import Condition
from inspection_rules.quantity import Quantity

if TYPE_CHECKING:
    from app.touch.screens.inspect.inspect import InspectPage

ANOTHER_PLACE, NO_PLACES = mark("Another place"), mark("Take these places back")


def ask_where(page: "InspectPage", app: Any, named: Sequence[Condition]) -> None:
    """Ask where a condition lies that was named here, and of which one it is asked where there are several."""
    entry = page.visit.entry(page.visit.at)
    if entry is None or not entry.places:
        _which(page, app, named)
        return

    def chosen(choice: str) -> None:
        if choice == NO_PLACES:
            page.confirm(visits.without_places(page.visit), onward=False)
        else:
            _which(page, app, named)

    page.manager.push(ChoicePage(say("Where is it?"), (ANOTHER_PLACE, NO_PLACES), chosen))


def _which(page: "InspectPage", app: Any, named: Sequence[Condition]) -> None:
    if len(named) == 1:
        _place(page, app, named[0].say)
    else:
        page.manager.push(ChoicePage(say("Which of them?"), [one.say for one in named], partial(_place, page, app)))


def _place(page: "InspectPage", app: Any, said: str) -> None:
    def placed(place: Quantity | None, remark: str) -> None:
        if place is None:
            return
        changed = visits.placed(page.visit, said, place)
        page.confirm(visits.remarked(changed, changed.at, remark) if remark else changed, onward=False)

    page.manager.push(PlacePage(app, page.visit.item, say(said), placed))
