"""Where text is typed."""

from typing import Any

from kivy.uix.textinput import TextInput

from app.touch.markup import load_markup


class TextField(TextInput):
    """A text field at least 64 dp high; Tab leaves it."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("multiline", False)
        super().__init__(write_tab=False, **kwargs)

    def keyboard_on_key_down(self, window: Any, keycode: Any, text: str, modifiers: Any) -> bool:
        """Leave Tab to the app's focus ring, and Escape to going back."""
        if keycode[1] == "tab":
            return False
        if keycode[1] == "escape":
            setattr(self, "focus", False)  # noqa: B010 - mypy cannot see Kivy's properties
            return False
        return bool(super().keyboard_on_key_down(window, keycode, text, modifiers))


load_markup(__file__)
