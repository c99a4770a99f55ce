"""The rope down the left edge: progress bar, map and table of contents in one."""

from collections.abc import Mapping, Sequence
from typing import Any

from kivy.clock import Clock
from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty
from kivy.uix.scrollview import ScrollView
from kivy.uix.widget import Widget

from app.figures import Spine, not_yet, spine
from app.figures.along import AXIS
from app.touch.drawing import FigureView
from app.touch.markup import load_markup
from app.touch.theme import WIDEST_LETTER, Theme, fitting
from app.touch.widgets.buttons import SignView, TapButton
from inspection_rules.item import Item
from inspection_rules.record import Inspection
from inspection_rules.words import Answer

Key = tuple[str, str]
GAP = 12  # dp between two stations
SIGN = 30  # dp
MOST_STEP = 1.7  # height of a station in widths of the spine
LARGE_TYPE = 1.25  # from this text scale on, a station's word stands below its sign
LARGEST_TYPE = 1.7  # from this one on, a question leaves room for its answers only
BESIDE = 170  # dp; a column as wide as this keeps the word beside the sign at any scale
TYPE, LINE = 13, 1.3  # sp; line height in type sizes


def spine_width(page_width: float) -> float:
    """Return how wide the rope's column is on a page of this width, in pixels."""
    return float(dp(128) if page_width < dp(700) else dp(176))


class StationButton(TapButton):
    """A place on the rope; its outline shows where the hands are."""

    sign_x = NumericProperty(0)
    large = BooleanProperty(False)
    key = ObjectProperty(None, allownone=True)


class RopeSpine(ScrollView):
    """The rope with its stations; dispatches `on_station` with the key of the one that was tapped."""

    theme: Theme = ObjectProperty(None)

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_station")
        super().__init__(**kwargs)
        self._item: Item | None = None
        self._keys: tuple[Key, ...] = ()
        self._made: tuple[Inspection, ...] = ()
        self._names: Mapping[Key, str] = {}
        self._signs: Mapping[Key, Answer | None] = {}
        self._here: Key | None = None
        self._buttons: dict[Key, StationButton] = {}
        self._views: dict[Key, SignView] = {}
        self._lay = Clock.create_trigger(self._lay_out, -1)
        self.bind(size=self._lay)
        # The kv rule has set the theme by now. Methods, since the theme holds them weakly.
        self.theme.bind(text_scale=self._rescale, name=self._recolour)

    def on_station(self, key: Key) -> None:
        """Default handler: nothing."""

    def show(
        self, item: Item, stations: Sequence[Key], names: Mapping[Key, str], made: Sequence[Inspection] = ()
    ) -> None:
        """Draw this item's rope with these stations; `names` gives the words written at them.

        `made` are its as-made records, by which its ends are drawn to proportion.
        """
        if (item, tuple(stations), tuple(made)) != (self._item, self._keys, self._made):
            self._item, self._keys, self._names, self._made = item, tuple(stations), names, tuple(made)
            self._lay()

    def sign(self, signs: Mapping[Key, Answer | None], here: Key | None) -> None:
        """Show the signs of the stations, and where the hands are."""
        moved = here != self._here
        self._signs, self._here = signs, here
        self._mark()
        if moved:
            Clock.schedule_once(self._bring, 0)

    def _rescale(self, *_changed: object) -> None:
        self._lay()

    def _recolour(self, *_changed: object) -> None:
        self._mark()

    def _lay_out(self, _dt: float) -> None:
        content = self.ids.content
        content.clear_widgets()
        self._buttons, self._views = {}, {}
        if self._item is None or self.width < dp(40):
            return
        large = self.theme.text_scale >= LARGE_TYPE and self.width < dp(BESIDE)
        words = self._lines(large) * TYPE * self.theme.type_unit * LINE + dp(6)
        high = max(dp(64), words + (dp(SIGN + 6) if large else 0))
        # As high as the page where there is room, so that the rope reaches from end to end.
        spacing = min(max(high + dp(GAP), self.height / len(self._keys)), MOST_STEP * self.width)
        drawn: Spine = spine(self._item, self._keys, spacing / self.width, self._made)
        high = max(high, min(spacing - dp(GAP), high * 1.2))
        # The sign stands at its place on the rope; in large type its word hangs below it, and so below the last.
        above = dp(SIGN) / 2 + dp(4) if large else high / 2
        lowest = min(station.y for station in drawn.stations) * self.width
        foot = max(0.0, high - above - lowest)
        content.height = drawn.figure.height * self.width + foot
        content.add_widget(
            FigureView(
                figure=drawn.figure,
                theme=self.theme,
                size_hint=(None, None),
                size=(self.width, content.height - foot),
                pos=(0, foot),
            )
        )
        for station in drawn.stations:
            key = (station.part, station.name)
            middle = station.y * self.width + foot
            button = StationButton(
                text=self._names.get(key, station.name),
                key=key,
                size_hint=(None, None),
                width=self.width - dp(10),
                pos=(dp(5), middle + above - high),
            )
            button.height = high
            button.sign_x = station.x * self.width - dp(5)
            button.large = large
            button.bind(on_release=lambda one: self.dispatch("on_station", one.key))
            content.add_widget(button)
            view = SignView(size_hint=(None, None), size=(dp(SIGN), dp(SIGN)))
            view.center = (station.x * self.width, middle)
            content.add_widget(view)
            self._buttons[key], self._views[key] = button, view
        self._mark()
        Clock.schedule_once(self._bring, 0)

    def _lines(self, large: bool) -> int:
        """How many lines the longest of the names takes, three at least."""
        room = self.width - dp(18) if large else self.width * AXIS - dp(24)
        most = 3
        for name in self._names.values():
            size = fitting(name, room, TYPE * self.theme.type_unit)
            line, lines = 0.0, 1
            for word in name.split():
                wide = (len(word) + 1) * size * WIDEST_LETTER
                line, lines = (line + wide, lines) if line + wide <= room + size else (wide, lines + 1)
            most = max(most, lines)
        return most

    def _mark(self) -> None:
        for key, view in self._views.items():
            answer = self._signs.get(key)
            view.answer = answer.value if answer else ""
            if not answer:
                view.figure = not_yet()
            self._buttons[key].chosen = key == self._here

    def _bring(self, _dt: float) -> None:
        button: Widget | None = self._buttons.get(self._here) if self._here else None
        content = self.ids.content
        if button is None or content.height <= self.height:
            return
        # The present station a third down, so that the next ones are seen.
        wanted = button.center_y - self.height * 2 / 3
        self.scroll_y = min(max(wanted / (content.height - self.height), 0), 1)


load_markup(__file__)
