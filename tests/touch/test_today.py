"""Today: what was interrupted, what is asked for, by place, and what was just logged, in sight."""

from collections.abc import Callable
from datetime import timedelta

import pytest
from driver import Driver
from harbour import BURIED, EXAMINER, MATE, NOW

from app.register import Register, new_id
from app.touch.screens.today.today import FEW_ROWS, MOST_ROWS, TodayPage
from app.touch.widgets.buttons import RowButton
from inspection_rules.events import Placed
from inspection_rules.item import Item
from inspection_rules.words import Where


def shown_rows(ui: Driver) -> list[str]:
    return [one.title.split(" · ")[0] for one in ui.widgets() if isinstance(one, RowButton)]


def many(register: Register, count: int, place: str = "loft") -> None:
    """Items nobody has inspected: each is on hold."""
    parts = [{"id": "body", "kind": "body"}]
    register.add_items(
        [
            Item.model_validate(
                {
                    "id": f"x{number}", "tag": f"XX-{number}", "description": "roundsling", "place": place,
                    "kind": "roundsling", "duty": "lifting", "fibre": "polyester", "parts": parts,
                }
            )
            for number in range(1, count + 1)
        ],
        EXAMINER,
        NOW - timedelta(days=9),
    )  # fmt: skip


def test_an_interrupted_inspection_is_offered_at_the_top(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Before use")
    ui.good(2)
    while not ui.shows("Go on with RS-01"):
        ui.back()
    ui.tap("Go on with RS-01")
    assert len(ui.page.visit.inspection.entries) == 2


def test_only_one_place_is_shown_until_another_is_chosen(register: Register, drive: Callable[..., Driver]) -> None:
    many(register, 3)
    ui = drive()
    assert "XX-1" in shown_rows(ui)
    ui.tap("All places")
    ui.tap("Sandpiper")
    assert "XX-1" not in shown_rows(ui)
    ui.tap("All items")
    ui.back()
    assert ui.button("Only Sandpiper")
    ui.tap("Only Sandpiper")
    ui.tap("loft")
    assert "XX-1" in shown_rows(ui)


@pytest.mark.parametrize("where", [Where.ASHORE, Where.ON_LOAN, Where.NOT_FOUND])
def test_what_is_not_here_stands_in_a_group_of_its_own(
    where: Where, register: Register, drive: Callable[..., Driver]
) -> None:
    many(register, 1)
    register.log_placed(Placed(id=new_id(), item="x1", at=NOW, by=MATE, where=where))
    ui = drive()
    assert ui.shows("Ashore, on loan or not found · 1")
    assert not ui.shows("On hold: do not use")
    assert ui.shows(f"{where.value} · hold: refer to a competent person")


def test_what_was_looked_at_today_is_shown(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("RS-02")
    ui.tap("Before use")
    ui.good_to_the_end()
    ui.tap("Sign and log as mate")
    assert ui.shows("Looked at today · 1")
    assert "RS-02" in shown_rows(ui)


def test_what_was_just_logged_is_in_sight_however_far_down_the_page_was(
    register: Register, drive: Callable[..., Driver]
) -> None:
    many(register, 30)
    ui = drive()
    ui.tap("All places")
    ui.tap("loft")
    ui.tap("Show 25 more")
    ui.tap("XX-30")
    ui.app.logged_round("Logged: something.")
    ui.quiet()
    assert ui.page.ids.scroll.scroll_y == 1
    notice = next(one for one in ui.widgets() if getattr(one, "text", "") == "Logged: something.")
    assert 0 < notice.to_window(*notice.pos)[1] < ui.size[1]


def test_a_long_group_is_cut_and_counted(register: Register, drive: Callable[..., Driver]) -> None:
    many(register, 60)
    ui = drive()
    assert ui.shows("On hold: do not use · 60")
    assert len(shown_rows(ui)) == FEW_ROWS
    ui.tap("Show 35 more")
    assert len(shown_rows(ui)) == MOST_ROWS
    assert ui.shows("and 20 more, in the list of all items")


def test_a_group_with_one_row_more_than_the_few_is_shown_whole(
    register: Register, drive: Callable[..., Driver]
) -> None:
    many(register, FEW_ROWS + 1)
    assert len(shown_rows(drive())) == FEW_ROWS + 1


def test_a_group_that_was_unfolded_stays_so(register: Register, drive: Callable[..., Driver]) -> None:
    many(register, 10)
    ui = drive()
    ui.tap("Show 5 more")
    ui.tap("All items")
    ui.back()
    assert len(shown_rows(ui)) == 10


def test_the_first_page_is_put_together_once_at_the_start(
    register: Register, drive: Callable[..., Driver], monkeypatch: pytest.MonkeyPatch
) -> None:
    filled = []
    fill = TodayPage.fill
    monkeypatch.setattr(TodayPage, "fill", lambda page, *content: (filled.append(page), fill(page, *content)))
    ui = drive()
    assert ui.shows("Inspecting: mate")
    assert len(filled) == 1


def test_nothing_to_do_is_said(ui: Driver) -> None:
    assert ui.shows("Nothing is due, on hold or to be removed.")


def test_a_device_whose_date_lies_before_its_records_says_so_first(
    register: Register, drive: Callable[..., Driver]
) -> None:
    register.log_placed(Placed(id=new_id(), item=BURIED.id, at=NOW + timedelta(days=40), by=MATE, where=Where.ASHORE))
    ui = drive()
    assert ui.shows("The date of this device, 12 Oct 2050, lies before the latest record of 1 item.")


def test_a_device_whose_date_is_right_does_not_speak_of_it(ui: Driver) -> None:
    assert not ui.shows("The date of this device")
