"""Settings: theme, text size and unit of length of this device; the regimes that count in this register."""

from typing import Any

from kivy.uix.widget import Widget

from app.touch.services import Services
from app.touch.theme import LARGEST_TEXT, SMALLEST_TEXT
from app.touch.widgets.buttons import AnswerButton, QuietButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Title, Words

THEMES = {"paper": "Paper, for daylight", "night": "Night, dim amber", "glare": "Glare, for full sun"}
UNITS = {"mm": "Millimetres first", "in": "Inches first"}
STEP = 0.15


class SettingsPage(Page):
    """What this device remembers for the person, and which rules speak."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading="Settings", **kwargs)
        self._services, self._app = services, app
        self._regimes: tuple[str, ...] | None = None
        self._build()

    def shown(self) -> None:
        """Read which regimes count."""
        self._services.records.do(self._services.register.regimes, self._counting)

    def _counting(self, regimes: tuple[str, ...]) -> None:
        if regimes != self._regimes:
            self._regimes = regimes
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
        content += self._rules()
        self.fill(*content)

    def _rules(self) -> list[Widget]:
        names = ("Common practice", *(self._regimes or ()))
        choose = QuietButton(text="Choose which regimes count")
        choose.bind(on_release=lambda _one: self._app.show_regimes())
        read = QuietButton(text="Every rule and its source")
        read.bind(on_release=lambda _one: self._app.show_rules())
        return [Title(text="Rules that count"), Words(text=" · ".join(names)), choose, read]

    def _choice(self, text: str, chosen: bool, **change: object) -> Widget:
        button = AnswerButton(text=text, chosen=chosen)
        button.bind(on_release=lambda _one: self._take(change))
        return button

    def _take(self, change: dict[str, object]) -> None:
        self._app.prefer(**change)
        self._build()
