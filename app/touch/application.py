"""The app: its pages, who is inspecting, and what happens at a tap, a pause and an error."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any
from weakref import ref

from kivy.app import App
from kivy.clock import Clock
from kivy.core.text import LabelBase
from kivy.core.window import Window
from kivy.properties import ObjectProperty

from app import language
from app.device import Device, this_device
from app.language import say, told
from app.register import Register, RegisterError
from app.reports import ReportError
from app.resources import asset
from app.touch import loading, preferences
from app.touch.cautions import CAUTIONS
from app.touch.preferences import Preferences
from app.touch.screens.ask.ask import ErrorPage, ReadPage
from app.touch.screens.people.acting import Acting
from app.touch.screens.today.today import TodayPage
from app.touch.services import Begun, Services, Told
from app.touch.theme import Theme
from app.touch.widgets.focus import KeyboardRing
from app.touch.widgets.page import Page, Stack
from inspection_rules.book import CaseError
from inspection_rules.case import Use
from inspection_rules.judgement import Judgement
from inspection_rules.record import Person
from inspection_rules.walk import Step
from inspection_rules.words import InspectionKind, Moisture, Tension

if TYPE_CHECKING:
    from app.touch.screens.inspect.inspect import InspectPage
    from app.touch.screens.items.items import ItemsPage

ASKED_EVERY = 60  # s between looks whether a PIN still counts
BACK = 27  # the Android back button, and Escape
# Errors that carry a sentence for the person, as a refused photograph does; any other is a fault of the program.
TOLD = (RegisterError, ReportError, CaseError, OSError, ValueError)


class ThroatmarkApp(App):
    """The touch app over one register.

    Attributes:
        theme: colours, strokes and text size.
        person: who is inspecting.
        tension, moisture: the state of the last reading, offered for the next.
    """

    theme = ObjectProperty(None)
    person = ObjectProperty(None, allownone=True)

    def __init__(
        self,
        register: Register,
        *,
        device: Device | None = None,
        now: Callable[[], datetime] | None = None,
        **kwargs: Any,
    ) -> None:
        """`now` gives the present time with its offset; by default the device's own clock."""
        self.kv_file = ""  # screens load their own
        super().__init__(**kwargs)
        self._register = register
        self._folder = Path(register.folder)
        self._device = device or this_device()
        self._now = now or (lambda: datetime.now().astimezone())
        self._kept: Preferences = preferences.read(self._folder)
        self.tension, self.moisture = Tension.HAND_TAUT, Moisture.DRY
        self.pictures_folder = _pictures_folder()
        self.shows_errors = False
        self._beginning = False
        self._begun_on: Callable[[], Page | None] = lambda: None  # where the inspection on top was begun

    # --- beginning and end -------------------------------------------------------------------------------

    def build(self) -> Stack:
        """Make the window's content."""
        self.title = "Throatmark"
        LabelBase.register(
            "Inter", str(asset("fonts/Inter-Regular.ttf")), fn_bold=str(asset("fonts/Inter-SemiBold.ttf"))
        )
        language.use(self.preferences.language)
        self.theme = Theme(self.preferences.theme, self.preferences.text_scale)
        self.theme.bind(paper=self._follow_paper)
        self._follow_paper()
        self.services = Services(self._register, self._device, self._now, self.failed)
        self.acting = Acting(self._now)
        self.stack = Stack()
        self.ring = KeyboardRing(lambda: self.stack.top)
        Window.bind(on_keyboard=self._key)
        Window.softinput_mode = "pan"
        return self.stack

    def on_start(self) -> None:
        """Show the first page: the cautions until they were seen, then today."""
        self._asking = Clock.schedule_interval(self._ask_again, ASKED_EVERY)
        # Who acted is asked before what today asks for, so that today is put together once.
        self.services.records.do(self._who_acted, lambda found: self._take_people(*found))
        self._begin()
        self.loads = loading.load_when_idle(self.services)

    def on_pause(self) -> bool:
        """The system may end us now: everything confirmed is written before we return."""
        self.services.records.flush()
        return True

    def on_resume(self) -> None:
        """Some devices come back with a black window."""
        Window.canvas.ask_update()
        self._ask_again()

    def on_stop(self) -> None:
        """End the threads; what was asked for is finished first."""
        Window.unbind(on_keyboard=self._key)
        self._asking.cancel()
        self.ring.close()
        self.services.close()

    def _begin(self) -> None:
        self._today = TodayPage(self.services, self)
        self._items: ItemsPage | None = None
        self.stack.begin(self._today)

    def _who_acted(self) -> tuple[list[Person], bool]:
        people = self._register.people()
        return people, bool(people) and self._register.pins.asked_of(people[0])

    def _take_people(self, people: list[Person], pinned: bool) -> None:
        self.person = people[0] if people and not pinned else None  # a PIN is asked for at every start
        if self.preferences.cautions_seen < preferences.CAUTIONS:
            self.stack.push(
                ReadPage(
                    say("Before you begin"),
                    tuple(say(one) for one in CAUTIONS),
                    say("I have read this"),
                    self._cautions_seen,
                    leaves=False,
                )
            )
        elif self.person is None:
            self.ask_who()

    def _cautions_seen(self) -> None:
        self.prefer(cautions_seen=preferences.CAUTIONS)
        self.stack.pop()
        if self.person is None:
            self.ask_who()

    # --- where to go -------------------------------------------------------------------------------------

    def back(self) -> None:
        """Go one page back; nothing that was confirmed is lost by it."""
        top = self.stack.top
        if top is not None and top.leaves and not top.leave():
            self.stack.pop()

    def show_items(self) -> None:
        """Open the list of items: always the same page, as the person left it, but for what was searched for last."""
        from app.touch.screens.items.items import ItemsPage

        self._items = self._items or ItemsPage(self.services, self)
        self._items.look_for("")
        self.stack.push(self._items)

    def show_item(self, item_id: str) -> None:
        """Open one item."""
        from app.touch.screens.item.item import ItemPage

        self.stack.push(ItemPage(self.services, self, item_id))

    def show_settings(self) -> None:
        """Open the settings."""
        from app.touch.screens.settings.settings import SettingsPage

        self.stack.push(SettingsPage(self.services, self))

    def show_regimes(self) -> None:
        """Open the choice of the regimes that count."""
        from app.touch.screens.settings.regimes import RegimesPage

        self.stack.push(RegimesPage(self.services, self))

    def show_rules(self) -> None:
        """Open the rules with their sources."""
        from app.touch.screens.rules.rules import RulesPage

        self.stack.push(RulesPage(self.services, self))

    def show_rules_of(self, judgement: Judgement) -> None:
        """Open the rules that spoke in a judgement."""
        from app.touch.screens.rules.regime import SpokenPage

        spoke = frozenset((one.pack, one.rule) for one in (*judgement.rulings, *judgement.not_for_this_use))
        self.stack.push(SpokenPage(self.services, self, spoke))

    def begin(self, item_id: str, kind: InspectionKind, use: Use | None = None) -> None:
        """Begin an inspection or take up the interrupted one; asks first who inspects, if that is not known.

        `use` is what was told of the use of a whole round.
        """
        if self.person is None:
            self.ask_who(lambda _person: self.begin(item_id, kind, use))
            return
        if not self._beginning:  # a second finger on the same button
            self._beginning = True
            self.services.begin(item_id, kind, self.person, self._begun, self._not_begun, use)

    def _not_begun(self, error: Exception) -> None:
        self._beginning = False
        self.failed(error)

    def _begun(self, begun: Begun) -> None:
        from app.touch.screens.inspect.inspect import InspectPage

        self._beginning = False
        page = InspectPage(self.services, self, begun)
        # Weakly: a page that was left must go.
        below = self.stack.top
        self._begun_on, self._inspecting = ref(below) if below else lambda: None, ref(page)
        self.stack.push(page)

    def show_keypad(self, inspect: "InspectPage", step: Step) -> None:
        """Open the keypad's sheet."""
        from app.touch.screens.keypad.keypad import KeypadPage

        self.stack.push(KeypadPage(self, inspect, step))

    def show_photograph(self, inspect: "InspectPage", step: Step) -> None:
        """Open the photographs of a step."""
        from app.touch.screens.photograph.photograph import PhotographPage

        self.stack.push(PhotographPage(self.services, self, inspect, step))

    def show_answer(self, inspect: "InspectPage", told: Told) -> None:
        """Open the answer of an inspection."""
        from app.touch.screens.answer.answer import AnswerPage

        self.stack.push(AnswerPage(self.services, self, inspect, told))

    def logged(self, said: str) -> None:
        """An inspection was logged: back to the round or correction it was begun in, else to today, and told there."""
        from app.touch.screens.records.correct import WrongPage
        from app.touch.screens.round.round import RoundPage

        begun_on = self._begun_on()
        if isinstance(begun_on, RoundPage | WrongPage):
            begun_on.notice = said
            self.stack.pop(self._inspecting())
        else:
            self.logged_round(said)

    def logged_round(self, said: str) -> None:
        """A round was logged: back to today, which says so."""
        self._today.notice = said
        self.stack.home()

    def ask_who(self, then: Callable[[Person], None] | None = None) -> None:
        """Ask who is inspecting."""
        from app.touch.screens.people.people import PeoplePage

        def chosen(person: Person) -> None:
            self.person = person
            if then is not None:
                then(person)

        self.stack.push(PeoplePage(self.services, self, self.person, chosen))

    def _ask_again(self, *_event: object) -> None:
        """A PIN counts for some hours; what is under way stays as it is below the question."""
        person = self.person
        if person is None or not self.acting.lapsed(person):
            return
        from app.touch.screens.people.again import AgainPage
        from app.touch.screens.people.people import PeoplePage

        if not isinstance(self.stack.top, AgainPage | PeoplePage):
            self.stack.push(AgainPage(self.services, self, person))

    # --- preferences, keys, errors -----------------------------------------------------------------------

    @property
    def preferences(self) -> Preferences:
        """What this device remembers, with the unit of length of whoever acts."""
        return self._kept.of(self.person.name) if self.person is not None else self._kept

    def prefer_unit(self, name: str, unit: str) -> None:
        """Change the unit of length that a person reads first."""
        self.prefer(units={**self._kept.units, name: unit})

    def prefer(self, **what: Any) -> None:
        """Change what this device remembers; seen at once, kept on the disk behind it."""
        changed = self._kept = self._kept.changed(**what)
        self.theme.name, self.theme.text_scale = changed.theme, changed.text_scale
        if changed.language != language.spoken():  # every page says what it says once: they are made anew
            language.use(changed.language)
            self._begin()
            self.show_settings()
        self.services.records.do(lambda: preferences.write(self._folder, changed))

    def failed(self, error: Exception) -> None:
        """Show an error that carries a sentence for the person; any other one goes on."""
        from app.photos import PhotoRefused

        if not isinstance(error, (*TOLD, PhotoRefused)):
            if not self.shows_errors:
                raise error
            what = say("The program met a fault of its own ({fault}).", fault=type(error).__name__)
        else:
            what = told(str(error))
        if isinstance(self.stack.top, ErrorPage):  # one at a time: an error that comes with every frame would bury it
            return
        kept = say("Everything the screen has confirmed before is kept on this device.")
        self.stack.push(
            ErrorPage(
                what,
                kept,
                say(
                    "Go back and try again. If it happens again, close the app and open it: "
                    "the inspection is offered at the same place."
                ),
            )
        )

    def _key(self, _window: object, key: int, *_more: object) -> bool:
        if key != BACK:
            return False
        if self.stack.depth == 1:
            return False  # the system's own: leave the app; it comes back as it was
        self.back()
        return True

    def _follow_paper(self, *_changed: object) -> None:
        Window.clearcolor = self.theme.paper


def _pictures_folder() -> Path:
    home = Path.home()
    return next((home / name for name in ("Pictures", "DCIM") if (home / name).is_dir()), home)
