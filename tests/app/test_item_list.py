"""A list of items as CSV: read row by row, hostile or not, and entered in one go or not at all."""

import csv
import io
from collections.abc import Iterator
from datetime import UTC, date, datetime
from itertools import count
from pathlib import Path

import pytest

from app.command import main
from app.item_list import (
    EXAMPLE,
    ItemListError,
    Row,
    columns,
    good,
    key_of,
    read_bytes,
    read_file,
    read_items,
    sentence,
    template,
)
from app.register import Register, RegisterError
from inspection_rules.entering import NAMES
from inspection_rules.record import Person
from inspection_rules.words import Competence

TODAY = date(2050, 10, 12)
BY = ("--by", "yard examiner", "--competence", "competent person")


def listed(*changes: dict[str, str], separator: str = ",") -> str:
    """A list of the example's rows, each with these cells changed."""
    out = io.StringIO()
    writer = csv.DictWriter(out, [*EXAMPLE, "circumference"], delimiter=separator, lineterminator="\n")
    writer.writeheader()
    for number, one in enumerate(changes, 1):
        writer.writerow({**EXAMPLE, "tag": f"RS-{number}", **one})
    return out.getvalue()


def read(text: str, existing: set[tuple[str, str]] | None = None) -> tuple[Row, ...]:
    ids = count(1)
    return read_items(text, existing or set(), today=TODAY, new_id=lambda: f"new-{next(ids)}")


def wrong(rows: tuple[Row, ...]) -> list[str]:
    return [sentence(row, one) for row in rows for one in row.problems]


def refused(text: str) -> str:
    with pytest.raises(ItemListError) as caught:
        read(text)
    return str(caught.value)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """An empty register."""
    Register.create(tmp_path / "register", "test device").close()
    return tmp_path / "register"


@pytest.fixture
def register(folder: Path) -> Iterator[Register]:
    with Register.open(folder) as register:
        yield register


# --- what can be read ------------------------------------------------------------------------------------------


def test_the_template_holds_every_column_and_an_item_that_can_be_entered() -> None:
    (row,) = read(template())
    assert template().splitlines()[0].split(",") == list(NAMES)
    assert (row.item is not None, row.problems, row.doubts) == (True, (), ())


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_the_separator_is_found_by_itself(separator: str) -> None:
    assert len(good(read(listed({}, {}, separator=separator)))) == 2


def test_a_mark_of_the_byte_order_is_no_part_of_the_first_name() -> None:
    assert len(good(read(read_bytes(b"\xef\xbb\xbf" + listed({}).encode(), "list")))) == 1


def test_names_may_be_written_large_and_with_blanks() -> None:
    head, row = listed({}).splitlines()
    assert len(good(read("\n".join((head.replace("end_a_splice", "End A splice").replace("tag", "TAG"), row))))) == 1


def test_a_formula_stays_text() -> None:
    (item,) = good(read(listed({"description": "=HYPERLINK(1)"})))
    assert item.description == "=HYPERLINK(1)"


def test_rows_are_counted_as_a_spreadsheet_counts_them() -> None:
    head, first, second = listed({}, {"diameter": "24"}).splitlines()
    assert wrong(read(f"{head}\n{first}\n\n{second}\n")) == [
        "row 4, column diameter: '24' has no unit; write for instance '24 mm' or '1 1/8 in'"
    ]


def test_a_bad_row_leaves_the_others_as_they_are() -> None:
    rows = read(listed({}, {"fibre": "wool"}, {}))
    assert [row.item is not None for row in rows] == [True, False, True]


def test_an_unlikely_row_can_be_entered_and_is_named() -> None:
    (row,) = read(listed({"circumference": "60 mm"}))
    assert row.item is not None
    assert [one.name for one in row.doubts] == ["circumference"]


IMPOSSIBLE = [
    ({"diameter": "0 mm"}, "diameter: '"),
    ({"length": "0 m"}, "length: 0 m is nothing at all. Write what it is"),
    ({"working_load_limit": "0 kN"}, "working_load_limit: 0 kN is nothing at all."),
    ({"length": "10 mm"}, "diameter: 24 mm is more than the item is long, 10 mm. Check both"),
    ({"length": "2 m"}, "end_a_required_bury: The buries of both ends are together longer than the item, 2 m. Check"),
    ({"length": "4 m", "end_b_marks_at": "5 m"}, "end_b_marks_at: 5 m from the throat is beyond the item's 4 m. Check"),
    ({"made": "2050-10-13"}, "made: 2050-10-13 is still to come. Write the day it was"),
]


@pytest.mark.parametrize(("change", "says"), IMPOSSIBLE)
def test_a_row_that_cannot_be_so_is_wrong_and_says_what_to_do(change: dict[str, str], says: str) -> None:
    (row,) = read(listed(change))
    assert row.item is None
    assert any(says in one for one in wrong((row,)))


def test_a_row_made_today_can_be_entered() -> None:
    assert good(read(listed({"made": TODAY.isoformat()})))


def test_a_tag_twice_in_the_list_is_refused_the_second_time() -> None:
    assert wrong(read(listed({"tag": "RS-1"}, {"tag": "rs-1"}))) == [
        "row 3, column tag: 'rs-1' at quay yard is in row 2 already; give this one its own tag, or leave the row out"
    ]


def test_a_tag_of_the_register_is_refused_at_the_same_place_only() -> None:
    rows = read(listed({}, {"tag": "RS-1", "place": "Sandpiper"}), {key_of("Quay Yard", "RS-1")})
    assert [row.item is not None for row in rows] == [False, True]


def test_a_cell_beyond_the_last_column_is_no_longer_guessed_at() -> None:
    head, row = listed({}).splitlines()
    assert "beyond the last column" in wrong(read(f"{head}\n{row},spare"))[0]


# --- what cannot be read ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "The list is empty"),
        ("\n\n", "The list is empty"),
        ("RS-1,rope sling\n", "does not name the column tag"),
        ("tag,kind,duty\n", "does not name the column fibre"),
        ("tag,kind,duty,fibre,tag\n", "The column tag stands twice"),
        ("tag,kind,duty,fibre,colour\n", "'colour' in row 1 is not known here"),
        ("tag,kind,duty,fibre,\x1b[31m\n", "'·[31m' in row 1 is not known here"),
        ("tag,kind,duty,fibre\n", "no row below them"),
        ('tag,kind,duty,fibre\n"RS-1,rope sling\n', "check its quotation marks"),
        ("tag,kind,duty,fibre\n" + "x" * 200_000 + ",,,\n", "no cell is endless"),
    ],
)
def test_a_list_that_cannot_be_read_says_why(text: str, says: str) -> None:
    assert says in refused(text)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"PK\x03\x04\x00\x00", "not as a workbook"),
        ("tag\nRS-1 Tülle".encode("latin-1"), "line 2 is not in UTF-8"),
        ("tag".encode("utf-16"), "not as a workbook"),
    ],
)
def test_a_file_that_is_no_text_says_so(data: bytes, says: str) -> None:
    with pytest.raises(ItemListError, match="list") as caught:
        read_bytes(data, "list.csv")
    assert says in str(caught.value)


def test_a_file_that_is_not_there_says_so(tmp_path: Path) -> None:
    with pytest.raises(ItemListError, match="cannot be read"):
        read_file(tmp_path / "none.csv")


def test_what_a_column_takes_is_told_for_each_sort_of_part() -> None:
    told = dict(columns())
    assert told["fitting_1_kind"].startswith("one of: hook")
    assert "yes or no" in told["end_a_lock_stitched"]


# --- entering --------------------------------------------------------------------------------------------------


def run(folder: Path, text: str, *more: str) -> int:
    path = folder.parent / "list.csv"
    path.write_text(text, encoding="utf-8")
    return main(["items", str(path), "--register", str(folder), *more])


def test_without_enter_nothing_is_written(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(folder, listed({})) == 0
    assert capsys.readouterr().out == "1 of 1 rows can be entered.\nNothing was entered.\n"
    with Register.open(folder) as register:
        assert register.tags() == []


def test_a_bad_row_ends_with_exit_code_two_and_is_named(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(folder, listed({}, {"diameter": "24"})) == 2
    out, err = capsys.readouterr()
    assert "1 of 2 rows can be entered." in out
    assert err.startswith("row 3, column diameter:")


def test_a_row_that_cannot_be_so_ends_with_exit_code_two_and_is_not_entered(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(folder, listed({}, {"length": "0 m"}), "--enter", *BY) == 2
    out, err = capsys.readouterr()
    assert "1 of 2 rows can be entered." in out
    assert err.startswith("row 3, column length: 0 m is nothing at all.")
    with Register.open(folder) as register:
        assert register.tags() == []


def test_the_items_are_entered_by_whoever_is_named(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(folder, listed({}, {}), "--enter", *BY) == 0
    assert "2 items were entered." in capsys.readouterr().out
    with Register.open(folder) as register:
        assert register.tags() == [("quay yard", "RS-1"), ("quay yard", "RS-2")]
        assert register.verify() == []


def test_nobody_is_entered_for_who_acts_with_a_pin(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with Register.open(folder) as register:
        examiner = Person(name="yard examiner", competence=Competence.COMPETENT_PERSON)
        register.pins.set(examiner, "4711", None, datetime(2050, 10, 12, tzinfo=UTC))
    assert run(folder, listed({}), "--enter", *BY) == 2
    assert "yard examiner acts with a PIN here" in capsys.readouterr().err
    with Register.open(folder) as register:
        assert register.tags() == []


def test_with_a_bad_row_none_is_entered(folder: Path) -> None:
    assert run(folder, listed({}, {"diameter": "24"}), "--enter", *BY) == 2
    with Register.open(folder) as register:
        assert register.tags() == []


def test_the_good_rows_are_entered_where_that_is_said(folder: Path) -> None:
    assert run(folder, listed({}, {"diameter": "24"}), "--enter", "--good-rows", *BY) == 2
    with Register.open(folder) as register:
        assert register.tags() == [("quay yard", "RS-1")]


def test_a_list_entered_twice_is_refused_the_second_time(folder: Path) -> None:
    assert run(folder, listed({}), "--enter", *BY) == 0
    assert run(folder, listed({}), "--enter", *BY) == 2


def test_nobody_enters_a_list_without_a_name(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(folder, listed({}), "--enter") == 2
    assert "say who enters the items" in capsys.readouterr().err


def test_several_items_are_entered_all_or_none(register: Register) -> None:
    by = Person(name="yard examiner", competence="competent person")
    items = good(read(listed({}, {})))
    with pytest.raises(RegisterError, match="None of the items was entered"):
        register.add_items((*items, items[0]), by, datetime(2050, 10, 12, tzinfo=UTC))
    assert register.tags() == []
