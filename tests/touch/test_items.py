"""The list of items: found while typing, narrowed, added to."""

from collections.abc import Callable
from pathlib import Path

import pytest
from driver import Driver
from harbour import BURIED, EXAMINER, NOW

from app.register import Register
from app.touch import preferences
from app.touch.screens.items.items import AT_ONCE, ItemRowButton
from inspection_rules.events import Placed

READY = "app.touch.screens.items.items.reader_installed"


def listed(ui: Driver) -> list[str]:
    return [row["key"] for row in ui.page.ids.list.data]


@pytest.mark.parametrize("typed", ["rs2", "RS-02", "rs 02", "rs-0002", "gangway pol", "GÁNGWAY", "sandp"])
def test_an_item_is_found_however_it_is_written(ui: Driver, typed: str) -> None:
    ui.tap("All items")
    ui.search(typed)
    assert listed(ui) == ["rs-02"]
    assert ui.page.under == "1 found"


def test_a_row_says_what_may_be_done_until_when_and_where_it_belongs(ui: Driver) -> None:
    ui.tap("All items")
    row = ui.page.ids.list.data[0]
    assert row["title"] == "RS-01 · quay lifting sling"
    assert row["line"].startswith("serviceable · due ")
    assert row["more"] == "quay yard"


def test_a_row_of_what_is_not_here_says_first_where_it_is(ui: Driver, register: Register) -> None:
    register.log_placed(Placed(id="p", item="rs-01", at=NOW, by=EXAMINER, where="on loan"))
    ui.tap("All items")
    row = ui.page.ids.list.data[0]
    assert row["line"] == "On loan · its last answer: serviceable"
    assert row["more"].startswith("examination by ")
    assert row["more"].endswith(" · quay yard")


def test_what_must_not_be_used_says_so_in_its_row(ui: Driver, register: Register) -> None:
    register.add_item(BURIED.model_copy(update={"id": "new", "tag": "RS-03"}), EXAMINER, NOW)
    ui.tap("All items")
    assert ui.page.ids.list.data[2]["line"] == "DO NOT USE · hold"
    assert ui.page.ids.list.data[2]["more"].startswith("refer to a competent person")


def test_the_filter_in_force_is_in_sight_and_one_tap_clears_it(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("Filter")
    ui.tap("quay yard · 1 item")
    ui.tap("Show these")
    assert listed(ui) == ["rs-01"]
    ui.tap("Only: quay yard. Tap to show all")
    assert listed(ui) == ["rs-01", "rs-02"]


def test_filters_of_several_kinds_are_taken_together_and_put_away_by_a_second_tap(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("Filter")
    ui.tap("Sandpiper · 1 item")
    ui.tap("Do not use")
    ui.tap("Show these")
    assert ui.page.under == "None found: try fewer letters, or show all"
    ui.tap("Filter")
    ui.tap("Do not use")
    ui.tap("Show these")
    assert listed(ui) == ["rs-02"]


def test_new_items_are_entered_from_here(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("New item")
    assert ui.page.heading == "New item"


def test_without_a_label_reader_the_list_says_that_typing_works(
    drive: Callable[..., Driver], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(READY, lambda: False)
    ui = drive()
    ui.tap("All items")
    assert ui.shows("Typing the tag always works")
    with pytest.raises(LookupError):
        ui.button("Scan a label")


def test_a_list_of_hundreds_is_found_and_scrolled_with_the_rows_that_are_in_sight(
    ui: Driver, register: Register, folder: Path
) -> None:
    register.add_items(
        [BURIED.model_copy(update={"id": f"i{n}", "tag": f"T-{n:05}"}) for n in range(400)], EXAMINER, NOW
    )
    ui.tap("All items")
    assert len(listed(ui)) == AT_ONCE
    ui.search("t311")
    assert listed(ui) == ["i311"]
    drawn = len(ui.page.ids.rows.children)
    for step in range(30):
        ui.page.ids.list.scroll_y = 1 - step / 40
        ui.frames()
    assert len(ui.page.ids.rows.children) <= drawn + 2  # rows are used again, however long the list is


def test_large_text_on_a_small_phone_leaves_the_tag_and_do_not_use_in_sight(
    folder: Path, register: Register, drive: Callable[..., Driver]
) -> None:
    preferences.write(folder, preferences.Preferences(cautions_seen=preferences.CAUTIONS, text_scale=2))
    long = "breast line, spliced by the yard and whipped at both ends"
    register.add_item(BURIED.model_copy(update={"id": "a", "tag": "A-04", "description": long}), EXAMINER, NOW)
    ui = drive((360, 640))
    ui.tap("All items")
    row = next(one for one in ui.widgets() if isinstance(one, ItemRowButton) and one.key == "a")
    for label, lines in zip(row.ids.words.children, (3, 2, 2), strict=True):
        assert not label.shorten
        assert label.height <= label.font_size * lines * 1.5
    title, line, _ = reversed(row.ids.words.children)
    assert "".join(word.text for word in title._label._cached_lines[0].words).startswith("A-04")
    assert line.text.startswith("DO NOT USE")
