"""What will it carry, and where? All that may be told of a use, each thing on its own; nothing has to be.

Only what a rule that counts can use is asked. What was told is kept before the page shows it.
"""

from collections.abc import Callable, Collection, Sequence
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.screens.use.asking import ask
from app.touch.screens.use.words import SILENT, value_of
from app.touch.widgets.buttons import MainButton, QuietButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words
from app.use_words import NAMES
from inspection_rules.case import Use
from inspection_rules.use_told import Needs, lacking, with_told

OF_ONE_ITEM = ("pin_diameter", "eye_length")
Keep = Callable[[Use | None, Callable[[], None]], None]
NOT_ASKED = mark("No rule that counts here speaks of: {what}. So it is not asked; a competent person works it out.")


NEEDED = mark("Still needed to judge this use: {what}. Without it, it is not for this use.")
# What is not told of these is not missing: the record has it, or may have it.
ON_RECORD = {
    "legs": mark("Not told: the number on record counts"),
    "eye_length": mark("Not told: what was measured before counts, if it was"),
}


class UsePage(Page):
    """What was told of one use so far.

    Attributes:
        use: what was told; None where nothing was.
    """

    def __init__(
        self,
        under: str,
        app: Any,
        fields: Sequence[str],
        use: Use | None,
        keep: Keep,
        *,
        needs: Collection[Needs] = (),
        why: str = "",
        of_one_item: bool = True,
        **kwargs: Any,
    ) -> None:
        """`fields` are those that a rule can use; `keep` keeps what was told and then calls what it is given.

        `needs`: what the rules have to know together, for each item that this use is told of.
        `of_one_item`: whether what differs from item to item is asked as well.
        """
        super().__init__(heading=say("What will it carry?"), under=under, **kwargs)
        self.app, self._keep, self._why = app, keep, why
        self._known = tuple(one for one in NAMES if of_one_item or one not in OF_ONE_ITEM)
        self._fields, self._needs = fields, needs
        self._missing: tuple[str, ...] = ()
        self.use = use

    def shown(self) -> None:
        """List what was told."""
        self._show()

    def _show(self) -> None:
        # What was told for a whole round is shown for each item of it, whether a rule can use it there or not.
        missing = lacking(self.use, self._needs)
        heard = {*self._fields, *(self.use.told if self.use is not None else ()), *missing}
        silent = [say(NAMES[one]) for one in self._known if one not in heard]
        first = say("Tell what you know; nothing has to be told.")
        if missing:
            first = say(NEEDED, what=", ".join(say(NAMES[one]) for one in missing))
        content: list[Widget] = [Words(text=first, bold=bool(missing)), Words(text=say(SILENT))]
        content += [Words(text=self._why)] if self._why else []
        content += [self._row(field, field in missing) for field in self._known if field in heard]
        content += [Quiet(text=say(NOT_ASKED, what=", ".join(silent)))] if silent else []
        if self.use is not None:
            back = QuietButton(text=say("Take all of it back"))
            back.bind(on_release=lambda _one: self._take(None))
            content.append(back)
        self.fill(*content)
        done = MainButton(text=say("That is all I can tell"))
        done.bind(on_release=lambda _one: self.app.back())
        self.fill_foot(done)
        if missing and missing != self._missing:
            self.ids.scroll.scroll_y = 1  # what is new stands above the rows
        self._missing = missing

    def _row(self, field: str, missing: bool) -> RowButton:
        told = self.use is not None and field in self.use.told
        line = value_of(self.use, field)
        if missing:
            line = say("Not told: still needed")
        elif not told and self.use is not None and field in ON_RECORD:
            line = say(ON_RECORD[field])
        row = RowButton(title=say(NAMES[field]), line=line, key=field, chosen=told)
        row.bind(on_release=self._ask)
        return row

    def _ask(self, row: RowButton) -> None:
        field = row.key
        ask(self, field, lambda value: self._take(with_told(self.use, field, value)))

    def _take(self, use: Use | None) -> None:
        def kept() -> None:
            self.use = use
            self._show()

        self._keep(use, kept)
