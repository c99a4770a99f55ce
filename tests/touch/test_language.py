"""The app in German: nothing on a screen stays English, nothing is cut off."""

import gc
import re
import sys
from collections import defaultdict
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from audit import Problems, audit
from driver import Driver
from harbour import NOW, harbour
from kivy.metrics import Metrics
from tours import PEOPLE, TOURS, files

from app import language
from app.language import day_text, say
from app.language.telling import entries
from app.resources import asset
from app.touch import preferences
from app.touch.application import ThroatmarkApp
from app.touch.widgets.buttons import Tappable
from inspection_rules.book import shipped

sys.path.insert(0, str(Path(__file__).parents[1]))
import catalogue

GERMAN = entries(asset("language/de.mo").read_bytes())
SAID = set(GERMAN.values())
ENGLISH = re.compile(
    r"\b(the|of|is|are|and|not|to|for|with|from|who|what|no|by|your|you|all|every|it|be|on|at|as|or|here|has|have)\b",
)
# Names of documents, and what people here call things.
STAYS = sorted(
    {
        part
        for pack in shipped().packs
        for source in (*(rule.source for rule in pack.rules), *(kept.source for kept in pack.retention))
        for part in (source.document, source.edition, source.clause)
        if part
    }
    | {
        "quay lifting sling",
        "yard examiner",
        "splice instruction",
        "chafe is on the cover only",
        "the splice's own instruction, sheet 2",
        "the splice's own instruction",
        "/deck: the disk is full. Free some space on the device and enter it again.",
    },
    key=len,
    reverse=True,
)
WINDOWS = [((360, 640), 2)]  # where the least fits in
WAYS = [(window, area) for window in WINDOWS for area in TOURS]
# Texts that are the same in both languages, names and what was typed.
GAP = re.compile(r"\{\w*\}")
MESSAGES = [
    pair
    for one in catalogue.read("de")
    if one.id
    for pair in (zip(one.id, one.string, strict=True) if isinstance(one.id, tuple) else [(one.id, one.string)])
]


class GermanDriver(Driver):
    """Asks for every text in German: the tour's words are English, and often only the beginning of a sentence."""

    def button(self, text: str) -> Any:
        for wanted in self._spoken(text):
            found = [w for w in self.widgets() if isinstance(w, Tappable) and wanted.match(self._says(w))]
            exact = [w for w in found if wanted.fullmatch(self._says(w))]
            if found:
                return (exact or found)[0]
        raise LookupError(f"no button {text!r}; on screen: {self.texts()}")

    def shows(self, text: str) -> bool:
        return any(one.search(shown) for one in self._spoken(text) for shown in self.texts())

    def _tap_if_there(self, text: str) -> None:
        super()._tap_if_there(say(text))

    def say_the_state(self) -> None:
        """Confirm the tension and moisture that a keypad asks about once a visit."""
        ending = say("{state}: as it is now", state="")
        found = [w for w in self.widgets() if isinstance(w, Tappable) and self._says(w).endswith(ending)]
        if found:
            self.tap(found[0])

    def search(self, text: str) -> None:
        begun = (german for english, german in MESSAGES if english.lower().startswith(text))
        self.tap(self.widget(hint_text=say("Search")))
        self.type(next(begun, text)[:11])
        self.quiet()

    @staticmethod
    def _spoken(text: str) -> list[re.Pattern[str]]:
        """The German of a text, or of every message that it fills in or begins, as patterns."""
        text = re.sub(r"\d+ (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) \d{4}", _german_day, text)
        if len(text) < 4:
            return [_pattern(say(text)), _pattern(text)]
        begun = [german for english, german in MESSAGES if english.startswith(text) and german[:1] != "{"]
        filled = [
            german
            for english, german in MESSAGES
            if GAP.search(english) and len(GAP.sub("", english)) > 2 and _pattern(english).fullmatch(text)
        ]
        return [_pattern(one) for one in dict.fromkeys((say(text), *begun, *filled, text))]


def _german_day(found: re.Match[str]) -> str:
    return day_text(datetime.strptime(found[0], "%d %b %Y").date())


def _pattern(text: str) -> re.Pattern[str]:
    return re.compile(".+".join(re.escape(one) for one in GAP.split(text)))


def english(shown: str) -> bool:
    """Whether a text on the screen is an English message that has another German one, or reads like English."""
    plain = re.sub(r"\[/?\w+(=[^]]*)?\]|^/\S*(\n\S+)*$", "", shown).strip()
    for stays in STAYS:
        plain = plain.replace(stays, "")
    known = any(part in GERMAN and GERMAN[part] != part and part not in SAID for part in _parts(plain))
    return known or bool(ENGLISH.search(plain))


def _parts(shown: str) -> Iterator[str]:
    yield shown
    yield from shown.split("\n")
    yield from shown.split(" · ")
    yield from re.split(r"(?<=[.?!]) ", shown)


@pytest.fixture(scope="module", params=WAYS, ids=lambda way: f"{way[0][0][0]}x{way[0][0][1]} x{way[0][1]} {way[1]}")
def toured(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, screenshots: Path
) -> Iterator[Problems]:
    """All problems found on a tour, by kind."""
    (size, scale), area = request.param
    folder = files(tmp_path_factory.mktemp("tour"))
    found: Problems = defaultdict(list)
    gc.collect()
    gc.freeze()
    chosen = preferences.Preferences(cautions_seen=preferences.CAUTIONS, language="de")
    with harbour(folder / "register") as register:
        register.set_people(PEOPLE)
        TOURS[area].prepare(register)
        preferences.write(folder / "register", chosen)
        with GermanDriver(ThroatmarkApp(register, now=lambda: NOW), size) as ui:
            for number, name in enumerate(TOURS[area].pages(ui, folder)):
                ui.app.theme.text_scale = scale
                ui.lay_out()
                for kind, problems in audit(ui).items():
                    found[kind] += [f"{name}: {one}" for one in problems if str(folder.parent) not in one]
                found["english"] += [f"{name}: {text!r}" for text in ui.texts() if english(text)]
                ui.screenshot(screenshots / f"German {size[0]} x{scale}" / f"{area} {number:02d} {name}.png")
                found["pages"].append(name)
                ui.app.theme.text_scale = 1
                ui.lay_out()
    language.use("en")
    Metrics.fontscale = 1
    yield found


def test_no_screen_holds_an_english_text(toured: Problems) -> None:
    assert len(toured["pages"]) > 5
    assert not toured["english"], "\n".join(toured["english"])


def test_no_text_is_cut_off_and_no_word_broken(toured: Problems) -> None:
    assert not toured["cut"], "\n".join(toured["cut"])


def test_nothing_lies_outside_the_window(toured: Problems) -> None:
    assert not toured["outside"], "\n".join(toured["outside"])


def test_targets_keep_their_size_and_distance(toured: Problems) -> None:
    assert not toured["small"] and not toured["close"], "\n".join(toured["small"] + toured["close"])
