"""Settings of this device: theme, text size, unit of length."""

from typing import Any

from kivy.uix.widget import Widget

from app.touch.theme import LARGEST_TEXT, SMALLEST_TEXT
from app.touch.widgets.buttons import AnswerButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Title, Words

THEMES = {"paper": "Paper, for daylight", "night": "Night, dim amber", "glare": "Glare, for full sun"}
UNITS = {"mm": "Millimetres first", "in": "Inches first"}
STEP = 0.15


class SettingsPage(Page):
    """What this device remembers for the person."""

    def __init__(self, app: Any, **kwargs: Any) -> None:
        super().__init__(heading="Settings", under="of this device", **kwargs)
        self._app = app
        self._build()

    def _build(self) -> None:
        kept = self._app.preferences
        content: list[Widget] = [Title(text="Theme")]
        content += [self._choice(says, theme == kept.theme, theme=theme) for theme, says in THEMES.items()]
        content += [
            Title(text=f"Text size: {kept.text_scale:.2f}"),
            self._choice("Larger text", False, text_scale=min(LARGEST_TEXT, round(kept.text_scale + STEP, 2))),
            self._choice("Smaller text", False, text_scale=max(SMALLEST_TEXT, round(kept.text_scale - STEP, 2))),
            Title(text="Unit of length"),
        ]
        content += [self._choice(says, unit == kept.length_unit, length_unit=unit) for unit, says in UNITS.items()]
        content.append(Words(text="The unit can be changed at every reading."))
        self.fill(*content)

    def _choice(self, text: str, chosen: bool, **change: object) -> Widget:
        button = AnswerButton(text=text, chosen=chosen)
        button.bind(on_release=lambda _one: self._take(change))
        return button

    def _take(self, change: dict[str, object]) -> None:
        self._app.prefer(**change)
        self._build()
