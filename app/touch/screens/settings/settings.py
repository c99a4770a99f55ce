"""Settings: theme, text size, unit and language of this device; rules, people and the register's state."""

from collections.abc import Callable
from functools import partial
from typing import Any

from kivy.uix.widget import Widget

from app.language import LANGUAGES, mark, say, spoken
from app.touch.services import Services
from app.touch.theme import LARGEST_TEXT, SMALLEST_TEXT
from app.touch.widgets.buttons import AnswerButton, QuietButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Title, Words
from inspection_rules.record import Person

THEMES = {"paper": mark("Paper, for daylight"), "night": mark("Night, dim amber"), "glare": mark("Glare, for full sun")}
UNITS = {"mm": mark("Millimetres first"), "in": mark("Inches first")}
STEP = 0.15


class SettingsPage(Page):
    """What this device remembers for the person, and which rules speak."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("Settings"), **kwargs)
        self._services, self._app = services, app
        self._regimes: tuple[str, ...] | None = None
        self._build()

    def shown(self) -> None:
        """Read which regimes count."""
        self._services.records.do(self._services.register.regimes, self._counting)

    def _counting(self, regimes: tuple[str, ...]) -> None:
        self._regimes = regimes
        self._build()

    def _build(self) -> None:
        kept, person = self._app.preferences, self._app.person
        content: list[Widget] = [Title(text=say("Theme"))]
        content += [self._choice(say(says), theme == kept.theme, theme=theme) for theme, says in THEMES.items()]
        larger = min(LARGEST_TEXT, round(kept.text_scale + STEP, 2))
        smaller = max(SMALLEST_TEXT, round(kept.text_scale - STEP, 2))
        content += [
            Title(text=say("Text size: {size} %", size=round(kept.text_scale * 100))),
            self._choice(say("Larger text"), False, text_scale=larger),
            self._choice(say("Smaller text"), False, text_scale=smaller),
            *self._units(kept.length_unit, person),
            Title(text=say("Photographs")),
            self._choice(say("Leave out where they were taken"), not kept.keep_place, keep_place=False),
            self._choice(say("Keep where they were taken"), kept.keep_place, keep_place=True),
            Words(text=say("Where a photograph was taken goes with it into reports and to whoever gets the register.")),
            self._choice(say("Keep a smaller copy only"), not kept.keep_original, keep_original=False),
            self._choice(say("Keep the original files as well"), kept.keep_original, keep_original=True),
            Words(
                text=say(
                    "An original is kept untouched, with all that the camera wrote into it: where it was taken as "
                    "well. Each takes 3 to 13 MB, and none can be taken out again. Reports show the smaller copy."
                )
            ),
            Title(text=say("Language")),
        ]
        content += [self._choice(name, code == spoken(), language=code) for code, name in LANGUAGES.items()]
        content += [*self._rules(), *self._more()]
        place = self.ids.scroll.scroll_y
        self.fill(*content)
        self.ids.scroll.scroll_y = place

    def _units(self, present: str, person: Person | None) -> list[Widget]:
        """The unit of whoever acts; the device's, for those who chose none, while nobody does."""
        whose = say("Unit of length of {name}", name=person.name) if person else say("Unit of length")
        buttons = []
        for unit, says in UNITS.items():
            button = AnswerButton(text=say(says), chosen=unit == present)
            button.bind(on_release=partial(self._unit, unit, person))
            buttons.append(button)
        return [Title(text=whose), *buttons, Words(text=say("The unit can be changed at every reading."))]

    def _unit(self, unit: str, person: Person | None, _button: object) -> None:
        if person is None:
            self._app.prefer(length_unit=unit)
        else:
            self._app.prefer_unit(person.name, unit)
        self._build()

    def _rules(self) -> list[Widget]:
        names = (say("Common practice"), *map(say, self._regimes or ()))
        return [
            Title(text=say("Rules that count")),
            Words(text=" · ".join(names)),
            _button(say("Choose which regimes count"), self._app.show_regimes),
            _button(say("Every rule and its source"), self._app.show_rules),
            _button(say("Packs of your own"), self._packs),
            _button(say("Your organisation's own values"), self._site),
        ]

    def _more(self) -> list[Widget]:
        return [
            Title(text=say("People and this program")),
            _button(say("People and PINs"), self._people),
            _button(say("About, and checking the register"), self._about),
        ]

    def _packs(self) -> None:
        from app.touch.screens.settings.packs import PacksPage

        self.manager.push(PacksPage(self._services, self._app))

    def _site(self) -> None:
        from app.touch.screens.settings.site import SitePage

        self.manager.push(SitePage(self._services, self._app))

    def _people(self) -> None:
        from app.touch.screens.people.manage import ManagePage

        self.manager.push(ManagePage(self._services, self._app))

    def _about(self) -> None:
        from app.touch.screens.settings.about import AboutPage

        self.manager.push(AboutPage(self._services))

    def _choice(self, text: str, chosen: bool, **change: object) -> Widget:
        button = AnswerButton(text=text, chosen=chosen)
        button.bind(on_release=lambda _one: self._take(change))
        return button

    def _take(self, change: dict[str, object]) -> None:
        self._app.prefer(**change)
        if self.manager is not None:  # another language makes every page anew
            self._build()


def _button(text: str, act: Callable[[], None]) -> Widget:
    button = QuietButton(text=text)
    button.bind(on_release=lambda _one: act())
    return button
