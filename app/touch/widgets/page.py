"""A page: its head, what is on it (scrolling), and what to do next at the thumb."""

import time
from typing import Any

from kivy.clock import Clock
from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.screenmanager import NoTransition, Screen, ScreenManager
from kivy.uix.widget import Widget

from app.touch.markup import load_markup
from app.touch.widgets import buttons, words  # noqa: F401 - their kv rules must be there first

NEW_PAGE_RESTS, NEW_QUESTION_RESTS = 0.6, 0.35  # s
MOST_FOOT, MOST_WIDE_FOOT = 0.3, 0.2  # of the page's height; a higher foot scrolls with the rest


class Page(Screen):
    """Base of every screen.

    Attributes:
        heading, under, corner: the head's words; `corner` stands at its right.
        leaves: whether the head has a Back button.
        body, foot: where the page's content and its main buttons go.
        at_thumb: whether content shorter than the page lies at its bottom.
        wide: whether the page is wider than high.
    """

    heading = StringProperty("")
    under = StringProperty("")
    corner = StringProperty("")
    leaves = BooleanProperty(True)
    wide = BooleanProperty(False)
    at_thumb = BooleanProperty(False)
    side_width = NumericProperty(0)
    head_height = NumericProperty(0)  # px; kv that asks `root.ids` for it would keep the page alive for ever
    MOST_WIDTH = dp(720)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        # The ids are weak proxies, which are never the same object as a widget's parent.
        self.body: BoxLayout = self.ids.body.__self__
        self.foot: BoxLayout = self.ids.foot.__self__
        self._column: BoxLayout = self.ids.column.__self__
        if not self.leaves:
            self.ids.head.remove_widget(self.ids.back)
        self._settling = Clock.create_trigger(self._settle_foot, -1)
        self.ids.head.bind(height=self._follow_head)
        self._follow_head()
        self.bind(size=self._reshape)
        self.foot.bind(minimum_height=self._settling)

    def shown(self) -> None:
        """Called whenever the page comes to the top; pages that show records read them anew."""

    def leave(self) -> bool:
        """Called when the person goes back; return True to stay."""
        return False

    def fill(self, *content: Widget) -> None:
        """Replace the page's content."""
        stay = self.foot.parent is self.body
        self.body.clear_widgets()
        for widget in content:
            self.body.add_widget(widget)
        if not self.at_thumb and not any(widget.size_hint_y for widget in content):
            self.body.add_widget(Widget())  # takes what is left, so that the content stands at the top
        if stay:
            self.body.add_widget(self.foot)

    def fill_foot(self, *content: Widget) -> None:
        """Replace the page's main buttons, the most important one at the bottom."""
        self.foot.clear_widgets()
        for widget in content:
            # Its words wrap at this width, and its height decides where the foot goes.
            widget.width = self.width - 2 * dp(12)
            self.foot.add_widget(widget)
        self._home_foot()

    def _follow_head(self, *_changed: object) -> None:
        self.head_height = self.ids.head.height

    def _reshape(self, *_changed: object) -> None:
        self.wide = self.width > self.height
        self._home_foot()

    def _home_foot(self) -> None:
        self._put_foot(self._column)
        self._settling()

    def _settle_foot(self, _dt: float) -> None:
        # One way only until the page changes: a foot is narrower, so higher, among the content.
        most = MOST_WIDE_FOOT if self.wide else MOST_FOOT
        if self.foot.minimum_height > most * self.height:
            self._put_foot(self.body)

    def _put_foot(self, home: BoxLayout) -> None:
        foot = self.foot
        if foot.parent is not home:
            foot.parent.remove_widget(foot)
            home.add_widget(foot)
        inset = 0 if home is self.body else dp(12)
        foot.padding = (inset, inset if foot.children else 0)


class Stack(ScreenManager):
    """The pages on top of each other; going back takes the top one off.

    A glove bounces: the second touch of a double tap would answer a question that nobody has read yet. So what has
    just come under the finger rests for a moment, and touches that begin in it do nothing.
    """

    rests = True  # turned off by tests that tap faster than anyone reads

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(transition=NoTransition(), **kwargs)
        self._pages: list[Page] = []
        self._made = 0
        self._until = 0.0

    def rest(self, seconds: float) -> None:
        """Let touches do nothing for a moment, since what lies under the finger has changed."""
        self._until = max(self._until, time.monotonic() + seconds)

    def on_touch_down(self, touch: Any) -> bool:
        """Take a touch that begins too early to be meant, and do nothing with it."""
        if self.rests and time.monotonic() < self._until:
            return True
        return bool(super().on_touch_down(touch))

    @property
    def top(self) -> Page | None:
        """The page that is seen."""
        return self._pages[-1] if self._pages else None

    @property
    def depth(self) -> int:
        """How many pages lie on top of each other."""
        return len(self._pages)

    def push(self, page: Page) -> None:
        """Lay a page on top."""
        self._made += 1
        page.name = f"{type(page).__name__} {self._made}"
        self._pages.append(page)
        self._show(page)

    def pop(self, page: Page | None = None) -> None:
        """Take `page` off, with all that lies on it; the top one when none is given. The last one stays."""
        page = page or self.top
        if page not in self._pages or self._pages[0] is page:
            return
        gone = self._pages[self._pages.index(page) :]
        del self._pages[-len(gone) :]
        self._show(self._pages[-1])
        for one in gone:
            self.remove_widget(one)

    def replace(self, page: Page) -> None:
        """Lay a page in the place of the top one."""
        old = self._pages.pop() if self._pages else None
        self.push(page)
        if old is not None:
            self.remove_widget(old)

    def begin(self, page: Page) -> None:
        """Take every page off and begin with this one."""
        gone, self._pages = self._pages, []
        self.push(page)
        for one in gone:
            self.remove_widget(one)

    def home(self) -> None:
        """Go back to the first page."""
        if len(self._pages) > 1:
            self.pop(self._pages[1])

    def _show(self, page: Page) -> None:
        self.rest(NEW_PAGE_RESTS)
        if page.manager is None:
            self.add_widget(page)
        self.current = page.name
        page.shown()


load_markup(__file__)
