"""The rules as a person reads them: regimes, rules with their sources, criteria."""

import threading
from collections.abc import Callable
from pathlib import Path

import pytest
from driver import Driver
from harbour import EXAMINER, MATE, SITE

from app.register import Register
from app.touch.screens.rules import regime
from app.touch.screens.rules.listed import Listed, ListedRow
from inspection_rules.book import RuleBook, shipped
from inspection_rules.rule import Rule


def to_rules(ui: Driver) -> None:
    ui.tap("Settings")
    ui.tap("Every rule and its source")


def test_every_regime_is_there_and_says_how_many_rules_it_has(ui: Driver) -> None:
    to_rules(ui)
    for name in {pack.regime for pack in shipped().packs if pack.regime}:
        assert name in ui.texts()
    assert ui.shows("no source")


def test_a_regime_is_chosen_and_put_away_again_with_a_tap(ui: Driver, register: Register) -> None:
    ui.app.person = EXAMINER
    ui.tap("Settings")
    ui.tap("Choose which regimes count")
    ui.tap("US lifting: does not count")
    assert register.regimes() == ("US lifting",)
    ui.tap("US lifting: counts")
    assert register.regimes() == ()


def test_a_user_reads_the_regimes_but_changes_none(ui: Driver, register: Register) -> None:
    ui.tap("Settings")
    ui.tap("Choose which regimes count")
    assert ui.shows("US lifting: does not count")
    assert ui.shows("Only a competent or a qualified person changes this; you act as mate · user.")
    with pytest.raises(LookupError):
        ui.button("US lifting")


def test_the_regimes_are_changed_once_a_competent_person_acts(ui: Driver, register: Register) -> None:
    register.set_people([MATE, EXAMINER])
    ui.tap("Settings")
    ui.tap("Choose which regimes count")
    ui.tap("Somebody else acts")
    ui.tap("yard examiner")
    ui.tap("US lifting: does not count")
    assert register.regimes() == ("US lifting",)


def test_a_regime_is_left_as_it_is_by_a_button_from_before_a_user_acted(ui: Driver, register: Register) -> None:
    ui.app.person = EXAMINER
    ui.tap("Settings")
    ui.tap("Choose which regimes count")
    ui.app.person = MATE
    ui.tap("US lifting: does not count")
    assert register.regimes() == ()


def test_settings_name_the_regimes_that_count(ui: Driver) -> None:
    ui.app.person = EXAMINER
    ui.tap("Settings")
    ui.tap("Choose which regimes count")
    ui.tap("US lifting")
    ui.back()
    assert ui.shows("Common practice · US lifting")


def test_a_rule_shows_its_limit_clause_edition_and_that_it_was_read(ui: Driver) -> None:
    to_rules(ui)
    ui.tap("US lifting")
    ui.search("(h)(3)(iii)")
    ui.tap("Strand tail beyond the last full tuck")
    assert ui.shows("at least 6 × the nominal diameter; 6 in from 1 in diameter on")
    assert ui.shows("29 CFR 1910.184(h)(3)(iii) (text read in 1926.251(d)")
    assert ui.shows("Read: somebody has read the clause itself.")


def test_a_rule_of_common_practice_says_that_nobody_published_it(ui: Driver) -> None:
    to_rules(ui)
    ui.tap("Common practice")
    ui.search("slip of the tail")
    ui.tap("Slip of the tail")
    assert ui.shows("there is no published source")


def test_rules_are_searched_while_typing(ui: Driver) -> None:
    to_rules(ui)
    ui.tap("US lifting")
    ui.search("manila tucks")
    assert [row["key"] for row in ui.page.ids.list.data] == ["tucks-manila"]


def test_the_keyboard_goes_down_a_long_list_row_by_row(ui: Driver) -> None:
    to_rules(ui)
    ui.tap("US lifting")
    rows: list[str] = []
    for _ in range(16):
        ui.key("tab")
        ui.lay_out()
        if isinstance(ui.app.ring.at, ListedRow):
            rows.append(ui.app.ring.at.key)
    assert len(rows) > 12
    assert rows == [row["key"] for row in ui.page.ids.list.data][: len(rows)]


def test_a_criterion_shows_the_rules_that_apply_it(ui: Driver) -> None:
    to_rules(ui)
    ui.tap("Each criterion with its rules")
    ui.search("strand tails of a laid")
    ui.tap("Strand tails of a laid sling")
    ui.tap("Strand tail beyond the last full tuck")
    assert ui.shows("What it asks")


def test_the_answer_leads_to_the_rules_that_spoke(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("RS-02")
    ui.tap("Before use")
    ui.tap("Missing or unreadable")
    ui.tap("Stop here and see the answer")
    ui.tap("Why these limits")
    keys = {row["key"] for row in ui.page.ids.list.data}
    assert "tag-not-this-item" in keys
    assert "tag-illegible" not in keys  # its regime does not count here


def test_rules_are_put_into_words_away_from_the_windows_thread(
    drive: Callable[..., Driver], monkeypatch: pytest.MonkeyPatch
) -> None:
    threads: list[int] = []
    write = regime.listed

    def noted(rule: Rule, book: RuleBook) -> Listed:
        threads.append(threading.get_ident())
        return write(rule, book)

    monkeypatch.setattr(regime, "listed", noted)
    ui = drive()
    to_rules(ui)
    ui.tap("US lifting")
    assert threads
    assert threading.get_ident() not in threads


def test_rules_that_lie_with_the_register_are_shown_with_the_others(folder: Path, drive: Callable[..., Driver]) -> None:
    (folder / "packs").mkdir()
    (folder / "packs" / "harbour.toml").write_text(SITE, encoding="utf-8")
    ui = drive()
    to_rules(ui)
    ui.tap("Harbour")
    ui.tap("Effective diameter, this harbour")
    assert ui.shows("at most 8 %")
    assert ui.shows("Set by the site itself.")
