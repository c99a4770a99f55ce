"""Small pages that ask one thing: a choice from a few, a line of text, or only that something was read."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from app.language import mark, say
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.fields import TextField
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words

TYPE_HERE = mark("Type here")
TYPE_FIRST = mark("Type it here first")


class ChoicePage(Page):
    """One choice from a few; with `typed`, a line of one's own as well.

    The choices are shown in the language in use; `chosen` is called with the original text after the page has gone.
    """

    def __init__(
        self,
        heading: str,
        choices: Sequence[str],
        chosen: Callable[[str], None],
        *,
        under: str = "",
        typed: str = "",
        present: str = "",
        **kwargs: Any,
    ) -> None:
        super().__init__(heading=heading, under=under, at_thumb=True, **kwargs)
        self._chosen = chosen
        buttons = []
        for choice in choices:
            said = say(str(choice))
            button = AnswerButton(text=said[:1].upper() + said[1:], chosen=choice == present)
            button.bind(on_release=partial(self._tapped, choice))
            buttons.append(button)
        self.fill(*buttons)
        if typed:
            self.field = TextField(hint_text=say(TYPE_HERE))
            self.field.bind(on_text_validate=self._own)
            self.body.add_widget(Quiet(text=typed))
            self.body.add_widget(self.field)
            own = MainButton(text=say("Take what I typed"))
            own.bind(on_release=self._own)
            self.body.add_widget(own)

    def _tapped(self, choice: str, _button: object) -> None:
        self._take(choice)

    def _own(self, *_event: object) -> None:
        text = self.field.text.strip()
        if text:
            self._take(text)
        else:
            self.field.hint_text = say(TYPE_FIRST)

    def _take(self, text: str) -> None:
        self.manager.pop(self)
        self._chosen(text)


class DoubtPage(Page):
    """Something looks wrong: why, and whether it is right all the same. It never blocks.

    `right` and `wrong` are called after the page has gone; going back is the same as `wrong`.
    """

    def __init__(
        self,
        heading: str,
        reasons: Sequence[str],
        right: tuple[str, Callable[[], None]],
        wrong: tuple[str, Callable[[], None]],
        **kwargs: Any,
    ) -> None:
        """`right` and `wrong` are what a button says and what it does."""
        super().__init__(heading=heading, at_thumb=True, **kwargs)
        self.fill(*(Words(text=reason, bold=True, type_size=19) for reason in reasons))
        again, keep = MainButton(text=wrong[0]), AnswerButton(text=right[0])
        again.bind(on_release=partial(self._tapped, wrong[1]))
        keep.bind(on_release=partial(self._tapped, right[1]))
        self.fill_foot(keep, again)

    def _tapped(self, act: Callable[[], None], _button: object) -> None:
        self.manager.pop(self)
        act()


class NotePage(Page):
    """A note of a few lines; `written` is called with the text after the page has gone."""

    def __init__(self, under: str, text: str, written: Callable[[str], None], **kwargs: Any) -> None:
        super().__init__(heading=say("Note"), under=under, **kwargs)
        self._written = written
        self.field = TextField(text=text, multiline=True, hint_text=say("What is worth knowing about this place"))
        self.fill(self.field)
        keep = MainButton(text=say("Keep the note"))
        keep.bind(on_release=self._keep)
        self.fill_foot(keep)

    def _keep(self, *_event: object) -> None:
        self.manager.pop(self)
        self._written(self.field.text.strip())


class ReadPage(Page):
    """Paragraphs to read, and one button that says so."""

    def __init__(
        self, heading: str, paragraphs: Sequence[str], button: str, done: Callable[[], None], **kwargs: Any
    ) -> None:
        super().__init__(heading=heading, **kwargs)
        self.fill(*(Words(text=paragraph) for paragraph in paragraphs))
        main = MainButton(text=button)
        main.bind(on_release=lambda _one: done())
        self.fill_foot(main)


class ErrorPage(Page):
    """What happened, what was kept, what to do; never a traceback."""

    def __init__(self, what: str, kept: str, remedy: str, **kwargs: Any) -> None:
        super().__init__(heading=say("This did not work"), leaves=False, **kwargs)
        self.fill(*(Words(text=text) for text in (what, kept, remedy) if text))
        back = QuietButton(text=say("Go back"), bold=True)
        back.bind(on_release=lambda _one: self.manager.pop(self))
        self.fill_foot(back)
