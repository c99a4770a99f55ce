"""Reading a case from a file that may hold anything: it is read, or refused in one line that names the place."""

import json
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.reading import CaseFileError, case_from_json, read_case
from app.resources import asset
from inspection_rules.book import CaseError, shipped
from inspection_rules.judge import judge

SOUND = "examples/two-eye-sling-before-use-serviceable.json"
MEASURED = "examples/made-to-specification-periodic-serviceable.json"
TEXT = asset(MEASURED).read_bytes()
Json = dict[str, Any]


def example() -> Json:
    return dict(json.loads(TEXT))


def refused(data: bytes) -> str:
    with pytest.raises(CaseFileError) as error:
        case_from_json(data, "case.json")
    return str(error.value)


def changed(*path: str | int, to: Any) -> bytes:
    """The example with one value replaced; `to` is taken as it is."""
    case: Any = example()
    inner = case
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = to
    return json.dumps(case).encode()


@pytest.mark.parametrize("path", sorted(asset("examples").glob("*.json")), ids=lambda path: path.stem)
def test_shipped_example_is_read(path: Path) -> None:
    assert read_case(path).item.tag == json.loads(path.read_bytes())["item"]["tag"]


def test_byte_order_mark_is_passed_over() -> None:
    assert case_from_json(b"\xef\xbb\xbf" + TEXT, "case.json") == case_from_json(TEXT, "case.json")


BROKEN: dict[str, tuple[bytes, str]] = {
    "empty file": (b"", "is no JSON text"),
    "blanks": (b"  \n ", "is no JSON text"),
    "random bytes": (random.Random(1).randbytes(4000), "is no JSON text"),
    "another encoding": (TEXT.decode().encode("utf-16"), "is not UTF-8"),
    "cut short": (TEXT[:-20], "is no JSON text"),
    "two documents": (TEXT + TEXT, "is no JSON text"),
    "200,000 nested brackets": (b"[" * 200_000, "nested too deeply"),
    "200,000 nested brackets, closed": (b"[" * 200_000 + b"]" * 200_000, "nested too deeply"),
    "200,000 nested objects": (b'{"a":' * 200_000, "nested too deeply"),
    "a list": (b"[]", "the case: "),
    "a number": (b"24", "the case: "),
    "a number of 5,000 digits": (b'{"on": ' + b"9" * 5000 + b"}", "is no JSON text"),
    "NaN": (b'{"on": NaN}', "NaN is no number; write quantities as texts"),
    "infinity": (b'{"on": -Infinity}', "-Infinity is no number"),
    "a name twice": (b'{"on": "2026-07-01", "on": "2026-07-02"}', "'on' stands twice in one object; keep one"),
    "a name twice, deep inside": (TEXT.replace(b'"tag":', b'"tag": "X", "tag":', 1), "'tag' stands twice"),
    "half of a character": (TEXT.replace(b'"RS-03"', b'"\\ud800"'), "Invalid JSON"),
    "zero byte in a text": (TEXT.replace(b'"RS-03"', b'"RS\\u0000"'), "item.tag: "),
    "missing field": (
        json.dumps({k: v for k, v in example().items() if k != "item"}).encode(),
        "item: is missing; add",
    ),
    "field not known": (changed("item", "strength", to="80 %"), "item.strength: is not known here; take it out"),
    "wrong unit": (changed("item", "diameter", to="24 kN"), "item.diameter: '24 kN' is a force, not a length; write"),
    "no unit": (changed("item", "diameter", to="24"), "item.diameter: '24' has no unit; write for instance"),
    "bare number": (changed("item", "diameter", to=24), "item.diameter: write the number and its unit as a text"),
    "negative length": (changed("item", "length", to="-6 m"), "item.length: '-6 m' is negative"),
    "comma that can mean two things": (changed("item", "length", to="1,234 mm"), "item.length: '1,234 mm' can mean"),
    "impossible date": (changed("on", to="2026-02-30"), "on: "),
    "date as a number": (changed("on", to=20260701), "on: "),
    "impossible month": (changed("inspection", "at", to="2026-13-01T09:00:00Z"), "inspection.at: "),
    "time without an offset": (changed("inspection", "at", to="2026-07-01T09:00:00"), "inspection.at: "),
    "unknown fibre": (changed("item", "fibre", to="steel"), "item.fibre: "),
    "reading on a part that is missing": (
        changed("inspection", "readings", 0, "part", to="C"),
        "mark_offset is of part 'C', which the item does not have",
    ),
    "inspection in the future": (
        changed("inspection", "at", to="2027-01-01T00:00:00Z"),
        "before the date of the inspection judged",
    ),
    "text for a whole number": (
        changed("inspection", "utc_offset_minutes", to="60"),
        "inspection.utc_offset_minutes: ",
    ),
    "truth for a text": (changed("item", "tag", to=True), "item.tag: "),
}


@pytest.mark.parametrize(("data", "why"), BROKEN.values(), ids=BROKEN)
def test_broken_case_is_refused_in_one_line_naming_file_and_place(data: bytes, why: str) -> None:
    said = refused(data)
    assert said.startswith("case.json: ")
    assert why in said
    assert said.isprintable()


def test_several_faults_are_counted_and_the_first_is_named() -> None:
    data = changed("item", "diameter", to="24")
    both = json.loads(data)
    both["item"]["fibre"] = "steel"
    said = refused(json.dumps(both).encode())
    assert said.startswith("case.json: item.fibre: ")
    assert said.endswith("(and 1 more)")


LINE_BREAKS = {
    "in a name": changed("a\nb", to=1),
    "in a name that stands twice": b'{"a\\nb": 1, "a\\nb": 2}',
    "in the id of a part": changed("inspection", "readings", 0, "part", to="C\nD"),
}


@pytest.mark.parametrize("data", LINE_BREAKS.values(), ids=LINE_BREAKS)
def test_line_break_in_a_name_does_not_break_the_message(data: bytes) -> None:
    assert "\n" not in refused(data)


@pytest.mark.parametrize(
    "data",
    [changed("k" * 100_000, to=1), changed("use", to={"leg_angle": "x" * 100_000})],
    ids=["name", "angle"],
)
def test_endless_text_is_not_quoted_whole(data: bytes) -> None:
    assert len(refused(data)) < 1000


@pytest.mark.parametrize("at", ["0001-01-01T00:00:00+14:00", "9999-12-31T23:59:00-14:00"])
def test_time_that_utc_cannot_hold_is_refused(at: str) -> None:
    assert "inspection.at: " in refused(changed("inspection", "at", to=at))


def test_local_date_after_the_last_one_is_refused() -> None:
    case = example()
    case["inspection"] |= {"at": "9999-12-31T23:00:00Z", "utc_offset_minutes": 60}
    assert refused(json.dumps(case).encode()).startswith("case.json: inspection.at: ")


@pytest.mark.parametrize("day", ["0001-01-01", "1899-12-31", "2201-01-01", "9999-12-31"])
def test_year_that_is_none_of_this_work_is_refused(day: str) -> None:
    assert f"on: the year {int(day[:4])} is no year of this work; check the date" in refused(changed("on", to=day))


def test_case_of_the_last_year_is_judged() -> None:
    case = example() | {"on": "2200-12-31"}
    case["inspection"]["at"] = "2200-12-31T09:00:00Z"
    assert judge(case_from_json(json.dumps(case).encode(), "case.json"), shipped()).rulings


# --- files -----------------------------------------------------------------------------------------------


def test_missing_file_is_refused_by_name(tmp_path: Path) -> None:
    with pytest.raises(CaseFileError, match=r"nowhere\.json: cannot be read .*; check the name"):
        read_case(tmp_path / "nowhere.json")


def test_folder_is_refused_by_name(tmp_path: Path) -> None:
    with pytest.raises(CaseFileError, match="cannot be read"):
        read_case(tmp_path)


def test_huge_file_is_refused_without_being_read(tmp_path: Path) -> None:
    path = tmp_path / "huge.json"
    with path.open("wb") as file:
        file.truncate(2**34)  # a file of holes: 16 GB that take no room
    with pytest.raises(CaseFileError, match=r"huge\.json: larger than 16 MB"):
        read_case(path)


# --- anything at all -------------------------------------------------------------------------------------


@given(st.binary(max_size=400))
def test_any_bytes_are_refused_as_a_case_file_error(data: bytes) -> None:
    assert refused(data).startswith("case.json: ")


texts = st.one_of(st.text(max_size=30), st.sampled_from(["0 mm", "1/3 in", "present", "A", "-1 mm", "1000000000 m"]))
leaves = st.one_of(st.none(), st.booleans(), st.integers(), st.floats(allow_nan=False, allow_infinity=False), texts)
values = st.recursive(leaves, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts, inner, max_size=3))


@settings(max_examples=400)
@given(st.data())
def test_case_with_anything_in_any_place_is_judged_or_refused(data: st.DataObject) -> None:
    case = example()
    for _ in range(data.draw(st.integers(1, 3))):
        holder, key = data.draw(st.sampled_from(list(_places(case))))
        holder[key] = data.draw(values)
    try:
        judgement = judge(case_from_json(json.dumps(case).encode(), "case.json"), shipped())
    except (CaseFileError, CaseError) as error:
        assert str(error)
    else:
        assert judgement.rulings


def _places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every place in a JSON value, as its holder and key."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, below in inner:
        yield value, key
        yield from _places(below)
