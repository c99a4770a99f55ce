"""Drive the app as a person does: the one real window, frames pumped by hand, touches at positions."""

import time
from collections.abc import Callable, Iterator
from itertools import cycle
from pathlib import Path
from typing import Any

from kivy.animation import Animation
from kivy.base import EventLoop, runTouchApp
from kivy.clock import Clock
from kivy.core.window import Window
from kivy.graphics import ClearBuffers, ClearColor, Fbo
from kivy.input.motionevent import MotionEvent
from kivy.input.postproc import kivy_postproc_modules
from kivy.lang import Builder
from PIL import Image

from app.language import say
from app.touch.application import ThroatmarkApp
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.widgets.buttons import RowButton, Tappable
from app.touch.widgets.focus import bring_into_sight
from app.touch.widgets.page import Page
from app.touch.widgets.rope import RopeSpine, StationButton

_fbos: dict[tuple[int, int], Fbo] = {}


class Finger(MotionEvent):
    """A touch as a touch screen sends it: position only, no mouse button."""

    _ids = 0

    def __init__(self, x: float, y: float) -> None:
        Finger._ids += 1
        super().__init__("test", Finger._ids, self._at(x, y), is_touch=True, type_id="touch")
        self.profile = ["pos"]

    @staticmethod
    def _at(x: float, y: float) -> dict[str, float]:
        return {"x": x / (Window.width - 1), "y": y / (Window.height - 1)}

    def depack(self, args: Any) -> None:
        self.sx, self.sy = args["x"], args["y"]
        super().depack(args)

    def goto(self, x: float, y: float) -> None:
        self.move(self._at(x, y))


class Driver:
    """Context manager: start the app, act on it, end it.

    Attributes:
        draws: whether what a tap has changed is drawn in the window, which in software takes longest; the walks do so,
            and a screenshot always does.
    """

    draws = False

    def __init__(self, app: ThroatmarkApp, size: tuple[int, int] = (412, 892), *, rests: bool = False) -> None:
        """`rests`: whether what has just come under the finger rests for a moment, as it does for a person."""
        self.app, self.size, self.rests = app, size, rests
        self.taps = 0

    def __enter__(self) -> "Driver":
        if not Window.initialized:
            Window.create_window()
        Window.register()  # a stopped loop has dropped the window as listener
        self._old_events = set(Clock.get_events())
        EventLoop.quit = False
        if tuple(Window.size) != self.size:
            Window.size = self.size
        self.app._run_prepare()
        runTouchApp(embedded=True)
        self.app.stack.rests = self.rests
        self.settle()
        return self

    def __exit__(self, *exc: object) -> None:
        Animation._instances.clear()  # those whose clock is stopped below would keep their widgets for ever
        for module in kivy_postproc_modules.values():  # they remember the last touches, each with what it was on
            getattr(module, "touches", {}).clear()
        self.app._stop()
        for child in Window.children[:]:  # App._stop leaves some behind
            Window.remove_widget(child)
        for event in set(Clock.get_events()) - self._old_events:
            event.cancel()
        Window.release_all_keyboards()

    # --- time --------------------------------------------------------------------------------------------

    def frames(self, count: int = 1) -> None:
        """Let the loop turn without drawing: in software that takes longest, and the eye needs only the last one."""
        for _ in range(count):
            Clock.tick()
            EventLoop.dispatch_input()
            Builder.sync()
            Clock.tick_draw()
            Builder.sync()
            Window.mainloop()

    def draw(self) -> None:
        """Draw the window where something in it has changed."""
        if self.draws and Window.canvas.needs_redraw:
            Window.dispatch("on_draw")
            Window.dispatch("on_flip")

    def lay_out(self, turns: int = 8) -> None:
        """Let the layout follow a change, without drawing it."""
        for _ in range(turns):
            Clock.tick()
            Builder.sync()
            Clock.tick_draw()

    def until(self, condition: Callable[[], Any], timeout: float = 20.0) -> Any:
        deadline = time.monotonic() + timeout
        while not (value := condition()):
            if time.monotonic() > deadline:
                raise TimeoutError(f"not true within {timeout} s; on screen: {self.texts()}")
            self.frames()
            time.sleep(0.001)  # worker threads starve otherwise
        return value

    def settle(self) -> None:
        """Wait until a resize has reached SDL, the viewport and the widgets, and all work is done."""
        self.until(lambda: tuple(self.app.root.size) == tuple(Window._win.window_size) == self.size)
        resize = Window._do_resize_ev
        self.until(lambda: resize is None or not resize.is_triggered)
        self.quiet()

    def quiet(self) -> None:
        """Wait until nothing is being read, written, judged or taken in, and the layout has followed."""
        self.frames(2)
        self.until(lambda: self.app.services.idle)
        self.frames(3)
        self.until(lambda: self.app.services.idle)
        self.draw()

    def resize(self, width: int, height: int) -> None:
        self.size = Window.size = (width, height)
        self.settle()

    # --- what is on the screen -----------------------------------------------------------------------------

    @property
    def page(self) -> Page:
        return self.app.stack.top

    def widgets(self) -> Iterator[Any]:
        return self.page.walk()

    def texts(self) -> list[str]:
        return [w.text for w in self.widgets() if getattr(w, "text", "") and w.opacity]

    def shows(self, text: str) -> bool:
        return any(text in one for one in self.texts())

    def button(self, text: str) -> Any:
        """The button that begins with this text, in the language in use; a whole match is preferred."""
        text = say(text) if text == text.strip() else text
        found = [w for w in self.widgets() if isinstance(w, Tappable) and self._says(w).startswith(text)]
        exact = [w for w in found if self._says(w) == text]
        if not found:
            raise LookupError(f"no button {text!r}; on screen: {self.texts()}")
        return (exact or found)[0]

    def widget(self, **attributes: object) -> Any:
        """The first widget of the page whose attributes equal these."""
        for w in self.widgets():
            if all(getattr(w, name, None) == value for name, value in attributes.items()):
                return w
        raise LookupError(f"no widget with {attributes}; on screen: {self.texts()}")

    @staticmethod
    def _says(widget: Any) -> str:
        return widget.title if isinstance(widget, RowButton) else widget.text

    def station(self, part: str, name: str) -> StationButton:
        return next(w for w in self.widgets() if isinstance(w, StationButton) and w.key == (part, name))

    def sign(self, part: str, name: str) -> str:
        rope = next(w for w in self.widgets() if isinstance(w, RopeSpine))
        return rope._views[(part, name)].answer

    # --- what a person does ----------------------------------------------------------------------------------

    def touch(self, *path: tuple[float, float]) -> None:
        finger = Finger(*path[0])
        EventLoop._dispatch_input("begin", finger)
        self.frames()
        for point in path[1:]:
            finger.goto(*point)
            EventLoop._dispatch_input("update", finger)
            self.frames()
        EventLoop._dispatch_input("end", finger)
        self.frames(2)

    def bring(self, widget: Any) -> None:
        """Scroll until the widget is in sight."""
        bring_into_sight(widget)
        self.frames(3)

    def tap(self, target: Any) -> None:
        """Tap a button, given by its text or itself, wherever the page has to be scrolled for it."""
        widget = self.button(target) if isinstance(target, str) else target
        self.bring(widget)
        x, y = widget.to_window(*widget.center)
        assert 0 <= x <= Window.width and 0 <= y <= Window.height, f"{target} is outside the window at {x, y}"
        self.taps += 1
        released = []
        note = widget.fbind("on_release", lambda *_: released.append(1)) if isinstance(widget, Tappable) else None
        self.touch((x, y))
        if isinstance(widget, Tappable):
            self.until(lambda: released, 3.0)
            widget.unbind_uid("on_release", note)
        self.quiet()

    def good(self, times: int = 1) -> None:
        """Answer the question on the screen with the answer that names nothing wrong."""
        for _ in range(times):
            self.look_all_the_same()
            self.tap(self.page.visit.step.observation.good)

    def look_all_the_same(self) -> None:
        """Go on to the questions where it is said first that they take a competent person."""
        self._tap_if_there("Look all the same")

    def say_the_state(self) -> None:
        """Confirm the tension and moisture that a keypad asks about once a visit."""
        found = [w for w in self.widgets() if isinstance(w, Tappable) and self._says(w).endswith(": as it is now")]
        if found:
            self.tap(found[0])

    def keep_what_looks_odd(self) -> None:
        """Confirm a value that the keypad asks about."""
        self._tap_if_there("It is right: keep it")

    def _tap_if_there(self, text: str) -> None:
        if any(isinstance(w, Tappable) and self._says(w) == text for w in self.widgets()):
            self.tap(text)

    def good_until(self, text: str) -> None:
        """Answer so, question by question, until this text is on the screen."""
        self.look_all_the_same()
        while not self.shows(text):
            self.good()

    def good_to_the_end(self) -> None:
        """Answer so until the answer of the inspection is on the screen."""
        while isinstance(self.page, InspectPage):
            self.good()

    def type(self, text: str) -> None:
        for char in text:
            Window.dispatch("on_textinput", char)
        self.frames(2)

    def key(self, name: str, modifiers: tuple[str, ...] = ()) -> None:
        code = Window._system_keyboard.string_to_keycode(name)
        if not Window.dispatch("on_key_down", code, 0, None, list(modifiers)):
            Window.dispatch("on_keyboard", code, 0, None, list(modifiers))
        Window.dispatch("on_key_up", code, 0)
        self.frames(2)

    def back(self) -> None:
        self.key("escape")
        self.quiet()

    def search(self, text: str) -> None:
        """Type into the search of the list on the screen."""
        field = self.widget(hint_text=say("Search"))
        self.tap(field)
        self.until(lambda: field.focus)
        self.type(text)
        self.until(lambda: field.text.endswith(text))
        self.quiet()

    def number(self, keys: str) -> None:
        """Type a number on the keypad, key by key."""
        for key in keys.split():
            self.tap(key)

    def read(self, *numbers: str) -> None:
        """Type a reading with all the repeats it asks for, going round the numbers given."""
        self.tap("Type ")
        self.say_the_state()
        for keys in cycle(numbers):
            self.number(keys)
            self.tap("Record")
            self.keep_what_looks_odd()
            if not any(self._says(w) == "Record" for w in self.widgets() if isinstance(w, Tappable)):
                return

    def screenshot(self, path: Path) -> Path:
        """The whole window, at any size, under any video driver."""
        self.lay_out(turns=2)
        size = tuple(Window.size)
        # One for each size: Kivy keeps every Fbo that was drawn into, and updates it with the window's canvas.
        fbo = _fbos.setdefault(size, None) or Fbo(size=size, with_stencilbuffer=True)
        _fbos[size] = fbo
        fbo.clear()
        with fbo:
            ClearColor(*Window.clearcolor)
            ClearBuffers()
        fbo.add(Window.canvas)
        try:
            fbo.draw()
            picture = Image.frombytes("RGBA", tuple(Window.size), fbo.pixels)
        finally:
            fbo.remove(Window.canvas)
        path.parent.mkdir(parents=True, exist_ok=True)
        picture.transpose(Image.Transpose.FLIP_TOP_BOTTOM).convert("RGB").save(path, compress_level=1)
        return path
