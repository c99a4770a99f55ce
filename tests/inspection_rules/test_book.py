"""Packs: what is refused, by file, rule and field, and what the shipped ones must be together."""

import hashlib
import tomllib
from importlib.resources import files
from itertools import product
from pathlib import Path
from typing import Any

import pytest

from inspection_rules.book import CaseError, PackError, RuleBook, questions_before_use, read_pack, shipped, with_pack
from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.typical import typical_items
from inspection_rules.words import ItemKind, Scope

from .strategies import laid_case, pendant_case

MOST_QUESTIONS = 12  # the product's own bound: a look before use adds no more than a minute
HEAD = '[pack]\nid = "harbour"\nversion = "1"\ntitle = "Harbour rules"\nregime = "harbour"\n'
RULE = """
[[rule]]
id = "short-tail"
title = "Strand tail"
fires = "The tail is short."
action = "Do not use it."
source = { document = "Harbour rules", kind = "site", verified = "none" }
applies = { splice = ["tucked eye"], tails_buried = true }
"""
LIMIT = 'limit = { measure = "tail", at_least = "80 mm", outcome = "hold" }\n'
CONFIRMED = (
    'movement = {{ measure = "slip", watch_k = "1.5", hold_k = "2", steps_to_remove = 2, confirmed = [{}], '
    'action = {{ formula = "slip_action", times = "0.5" }}, provisional = {{ formula = "diameters", times = "1" }} }}\n'
)
GOOD = HEAD + RULE + LIMIT


def offered(text: str, folder: Path) -> RuleBook:
    """The shipped book with this pack, read from a file called harbour.toml."""
    path = folder / "harbour.toml"
    path.write_text(text, encoding="utf-8")
    return with_pack(shipped(), path)


def test_good_pack_is_added_and_chosen_by_its_regime(tmp_path: Path) -> None:
    book = offered(GOOD, tmp_path)
    assert [pack.id for pack in book.chosen(["harbour"]) if "practice" not in pack.id] == ["harbour"]


def test_pack_is_stamped_with_the_hash_of_its_file(tmp_path: Path) -> None:
    assert offered(GOOD, tmp_path).packs[-1].sha256 == hashlib.sha256(GOOD.encode()).hexdigest()


RULE_FAULTS: dict[str, tuple[str, str, tuple[str, ...]]] = {
    "measure not known": ('measure = "tail"', 'measure = "strength"', ("measure", "'strength'", "tail")),
    "outcome not known": ('outcome = "hold"', 'outcome = "fail"', ("limit.outcome",)),
    "outcome that passes": ('outcome = "hold"', 'outcome = "serviceable"', ("limit.outcome",)),
    "limit without a bound": ('at_least = "80 mm", ', "", ("limit", "exactly one of at_least")),
    "two bounds": ('at_least = "80 mm"', 'at_least = "80 mm", at_most = "90 mm"', ("limit", "exactly one of")),
    "bound that is no quantity": ('"80 mm"', '"eighty"', ("limit.at_least",)),
    "bound as a bare number": ('"80 mm"', "80", ("limit.at_least",)),
    "formula not known": ('"80 mm"', '{ formula = "half" }', ("formula", "'half'", "diameters")),
    "field not known": ('outcome = "hold"', 'outcome = "hold", severity = 3', ("limit.severity",)),
    "splice not known": ('"tucked eye"', '"knot"', ("applies.splice.0",)),
    "source without its kind": (', kind = "site"', "", ("source.kind",)),
    "site source said to be read": ('verified = "none"', 'verified = "read"', ("source", "'verified' is 'none'")),
    "no title": ('title = "Strand tail"\n', "", ("title",)),
    "question not known": (
        LIMIT,
        'condition = { observation = "colour", when = ["red"], outcome = "hold" }\n',
        ("condition.observation", "'colour'"),
    ),
    "condition of a reading": (
        LIMIT,
        'condition = { observation = "tail", when = ["short"], outcome = "hold" }\n',
        ("condition.observation", "'tail'"),
    ),
    "condition not known": (
        LIMIT,
        'condition = { observation = "tag", when = ["red"], outcome = "hold" }\n',
        ("condition.when", "'red'", "unreadable"),
    ),
    "needed observation not known": (
        LIMIT,
        'needs = { inspection = ["periodic"], observations = ["colour"] }\n',
        ("needs.observations", "'colour'"),
    ),
    "inspection kind not known": (LIMIT, 'needs = { inspection = ["weekly"] }\n', ("needs.inspection.0",)),
    "two bodies": (LIMIT, LIMIT + 'needs = { inspection = ["periodic"] }\n', ("exactly one of limit",)),
    "no body": (LIMIT, "", ("exactly one of limit",)),
    "interval without normal service": (
        LIMIT,
        'interval = { since = ["periodic"], longest = { severe = "3 months" } }\n',
        ("interval", "'normal'"),
    ),
    "movement watched no sooner than it holds": (
        LIMIT,
        'movement = { measure = "slip", watch_k = "2", hold_k = "2", steps_to_remove = 2, '
        'action = { formula = "slip_action", times = "0.5" }, provisional = { formula = "diameters", times = "1" } }\n',
        ("movement", "'watch_k' must be less"),
    ),
    "confirmed by as little when it was read less": (
        LIMIT,
        CONFIRMED.format('{ readings = 4, k = "2.7" }, { readings = 2, k = "2.6" }'),
        ("movement", "from most readings to fewest"),
    ),
    "confirmed by the fewest readings first": (
        LIMIT,
        CONFIRMED.format('{ readings = 2, k = "2.7" }, { readings = 4, k = "4" }'),
        ("movement", "from most readings to fewest"),
    ),
    "use that meets nothing": (LIMIT, 'scope = "use"\nmeets = { }\n', ("meets", "give 'chemicals'")),
    "interval of no time": (
        LIMIT,
        'interval = { since = ["periodic"], longest = { normal = "0 days" } }\n',
        ("interval.longest",),
    ),
}


@pytest.mark.parametrize(("good", "bad", "named"), RULE_FAULTS.values(), ids=RULE_FAULTS)
def test_wrong_rule_is_refused_naming_file_rule_and_field(
    good: str, bad: str, named: tuple[str, ...], tmp_path: Path
) -> None:
    assert GOOD.count(good) == 1 or good == '"tucked eye"'
    with pytest.raises(PackError) as refused:
        offered(GOOD.replace(good, bad), tmp_path)
    said = str(refused.value)
    assert said.startswith("harbour.toml: rule short-tail: ")
    assert all(name in said for name in named)
    assert said.isprintable()


@pytest.mark.parametrize("left_out", ['action = "Do not use it."\n', 'fires = "The tail is short."\n'])
def test_condition_without_its_sentence_or_what_to_do_then_is_refused(left_out: str, tmp_path: Path) -> None:
    condition = 'condition = { observation = "tag", when = ["unreadable"], outcome = "hold" }\n'
    with pytest.raises(PackError, match="'condition' needs 'fires' and 'action'"):
        offered(HEAD + RULE.replace(left_out, "") + condition, tmp_path)


FILE_FAULTS: dict[str, tuple[str, str]] = {
    "empty file": ("", "one [pack] table"),
    "no TOML": ("pack: harbour", "is no TOML text"),
    "unclosed brackets": ("a = " + "[" * 5000, "is no TOML text"),
    "table not known": (GOOD + "\n[extra]\n", "nothing else"),
    "no id": (GOOD.replace('id = "harbour"\n', ""), "[pack] id"),
    "no version": (GOOD.replace('version = "1"\n', ""), "[pack] version"),
    "rules inside the head": (GOOD.replace('version = "1"', 'version = "1"\nrules = []'), "[pack]"),
    "id used twice": (GOOD + RULE + LIMIT, "rule short-tail: the id is used twice"),
    "rule without an id": (GOOD.replace('id = "short-tail"\n', ""), "rule number 1: id"),
    "rule that says what is covered": (
        HEAD
        + RULE.replace('splice = ["tucked eye"]', 'part = ["termination"]')
        + 'needs = { inspection = ["periodic"], observations = ["tag"], covers = true }\n',
        "only the packs that ship say what the rules cover",
    ),
    "id of a pack that is loaded": (GOOD.replace('id = "harbour"', 'id = "us-lifting"'), "'us-lifting' is taken"),
}


@pytest.mark.parametrize(("text", "why"), FILE_FAULTS.values(), ids=FILE_FAULTS)
def test_wrong_pack_is_refused_naming_the_file(text: str, why: str, tmp_path: Path) -> None:
    with pytest.raises(PackError) as refused:
        offered(text, tmp_path)
    said = str(refused.value)
    assert said.startswith("harbour.toml: ")
    assert why in said
    assert "\n" not in said


@pytest.mark.parametrize("name", ["missing.toml", "."])
def test_pack_that_cannot_be_read_is_refused_naming_the_path(name: str, tmp_path: Path) -> None:
    with pytest.raises(PackError, match="cannot be read"):
        with_pack(shipped(), tmp_path / name)


def test_pack_of_bytes_that_are_no_text_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "harbour.toml"
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(PackError, match=r"harbour\.toml: is no TOML text"):
        with_pack(shipped(), path)


ACCEPTED_BUT_UNUSABLE = {
    "bound of another dimension": ('"80 mm"', '"80 kg"'),
    "bound of a percentage for a length": ('"80 mm"', '"80 %"'),
    "formula without its factor": ('"80 mm"', '{ formula = "diameters" }'),
    "formula with a negative factor": ('"80 mm"', '{ formula = "diameters", times = "-6" }'),
    "formula that changes at a weight": (
        '"80 mm"',
        '{ formula = "diameters", times = "6", below = "1 kg", otherwise = "6 in" }',
    ),
    "formula that changes at a size to nothing": ('"80 mm"', '{ formula = "diameters", times = "6", below = "1 in" }'),
    "detection step in kilograms": ('outcome = "hold"', 'outcome = "hold", detection_step = "1 kg"'),
    "look again in ten thousand years": (
        'title = "Strand tail"',
        'title = "Strand tail"\nlook_again = "120000 months"',
    ),
    "look again in too many days to count": (
        'title = "Strand tail"',
        'title = "Strand tail"\nlook_again = "99999999999 days"',
    ),
    "movement of something that is no mark": (
        LIMIT,
        'movement = { measure = "tucks", watch_k = "1.645", hold_k = "2", steps_to_remove = 2, '
        'action = { formula = "slip_action", times = "0.5" }, provisional = { formula = "diameters", times = "1" } }\n',
    ),
    "hash of its own in the head": ('version = "1"', 'version = "1"\nsha256 = "' + "0" * 64 + '"'),
}


@pytest.mark.parametrize(("good", "bad"), ACCEPTED_BUT_UNUSABLE.values(), ids=ACCEPTED_BUT_UNUSABLE)
def test_pack_that_could_not_judge_is_refused(good: str, bad: str, tmp_path: Path) -> None:
    with pytest.raises(PackError):
        offered(GOOD.replace(good, bad), tmp_path)


def test_rule_id_of_a_pack_that_is_loaded_is_refused(tmp_path: Path) -> None:
    with pytest.raises(PackError, match="lay-opened"):
        offered(GOOD.replace('id = "short-tail"', 'id = "lay-opened"'), tmp_path)


def test_pack_that_asks_more_than_twelve_questions_before_use_is_refused(tmp_path: Path) -> None:
    everything = ", ".join(f'"{name}"' for name in shipped().observations)
    needs = f'needs = {{ inspection = ["before use"], observations = [{everything}] }}\n'
    with pytest.raises(PackError, match="12"):
        offered(GOOD.replace(LIMIT, needs), tmp_path)


# --- what a case may say ---------------------------------------------------------------------------------


def said_of(case: dict[str, Any]) -> str:
    with pytest.raises(CaseError) as refused:
        judge(Case.model_validate(case), shipped())
    return str(refused.value)


ENTRY_FAULTS: dict[str, tuple[str, int, dict[str, Any], str]] = {
    "observation not known": ("findings", 0, {"observation": "colour"}, "no such observation"),
    "reading answered as a question": ("findings", 2, {"observation": "mark_offset", "part": "A"}, "give its values"),
    "question given values": ("readings", 0, {"observation": "bury_feel", "part": "A"}, "answer it with a finding"),
    "condition of another question": ("findings", 0, {"seen": "present", "conditions": ["cut"]}, "'cut' is not known"),
    "hidden where nothing stands in": ("findings", 0, {"seen": "hidden by design"}, "nothing hides this by design"),
    "asked on a part it is not made on": ("findings", 2, {"observation": "body_surface"}, "is not made there"),
    "method that does not read it": ("readings", 0, {"method": "by eye"}, "not read by 'by eye'"),
    "weight for a length": ("readings", 0, {"values": ["74 kg"]}, "'74 kg' is no length"),
    "negative girth": ("readings", 1, {"values": ["-74 mm"]}, "'-74 mm' is negative"),
}


@pytest.mark.parametrize(("group", "index", "change", "why"), ENTRY_FAULTS.values(), ids=ENTRY_FAULTS)
def test_entry_the_vocabulary_does_not_know_is_refused_naming_inspection_and_observation(
    group: str, index: int, change: dict[str, Any], why: str
) -> None:
    case = pendant_case()
    entry = case["inspection"][group][index]
    entry.update(change)
    said = said_of(case)
    assert why in said
    assert case["inspection"]["id"] in said
    assert entry["observation"] in said


def test_regime_not_known_is_refused_with_those_that_are() -> None:
    assert said_of(laid_case() | {"regimes": ["moon"]}) == (
        "regimes: 'moon' is not known; known are "
        "Australia, Canada Alberta, EU, Mooring, Tree work, UK, US fall protection, US lifting"
    )


# --- the shipped packs together --------------------------------------------------------------------------


def _packs() -> list[tuple[str, str]]:
    folder = files("inspection_rules").joinpath("packs")
    return [
        (entry.name, entry.read_text(encoding="utf-8")) for entry in folder.iterdir() if entry.name.endswith(".toml")
    ]


def _shipped_rules() -> list[dict[str, Any]]:
    return [rule for _, text in _packs() for rule in tomllib.loads(text).get("rule", [])]


def test_packs_without_a_regime_are_common_practice_and_say_so() -> None:
    always = [pack for pack in shipped().packs if not pack.regime]
    assert all(pack.id.startswith("common-practice") for pack in always)


def test_every_criterion_a_rule_names_is_written_down() -> None:
    texts = dict(_packs())
    written = {one["id"] for one in tomllib.loads(texts["criteria.toml"])["criterion"]}
    named = {rule["criterion"] for rule in _shipped_rules() if rule.get("criterion")}
    assert named <= written


def test_no_two_shipped_rules_have_one_id() -> None:
    ids = [rule["id"] for rule in _shipped_rules()]
    assert sorted(set(ids)) == sorted(ids)


@pytest.mark.parametrize("name", [one.id for one in shipped().observations.values() if one.kind == "question"])
def test_every_condition_of_a_question_is_judged_by_common_practice_wherever_it_is_asked(name: str) -> None:
    observation = shipped().observations[name]
    always = [rule for pack in shipped().packs if not pack.regime for rule in pack.rules]
    rules = [rule for rule in always if rule.condition is not None and rule.condition.observation == name]
    for item in typical_items():
        mine = [rule for rule in rules if rule.scope is Scope.ITEM and rule.applies.to_item(item)]
        for part in observation.parts(item):
            judged = {
                condition
                for rule in mine
                if rule.condition is not None and (part == "" or rule.applies.to_part(item.part(part)))
                for condition in rule.condition.when
            }
            assert {one.id for one in observation.answers(item, part)} <= judged, (item.kind, item.construction, part)


def _two_eyes(kind: str, construction: str, splices: tuple[str, str], thimble: str) -> Item:
    eyes = [
        {"id": end, "kind": "termination", "end": end, "splice": splice, "thimble": thimble, "lock_stitched": True}
        for end, splice in zip("AB", splices, strict=True)
    ]
    item = pendant_case()["item"] | {"kind": kind, "construction": construction, "fibre": "polyester"}
    return Item.model_validate(item | {"parts": [*eyes, {"id": "body", "kind": "body"}]})


@pytest.mark.parametrize("thimble", ["none", "captive"])
def test_look_before_use_asks_at_most_twelve_questions_of_any_item(thimble: str) -> None:
    splices = ("buried eye", "tucked eye", "sewn eye", "double-braid eye")
    constructions = ("laid, three-strand", "hollow braid, twelve-strand", "double braid")
    most = 0
    for kind, first, second, construction in product(ItemKind, splices, splices, constructions):
        questions = questions_before_use(
            _two_eyes(kind, construction, (first, second), thimble), shipped(), ["US lifting"]
        )
        assert len(set(questions)) == len(questions)
        most = max(most, len(questions))
    assert 0 < most <= MOST_QUESTIONS


@pytest.mark.parametrize(
    "splices", [("buried eye", "buried eye"), ("tucked eye", "tucked eye"), ("buried eye", "tucked eye")]
)
def test_look_before_use_takes_no_tape(splices: tuple[str, str]) -> None:
    item = _two_eyes("rope sling", "laid, three-strand", splices, "captive")
    questions = questions_before_use(item, shipped(), ["US lifting"])
    assert {shipped().observations[name].kind for _, name in questions} == {"question"}


def test_rule_without_a_published_source_says_so() -> None:
    for rule in _shipped_rules():
        unsourced = rule["source"]["kind"] in ("common practice", "site", "maker")
        assert (rule["source"]["verified"] == "none") == unsourced, rule["id"]


def test_pack_read_from_text_and_from_file_are_the_same(tmp_path: Path) -> None:
    assert offered(GOOD, tmp_path).packs[-1] == read_pack(
        GOOD.encode(), "any.toml", shipped().observations, shipped().criteria
    )
