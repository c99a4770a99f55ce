"""Sentences of the rules and the register in German: none of the program's own words is left over."""

import json
import sys
import time
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from random import Random

import pytest

from app import language
from app.demo import inspect
from app.harbour import SEED, Clock, stories
from app.language import say, told
from app.language.telling import Teller, entries
from app.resources import asset
from inspection_rules.book import shipped
from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement
from inspection_rules.quantity import QuantityError, parse, parse_angle
from inspection_rules.words import InspectionKind

sys.path.insert(0, str(Path(__file__).parents[1] / "inspection_rules"))
from everywhere import Json, changed, judged, sound_case, sound_items

REASON = "Xx"  # what the cases below type as a reason
KINDS = (InspectionKind.PERIODIC, InspectionKind.AS_FOUND)


@pytest.fixture(autouse=True)
def german() -> Iterator[None]:
    language.use("de")
    yield
    language.use("en")


@pytest.fixture(scope="module")
def teller() -> Teller:
    return Teller(entries(asset("language/de.mo").read_bytes()), str)


def said(judgement: Judgement) -> Iterator[str]:
    """Every text of a judgement that a screen shows."""
    for one in (*judgement.rulings, *judgement.not_for_this_use, *judgement.for_this_use):
        yield from (one.title, one.sentence, one.action, one.u_source, str(one.mends))
    yield from (*judgement.advisories, judgement.next_due_why, *(one.ask for one in judgement.missing))


def typed(item: Item, *more: str) -> set[str]:
    """What people and documents say in these cases: it stays as it is."""
    book = shipped()
    sources = {str(kept.source).partition(" · ")[0] for pack in book.packs for kept in pack.retention}
    own = {item.maker_criteria, *(part.required_by for part in item.parts)}
    own |= {one.document for one in item.instructions} | {one.reason for one in item.instructions}
    return sources | own | set(more)


def left_over(teller: Teller, texts: set[str], stays: set[str]) -> dict[str, tuple[str, ...]]:
    """The texts of which something stayed English that nobody typed."""
    found = {text: teller.tell(text).left for text in texts}
    return {text: left for text, left in found.items() if not {one.rstrip(".") for one in left} <= stays}


def spoiled(case: Json) -> Iterator[Json]:
    """The case with everything on it wrong, in one way after the other."""
    book, item = shipped(), Item.model_validate(case["item"])
    yield case
    for number in range(8):
        seen = changed(case)
        for finding in seen["inspection"]["findings"]:
            answers = book.observations[finding["observation"]].answers(item, finding["part"])
            if number < len(answers):
                finding |= {"seen": "present", "conditions": [answers[number].id]}
        yield seen
    blind = changed(case)
    for finding in blind["inspection"]["findings"]:
        finding |= {"seen": "could not be examined", "reason": REASON}
    yield blind
    for factor in (0.0, 0.5, 0.93, 1.07, 2.0):
        other = changed(case)
        for reading in other["inspection"]["readings"]:
            reading["values"] = [_times(value, factor) for value in reading["values"]]
        yield other
    for change in (
        {"readings": []},
        {"by": {"name": "mate", "competence": "user"}},
    ):
        other = changed(case)
        other["inspection"] |= change
        yield other
    wet = changed(case)
    for reading in wet["inspection"]["readings"]:
        reading["moisture"] = "wet"
    yield wet
    yield changed(case) | {"on": "2056-01-01"}
    yield changed(case) | {"baselines": [], "earlier": []}


def _times(value: str, factor: float) -> str:
    number, _, unit = value.partition(" ")
    size = (float(number) or 3) * factor
    return f"{size:g} {unit}" if unit else f"{size:.0f}"


@pytest.mark.parametrize("kind", KINDS, ids=str)
def test_whatever_the_rules_say_of_a_typical_item_is_told_whole(teller: Teller, kind: InspectionKind) -> None:
    wrong: dict[str, tuple[str, ...]] = {}
    for item in Random(kind).sample(sound_items(), 24):  # another few at every kind; all would take minutes
        texts = {text for case in spoiled(sound_case(item, kind)) for text in said(judged(case))}
        wrong |= left_over(teller, texts, typed(item, REASON))
    assert wrong == {}


def test_every_example_is_told_whole(teller: Teller) -> None:
    wrong: dict[str, tuple[str, ...]] = {}
    for path in sorted(asset("examples").glob("*.json")):
        case = Case.model_validate(json.loads(path.read_text(encoding="utf-8")))
        reasons = {finding.reason for finding in case.inspection.findings}
        names = {one.by.name for one in case.accepted} | {one.extent for one in case.accepted}
        wrong |= left_over(teller, set(said(judge(case, shipped()))), typed(case.item, *reasons, *names))
    assert wrong == {}


def test_the_rounds_of_the_harbour_are_told_whole(teller: Teller) -> None:
    today = date(2050, 10, 12)
    rng = Random(SEED)
    clock = Clock(rng)
    book = shipped()
    wrong: dict[str, tuple[str, ...]] = {}
    for story in stories(today):
        past = []
        for visit in story.visits:
            at = clock.at(visit.on)
            done = inspect(story.item, visit, clock, rng, book, at, dict.fromkeys(visit.scenes, "0" * 64))
            past.append(done)
        texts: set[str] = set()
        for number in sorted({len(past) // 2, len(past) - 1}):
            texts |= set(said(judge(_case(story.item, past[: number + 1]), book)))
        reasons = {finding.reason for one in past for finding in one.findings}
        wrong |= left_over(teller, texts, typed(story.item, *reasons))
    assert wrong == {}


def _case(item: Item, visits: list) -> Case:  # type: ignore[type-arg]
    baselines = ("as made", "bedded in", "as found")
    *before, last = visits
    return Case(
        on=last.on,
        item=item,
        inspection=last,
        baselines=tuple(one for one in before if one.kind in baselines),
        earlier=tuple(one for one in before if one.kind not in baselines),
        regimes=("Mooring", "Tree work", "US fall protection", "US lifting"),
    )


@pytest.mark.parametrize(
    "text", ["24", "1,234 mm", "abc", "24 furlong", "-3 mm", "5 kg", "", "9" * 80, "1/0 in", "2.5"]
)
def test_what_is_wrong_with_a_number_is_told(teller: Teller, text: str) -> None:
    for read in (lambda: parse(text, "length"), lambda: parse(text, "count"), lambda: parse_angle(text)):
        try:
            read()
        except QuantityError as error:
            assert teller.tell(str(error)).left == (), str(error)


def test_a_sentence_is_told_with_its_dates_and_words() -> None:
    assert told("It was accepted until 2050-10-12; that has passed.") == (
        "It was accepted until 2050-10-12; that has passed."
    )
    assert told("The inspection due by 2050-10-12 has not been made.") == (
        "Die am 12. Okt. 2050 fällige Prüfung ist nicht gemacht worden."
    )
    assert told("No factor for a choker hitch.") == "Kein Faktor für die Anschlagart geschnürt."


def test_numbers_and_units_stay_as_they_were_typed() -> None:
    assert told("1 1/8 in, limit at most 2.5 in. 1.4 in inside.").startswith(
        "1 1/8 in, Grenzwert höchstens 2.5 in. 1.4 in"
    )


@pytest.mark.parametrize(
    "text", ["taped over", "splice instruction no. 4", "cut by mate, see log", "Leg 2 of the bridle"]
)
def test_what_somebody_typed_is_never_half_told(text: str) -> None:
    sentence = (
        f"Is every lock stitch whole and straight: could not be examined ({text}). What was not examined does not pass."
    )
    assert f"({text})" in told(sentence)


def test_what_no_template_knows_stays_english() -> None:
    assert told("Something that nobody has ever written here.") == "Something that nobody has ever written here."


def test_english_is_told_as_it_is_with_its_days_for_people() -> None:
    language.use("en")
    sentence = "The inspection due by 2050-10-12 has not been made."
    assert told(sentence) == "The inspection due by 12 Oct 2050 has not been made."


def test_a_day_that_shows_how_to_type_one_stays() -> None:
    hint = "a date: 2050-01-10"
    assert "2050-01-10" in say(hint)
    fault = "'1/2/50' is no date that reads one way only; write it as 2050-01-10"
    assert "2050-01-10" in told(fault)
    language.use("en")
    assert (say(hint), told(fault)) == (hint, fault)


def test_a_sentence_told_before_is_told_at_once(teller: Teller) -> None:
    sentence = "1705 mm, limit at least 1728 mm (splice instruction); as made less confirmed slip. 23 mm short."
    teller.tell(sentence)
    began = time.perf_counter()
    for _ in range(100):
        teller.tell(sentence)
    assert (time.perf_counter() - began) / 100 < 0.0002


def test_a_catalogue_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="no compiled catalogue"):
        entries(b"nonsense")
