"""A field where text is typed: its hint is never taken for what was typed."""

import pytest
from driver import Driver

from app.touch.theme import TABLES
from app.touch.widgets.fields import TextField


@pytest.fixture
def field(ui: Driver) -> TextField:
    """The field for a name, with its hint."""
    ui.tap("Inspecting")
    found: TextField = ui.widget(hint_text="Name or role")
    return found


def test_the_hint_stands_above_the_box(field: TextField) -> None:
    assert field._line.size[1] > 0
    assert field._line.pos[1] >= field._box.pos[1] + field._box.size[1]


def test_the_box_holds_no_hint(field: TextField) -> None:
    assert field.text == ""
    assert field.hint_text_color[3] == 0


def test_the_box_is_as_high_as_a_finger_without_its_hint(field: TextField) -> None:
    assert field._box.size[1] >= 64


@pytest.mark.parametrize("theme", TABLES)
def test_the_hint_is_written_in_the_themes_ink_for_quiet_words(field: TextField, ui: Driver, theme: str) -> None:
    ui.app.theme.name = theme
    ui.lay_out()
    assert field._hint.color == ui.app.theme.quiet


def test_a_hint_that_changes_is_drawn_anew(field: TextField, ui: Driver) -> None:
    ui.tap("Add this person")
    assert field._hint.text == "Type it here first"
    assert field._line.texture is field._hint.texture
