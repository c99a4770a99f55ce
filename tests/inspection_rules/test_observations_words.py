"""The words of every question and reading: short enough for a phone at the largest type, each for what it is about."""

from collections.abc import Iterator
from functools import cache

import pytest

from app.figures import FIGURES
from inspection_rules.book import shipped
from inspection_rules.item import Item
from inspection_rules.observation import Observation
from inspection_rules.rule import Rule
from inspection_rules.typical import typical_items
from inspection_rules.words import Construction, Duty, FittingKind, ItemKind, Layout, PartKind, SpliceKind, Thimble

from .bodies import climbing_line, looked_at

LONGEST_LOOK = 165  # characters: six lines of a phone 360 dp wide at the largest type
LONGEST_ASK = 58
LONGEST_ANSWER = 38
ALL = list(shipped().observations.values())


def fitted(item: Item) -> Iterator[Item]:
    """An item, and it as it may be fitted out: thimbles, chafe gear, buried tails, a layout, one end, fittings."""
    yield item
    raw = item.model_dump(mode="json")
    own = {"thimble": Thimble.CAPTIVE, "chafe_gear": True, "tails_buried": True, "layout": Layout.THREE_FID}
    spliced = [part | own if part["kind"] in ("termination", "joint") else part for part in raw["parts"]]
    yield Item.model_validate(raw | {"parts": spliced, "duty": Duty.MOORING, "continuous": True, "fibre": "HMPE"})
    plain = [part | {"lock_stitched": False} for part in raw["parts"]]
    yield Item.model_validate(raw | {"parts": plain, "duty": Duty.LIFE_SUPPORT, "fibre": "manila"})
    if len(item.terminations) > 1:
        yield Item.model_validate(raw | {"parts": [part for part in raw["parts"] if part["end"] != "B"]})
    hung = [{"id": kind, "kind": PartKind.FITTING, "fitting": kind} for kind in FittingKind]
    yield Item.model_validate(raw | {"parts": [*raw["parts"], *hung]})


@cache
def met() -> dict[str, set[Observation]]:
    """Every observation by its id, in each of the words that some typical item is asked it in."""
    found: dict[str, set[Observation]] = {}
    regimes = {pack.regime for pack in shipped().packs if pack.regime}
    for one in typical_items():
        for item in fitted(one):
            for observation in ALL:
                for part in observation.parts(item):
                    words = found.setdefault(observation.id, set())
                    words.add(observation.worded_for(item, part))
                    words |= {observation.worded_for(item, part, {regime}) for regime in regimes}
    return found


@pytest.mark.parametrize("one", ALL, ids=lambda one: one.id)
def test_every_observation_is_asked_of_some_typical_item(one: Observation) -> None:
    assert one.id in met()


@pytest.mark.parametrize("one", ALL, ids=lambda one: one.id)
def test_every_wording_is_heard_on_some_typical_item(one: Observation) -> None:
    heard = met()[one.id]
    for wording in one.worded:
        assert any(
            (not wording.ask or wording.ask == said.ask)
            and (not wording.look or wording.look in said.look.split("\n"))
            and (not wording.good or wording.good == said.good)
            and {(c.id, c.say) for c in wording.conditions} <= {(c.id, c.say) for c in said.conditions}
            for said in heard
        ), wording


@pytest.mark.parametrize("one", ALL, ids=lambda one: one.id)
def test_the_question_is_one_line(one: Observation) -> None:
    for said in met()[one.id]:
        assert len(said.ask) <= LONGEST_ASK, said.ask
        assert said.kind == "reading" or said.ask.endswith("?"), said.ask


@pytest.mark.parametrize("one", ALL, ids=lambda one: one.id)
def test_how_to_look_stands_above_the_answers(one: Observation) -> None:
    for said in met()[one.id]:
        assert said.look
        for line in said.look.split("\n"):
            assert len(line) <= LONGEST_LOOK, line
            assert line.endswith((".", "!")), line


@pytest.mark.parametrize("one", ALL, ids=lambda one: one.id)
def test_one_way_to_look_is_told_where_no_regime_asks_for_more(one: Observation) -> None:
    for item in (fit for one_item in typical_items() for fit in fitted(one_item)):
        for part in one.parts(item):
            assert "\n" not in one.worded_for(item, part).look, (one.id, item.kind, item.construction)


@pytest.mark.parametrize("one", [o for o in ALL if o.kind == "question"], ids=lambda one: one.id)
def test_answers_fit_their_buttons_and_differ(one: Observation) -> None:
    for said in met()[one.id]:
        answers = [said.good, *(condition.say for condition in said.conditions)]
        assert len(set(answers)) == len(answers)
        assert all(len(answer) <= LONGEST_ANSWER for answer in answers), answers


@pytest.mark.parametrize("one", ALL, ids=lambda one: one.id)
def test_every_observation_has_a_figure(one: Observation) -> None:
    assert one.figure in FIGURES


@pytest.mark.parametrize("one", ALL, ids=lambda one: one.id)
def test_other_words_change_nothing_but_words(one: Observation) -> None:
    plain = one.model_dump(exclude={"ask", "look", "good", "conditions"})
    for said in met()[one.id]:
        assert said.model_dump(exclude={"ask", "look", "good", "conditions"}) == plain
        assert [c.model_dump(exclude={"say"}) for c in said.conditions] == [
            c.model_dump(exclude={"say"}) for c in one.conditions
        ]


def worded(name: str, item: Item) -> list[str]:
    """Everything a person reads at an observation, wherever this item is asked it."""
    one = shipped().observations[name]
    found = []
    for part in one.parts(item):
        said = one.worded_for(item, part)
        found += [said.ask, said.look, said.good, *(answer.say for answer in said.answers(item, part))]
    return found


@pytest.mark.parametrize(
    ("construction", "other"), [(Construction.KERNMANTLE, "cover"), (Construction.DOUBLE_BRAID, "sheath")]
)
def test_a_rope_is_asked_about_in_the_word_of_its_construction(construction: Construction, other: str) -> None:
    """What kernmantle wears is a sheath, what double braid wears is a cover."""
    for item in typical_items():
        if item.construction is construction and SpliceKind.DOUBLE_BRAID_EYE not in {one.splice for one in item.parts}:
            for one in (one for one in ALL if one.on != "fitting"):
                said = " ".join(worded(one.id, item)).lower().replace("lay covered", "")
                assert other not in said, (one.id, said)


def test_kernmantle_is_never_asked_about_a_lay_or_its_pitch() -> None:
    for item in typical_items():
        if item.construction is Construction.KERNMANTLE:
            body = [one for one in ALL if one.on == "body"]
            words = " ".join(text for one in body for text in worded(one.id, item)).lower()
            assert "the lay" not in words
            assert "pitch" not in words


@pytest.mark.parametrize("kind", FittingKind)
def test_a_fitting_is_asked_about_by_its_own_name(kind: FittingKind) -> None:
    raw = {
        "id": "x", "tag": "x", "kind": ItemKind.ROUNDSLING, "duty": Duty.LIFTING, "fibre": "polyester",
        "parts": [{"id": "body", "kind": "body"}, {"id": "F", "kind": "fitting", "fitting": kind}],
    }  # fmt: skip
    item = Item.model_validate(raw)
    said = shipped().observations["fitting"].worded_for(item, "F").ask
    names = {"master link": "link"}
    assert names.get(kind.value, kind.value) in said
    assert not any(other.value in said for other in FittingKind if other is not kind and other.value not in kind.value)


def tag_rules() -> list[tuple[str, Rule]]:
    return [
        (pack.regime, rule)
        for pack in shipped().packs
        if pack.regime
        for rule in pack.rules
        if rule.condition is not None and rule.condition.observation == "tag_content"
    ]


@pytest.mark.parametrize(("regime", "rule"), tag_rules(), ids=lambda one: getattr(one, "id", one))
def test_where_a_regime_rules_what_the_tag_says_the_question_lists_it(regime: str, rule: Rule) -> None:
    """Every item that the regime's rule is for is told the marks in a line that names the regime."""
    one = shipped().observations["tag_content"]
    items = [fit for item in typical_items() for fit in fitted(item) if rule.applies.to_item(fit)]
    assert items
    for item in items:
        assert any(line.startswith(f"{regime}: ") for line in one.worded_for(item, "", {regime}).look.split("\n"))


def test_two_regimes_each_list_their_marks() -> None:
    sling = next(item for item in typical_items() if item.kind is ItemKind.WEB_SLING)
    lines = shipped().observations["tag_content"].worded_for(sling, "", {"EU", "UK"}).look.split("\n")
    assert [line.split(":")[0] for line in lines] == ["EU", "UK"]


def test_where_no_regime_rules_the_tag_the_question_lists_what_every_tag_says() -> None:
    sling = next(item for item in typical_items() if item.kind is ItemKind.WEB_SLING)
    look = shipped().observations["tag_content"].worded_for(sling, "", set()).look
    assert all(word in look for word in ("made", "carry", "fibre", "size", "length", "serial"))


def test_what_was_not_looked_at_is_named_in_the_words_it_was_asked_in() -> None:
    judgement = looked_at(climbing_line(), kind="before use", regimes=[], without=(("body", "cover"),))
    assert [one.ask for one in judgement.missing] == ["Is the sheath whole and tight, all round and all along?"]
    assert any(one.sentence.startswith("Is the sheath whole and tight") for one in judgement.rulings)
