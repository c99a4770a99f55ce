"""The item's page: where it stands and why, its charts, its parts, its photographs and all of its past, by touches."""

import shutil
from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path
from random import Random

import pytest
from audit import audit
from driver import Driver
from harbour import BURIED, EXAMINER, MATE, NOW, sound
from kivy.uix.image import Image

from app import demo
from app.harbour import SEED, SPLICER, Clock, stories
from app.register import Register, new_id
from app.touch import preferences
from app.touch.application import ThroatmarkApp
from app.touch.drawing import FigureView
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.item.charts import ScaledView
from app.touch.screens.item.photos import ShotButton
from app.touch.screens.item.stands import accepted_cards
from app.touch.screens.people.people import PeoplePage
from app.touch.widgets.buttons import RowButton
from inspection_rules.book import shipped
from inspection_rules.case import Use
from inspection_rules.events import Decision, Incident, Placed, WorkDone
from inspection_rules.judge import judge
from inspection_rules.judgement import content_hash
from inspection_rules.standing import Accepted, Standing
from inspection_rules.words import DecisionKind, InspectionKind, Mend, Where

TODAY = NOW.date()


@pytest.fixture(scope="session")
def creeping(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The harbour's towing pendant, whose marks creep, with its two years of readings and today's pictures."""
    folder = tmp_path_factory.mktemp("pendant") / "register"
    story = next(one for one in stories(TODAY) if one.item.tag == "TP-01")
    rng = Random(SEED)
    clock = Clock(rng)
    with Register.create(folder, "demo") as register:
        register.set_regimes(demo.REGIMES)
        register.set_people([MATE, EXAMINER])
        register.add_item(story.item, SPLICER, clock.at(story.visits[0].on))
        for visit in story.visits:
            demo._log(register, shipped(), story.item, visit, clock, rng)
    preferences.write(folder, preferences.Preferences(cautions_seen=preferences.CAUTIONS))
    return folder


@pytest.fixture
def pendant(creeping: Path, tmp_path: Path) -> Iterator[Register]:
    shutil.copytree(creeping, tmp_path / "pendant")
    with Register.open(tmp_path / "pendant") as register:
        yield register


@pytest.fixture
def open_item() -> Iterator[Callable[..., Driver]]:
    """Open the page of a register's only item."""
    running: list[Driver] = []

    def start(register: Register, tag: str = "TP-01", size: tuple[int, int] = (412, 892)) -> Driver:
        driver = Driver(ThroatmarkApp(register, now=lambda: NOW), size)
        running.append(driver)
        driver.__enter__()
        driver.app.show_item(register.find(tag, on=TODAY)[0].id)
        grown(driver)
        return driver

    yield start
    for driver in running:
        driver.__exit__()


def grown(ui: Driver) -> None:
    """Wait until a long past has been added, row by row."""
    ui.quiet()
    ui.until(lambda: not getattr(ui.page, "_coming", ()))
    ui.quiet()


def rows(ui: Driver) -> list[RowButton]:
    return [one for one in ui.widgets() if isinstance(one, RowButton)]


def charts(ui: Driver) -> list[FigureView]:
    found = [one for one in ui.widgets() if isinstance(one, ScaledView) and one.figure is not None]
    return [one for one in found if one.figure.name == "chart"]


def all_texts(ui: Driver) -> str:
    return "\n".join([*ui.texts(), *(f"{row.title}\n{row.line}\n{row.more}" for row in rows(ui))])


def test_what_must_not_be_used_is_headed_so_and_says_what_to_do(
    pendant: Register, open_item: Callable[..., Driver]
) -> None:
    ui = open_item(pendant)
    assert ui.shows("DO NOT USE")
    assert ui.shows("have a competent person examine the splice")


def test_who_inspects_is_seen_with_the_competence_and_is_one_tap_away(
    pendant: Register, open_item: Callable[..., Driver]
) -> None:
    ui = open_item(pendant)
    ui.tap("Inspecting: mate · user")
    assert isinstance(ui.page, PeoplePage)
    ui.tap("yard examiner")
    assert ui.shows("Inspecting: yard examiner · competent person")


def test_the_day_it_is_due_names_what_set_it(register: Register, open_item: Callable[..., Driver]) -> None:
    ui = open_item(register, "RS-01")
    due = register.judged("rs-01")[-1].judgement
    assert ui.shows("Next examination by")
    assert due.next_due_why
    assert ui.shows(f"Set by: {due.next_due_why}.")


def test_six_reasons_stand_open_and_a_tap_brings_all(register: Register, open_item: Callable[..., Driver]) -> None:
    look = sound(BURIED, InspectionKind.BEFORE_USE, NOW - timedelta(hours=1), by=MATE)
    look = look.model_copy(update={"findings": ()})  # nothing was looked at: everything is missing
    register.log_inspection(look, judge(register.case(look, on=TODAY), shipped()))
    still = register.standing("rs-01", TODAY).open
    assert len(still) > 6
    ui = open_item(register, "RS-01")
    before = sum(text.startswith("Found ") for text in ui.texts())
    ui.tap(f"Show {len(still) - 6} more reason")
    assert (before, sum(text.startswith("Found ") for text in ui.texts())) == (6, len(still))


def test_where_an_item_is_stands_on_its_page(register: Register, open_item: Callable[..., Driver]) -> None:
    register.log_placed(
        Placed(id=new_id(), item="rs-01", at=NOW, by=MATE, where=Where.ON_LOAN, note="to the tree crew")
    )
    ui = open_item(register, "RS-01")
    assert (ui.shows("On loan since 12 Oct 2050"), ui.shows("On loan to the tree crew.")) == (True, True)


def test_what_a_use_rules_out_stands_beside_the_answer(register: Register, open_item: Callable[..., Driver]) -> None:
    look = sound(BURIED, InspectionKind.BEFORE_USE, NOW - timedelta(hours=1))
    heavy = Use.model_validate({"load": "9000 kN", "legs": 1, "leg_angle": "90° from horizontal", "hitch": "straight"})
    judgement = judge(register.case(look, on=TODAY, use=heavy), shipped())
    assert judgement.not_for_this_use
    register.log_inspection(look, judgement)
    assert open_item(register, "RS-01").shows("Not for this use")


def test_everything_recorded_of_it_is_one_tap_away_as_it_was_typed(
    pendant: Register, open_item: Callable[..., Driver]
) -> None:
    ui = open_item(pendant)
    ui.tap("About this item")
    said = all_texts(ui)
    for text in ("Nominal diameter: 24 mm", "Length: 20 m", "Required bury: 1728 mm", "Marks from the throat: 48 mm"):
        assert text in said


def test_the_chart_of_the_quantity_nearest_to_its_limit_is_on_the_page(
    pendant: Register, open_item: Callable[..., Driver]
) -> None:
    ui = open_item(pendant)
    assert len(charts(ui)) == 1
    assert ui.shows("5.5 mm, read 12 Oct 2050. Good to ± 2.7 mm. Limit at most 3.3 mm. 2.2 mm beyond the limit.")


def test_the_other_charts_are_one_tap_away(pendant: Register, open_item: Callable[..., Driver]) -> None:
    ui = open_item(pendant)
    ui.tap("All 6 charts")
    assert len(charts(ui)) == 6
    assert ui.shows(" mm, reckoned 12 Oct 2050 from what was read before.")


def test_a_chart_is_as_wide_as_its_place_at_every_size_of_text(
    pendant: Register, open_item: Callable[..., Driver]
) -> None:
    ui = open_item(pendant, size=(360, 640))
    for scale in (1, 2):
        ui.app.theme.text_scale = scale
        ui.quiet()
        (chart,) = charts(ui)
        assert chart.height == pytest.approx(chart.width * chart.figure.height)
        assert chart.width > 150


def test_the_rope_is_drawn_to_scale(pendant: Register, open_item: Callable[..., Driver]) -> None:
    ui = open_item(pendant)
    names = [one.figure.name for one in ui.widgets() if isinstance(one, ScaledView)]
    assert names[0] == "rope to scale"


def test_a_tap_on_a_part_opens_its_rulings_charts_and_photographs(
    pendant: Register, open_item: Callable[..., Driver]
) -> None:
    ui = open_item(pendant)
    ui.tap(ui.station("A", "eye"))
    assert ui.page.heading == "TP-01 · end A"
    assert ui.shows("Slip of the tail · end A")
    assert len(charts(ui)) == 1
    assert [one.text for one in ui.widgets() if isinstance(one, ShotButton)] == ["end A · marks", "end A · stitch"]
    assert "splice to scale" in [one.figure.name for one in ui.widgets() if isinstance(one, ScaledView)]


def test_the_readings_of_a_part_can_be_seen_as_they_were_taken(
    pendant: Register, open_item: Callable[..., Driver]
) -> None:
    ui = open_item(pendant)
    ui.tap(ui.station("A", "eye"))
    ui.tap("Readings as they were taken")
    assert ui.shows("Offset between the two marks")
    assert ui.shows("5.5 mm, read 12 Oct 2050.")


def test_the_layout_a_splice_should_have_is_one_tap_from_its_part(
    pendant: Register, open_item: Callable[..., Driver]
) -> None:
    ui = open_item(pendant)
    ui.tap(ui.station("A", "eye"))
    ui.tap("The layout it should have")
    assert ui.page.heading == "The layout it should have"
    assert ui.page.under.startswith("TP-01 · end A")


def test_a_part_without_a_layout_offers_none(pendant: Register, open_item: Callable[..., Driver]) -> None:
    ui = open_item(pendant)
    ui.tap(ui.station("body", "body"))
    assert not ui.shows("The layout it should have")


def test_photographs_stand_under_their_day_and_open_large(pendant: Register, open_item: Callable[..., Driver]) -> None:
    ui = open_item(pendant)
    assert ui.shows("12 Oct 2050")
    ui.tap("end A · marks")
    picture = next(one for one in ui.widgets() if isinstance(one, Image))
    ui.until(lambda: picture.texture is not None and picture.height > 0)
    ui.quiet()
    wide, high = picture.texture.size
    assert wide > 640
    assert picture.height == pytest.approx(picture.width * high / wide)
    assert picture.width > 360


def test_a_photograph_that_is_not_stored_says_so(pendant: Register, open_item: Callable[..., Driver]) -> None:
    ui = open_item(pendant)
    ui.app._register.picture = lambda _sha: None
    ui.tap("end A · marks")
    assert ui.shows("not stored on this device")


def test_every_record_is_in_the_history_newest_first(pendant: Register, open_item: Callable[..., Driver]) -> None:
    item = pendant.find("TP-01", on=TODAY)[0].id
    pendant.log_work(
        WorkDone(
            id=new_id(), item=item, at=NOW + timedelta(minutes=1), by=MATE, part="A", mends=Mend.LOOK, what="washed"
        )
    )
    pendant.log_decision(
        Decision(
            id=new_id(), item=item, at=NOW + timedelta(minutes=2), by=EXAMINER, kind=DecisionKind.CONDEMN,
            reason="the tail has moved",
        )
    )  # fmt: skip
    ui = open_item(pendant)
    found = rows(ui)
    assert [row.title for row in found[:3]] == [
        "12 Oct 2050 · decision: condemn",
        "12 Oct 2050 · work done",
        "12 Oct 2050 · periodic",
    ]
    assert found[0].line == "the tail has moved · yard examiner · competent person"
    assert found[1].line == "end A · washed · mate · user"
    assert len(found) == len(pendant.past(item))


def test_an_inspection_opens_in_full(pendant: Register, open_item: Callable[..., Driver]) -> None:
    ui = open_item(pendant)
    ui.tap("12 Oct 2050 · periodic")
    said = all_texts(ui)
    assert "As it was judged then, by the rules of then." in said
    assert "Offset between the two marks\n    6 mm, 5 mm, 6 mm, 5 mm · steel rule · hand-taut · dry" in said
    assert "Common practice · no published source" in said
    assert [one.text for one in ui.widgets() if isinstance(one, ShotButton)] == ["end A · marks", "end A · stitch"]


def test_a_corrected_record_is_struck_and_says_why(register: Register, open_item: Callable[..., Driver]) -> None:
    wrong = register.judged("rs-01")[-1].inspection
    register.correct(wrong.id, "the other sling was read", EXAMINER, NOW)
    ui = open_item(register, "RS-01")
    struck = next(row for row in rows(ui) if row.more)
    assert struck.more == "corrected on 12 Oct 2050 because the other sling was read"
    assert [label.strikethrough for label in struck.ids.words.children] == [False, True, True]
    ui.tap(struck)
    assert ui.shows("This record no longer counts: corrected on 12 Oct 2050 because the other sling was read.")


def test_a_correction_names_what_it_corrected(register: Register, open_item: Callable[..., Driver]) -> None:
    wrong = register.judged("rs-01")[-1].inspection
    register.correct(wrong.id, "the other sling was read", EXAMINER, NOW)
    ui = open_item(register, "RS-01")
    ui.tap("12 Oct 2050 · correction")
    assert ui.shows("What was corrected: 12 Sep 2050 · periodic")


def test_an_incident_names_what_shared_the_load_by_its_tag(
    register: Register, open_item: Callable[..., Driver]
) -> None:
    register.log_incident(
        Incident(id=new_id(), item="rs-01", at=NOW, by=MATE, what="snatched", load_path=("rs-02", "not-here"))
    )
    ui = open_item(register, "RS-02")
    ui.tap("12 Oct 2050 · incident")
    assert ui.shows("What shared the load: RS-01, not-here")


def test_an_accepted_condition_says_how_big_and_until_when(
    register: Register, open_item: Callable[..., Driver]
) -> None:
    open_item(register, "RS-01")  # a card looks at the app's theme
    accepted = Accepted(
        acceptance="one", rule="worn", part="A", title="Wear", extent="two yarns fluffed", by="yard examiner",
        on=TODAY, until=TODAY + timedelta(days=30),
    )  # fmt: skip
    standing = Standing(state="in service", answer="watch", accepted=(accepted,), sentence="Use it.")
    (card,) = accepted_cards(standing, BURIED)
    assert (card.answer, card.title) == ("watch", "Wear · end A")
    assert card.lines[0] == "Accepted by yard examiner, no bigger than: two yarns fluffed"
    assert card.lines[1].startswith("Until 11 Nov 2050")


def test_an_item_entered_a_moment_ago_says_that_nothing_was_inspected(
    register: Register, open_item: Callable[..., Driver]
) -> None:
    register.add_item(BURIED.model_copy(update={"id": "rs-09", "tag": "RS-09"}), EXAMINER, NOW)
    ui = open_item(register, "RS-09")
    assert ui.shows("No inspection is recorded yet.")
    assert [row.title for row in rows(ui)] == ["12 Oct 2050 · entered"]
    assert not charts(ui)


def test_another_inspection_is_offered(pendant: Register, open_item: Callable[..., Driver]) -> None:
    ui = open_item(pendant)
    ui.tap("Another inspection")
    assert isinstance(ui.page, ChoicePage)


def test_what_else_happened_is_one_tap_away(pendant: Register, open_item: Callable[..., Driver]) -> None:
    ui = open_item(pendant)
    ui.tap("What else happened to it?")
    assert type(ui.page).__name__ == "RecordsPage"


@pytest.mark.parametrize("size", [(360, 640), (892, 412)])
def test_where_the_buttons_scroll_they_stand_below_the_answer(
    pendant: Register, open_item: Callable[..., Driver], size: tuple[int, int]
) -> None:
    ui = open_item(pendant, size=size)
    ui.app.theme.text_scale = 2
    ui.quiet()
    page = ui.page
    assert page.foot.parent is page.body
    assert page.body.children[-2] is page.foot


def test_coming_back_from_a_record_finds_the_page_as_it_was_left(
    pendant: Register, open_item: Callable[..., Driver]
) -> None:
    ui = open_item(pendant)
    kept = rows(ui)[5]
    ui.tap(kept)
    ui.back()
    grown(ui)
    assert rows(ui)[5] is kept


def long_past(register: Register, count: int) -> None:
    """That many sound looks at RS-01, a day apart, judged once: what is tested is the page."""
    first = sound(BURIED, InspectionKind.PERIODIC, NOW - timedelta(days=29))
    judgement = judge(register.case(first, on=first.on), shipped())
    for number in range(count):
        look = first.model_copy(update={"id": new_id(), "at": NOW - timedelta(hours=4 * (count - number))})
        stamp = {"on": look.on, "inspection_sha256": content_hash(look)}
        register.log_inspection(look, judgement.model_copy(update=stamp))


def test_a_long_past_shows_its_newest_forty_and_the_older_ones_at_a_tap(
    register: Register, open_item: Callable[..., Driver]
) -> None:
    long_past(register, 120)
    ui = open_item(register, "RS-01")
    assert len(rows(ui)) == 40
    ui.tap("Show older")
    grown(ui)
    assert len(rows(ui)) == 80
    titles = [row.title for row in rows(ui)]
    assert titles[0].startswith("12 Oct 2050")
    assert titles[40].startswith("5 Oct 2050")


def test_a_long_past_is_added_a_few_records_in_each_frame(register: Register, open_item: Callable[..., Driver]) -> None:
    long_past(register, 120)
    ui = open_item(register, "RS-02")
    ui.app.show_item("rs-01")
    ui.until(lambda: ui.page.body.children)
    assert len(rows(ui)) <= 10


@pytest.mark.parametrize("size", [(360, 640), (800, 1280), (892, 412)])
@pytest.mark.parametrize("scale", [1, 2])
def test_no_page_of_an_item_cuts_off_or_crowds(
    pendant: Register, open_item: Callable[..., Driver], size: tuple[int, int], scale: float
) -> None:
    ui = open_item(pendant, size=size)
    ui.app.theme.text_scale = scale
    grown(ui)
    problems = {"item": dict(audit(ui))}
    for name, target in (
        ("part", lambda: ui.station("A", "eye")),
        ("about", lambda: "About this item"),
        ("charts", lambda: "All 6 charts"),
        ("record", lambda: "12 Oct 2050 · periodic"),
        ("photograph", lambda: "end A · marks"),
    ):
        ui.tap(target())
        grown(ui)
        problems[name] = dict(audit(ui))
        ui.back()
        grown(ui)
    assert not {name: found for name, found in problems.items() if found}
