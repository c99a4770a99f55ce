"""A list of items, one a row: comma, semicolon or tab between its columns, read row by row, nothing written.

The first row names the columns, as `inspection_rules.entering.NAMES` does. A cell is text: a formula is never
worked out.
"""

import csv
import io
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from inspection_rules.entering import NAMES, NEEDED, Fault, choices_of, item_of, sort_of
from inspection_rules.impossible import impossible
from inspection_rules.item import Item
from inspection_rules.unlikely import unlikely

LARGEST, MOST_ROWS = 16 * 2**20, 5_000  # bytes; rows
SEPARATORS = (",", ";", "\t")
EXAMPLE = {
    "tag": "RS-14", "description": "quay lifting sling", "place": "quay yard", "kind": "rope sling", "duty": "lifting",
    "fibre": "HMPE", "construction": "hollow braid, twelve-strand", "diameter": "24 mm", "length": "6 m",
    "working_load_limit": "60 kN", "made": "2024-03-18",
    **{f"end_{end}_{name}": text for end in "ab" for name, text in (
        ("splice", "buried eye"), ("lock_stitched", "yes"), ("required_bury", "1728 mm"),
        ("required_by", "the splice's own instruction, sheet 2"), ("marks_at", "48 mm"))},
}  # fmt: skip
Place = tuple[str, str]


class ItemListError(ValueError):
    """A list cannot be read at all; the message says why and what to do. Nothing was entered."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a list.

    Attributes:
        number: as a spreadsheet counts, the column names being row 1.
        tag: as written, for people.
        item: what can be entered; None where `problems` says why not.
        doubts: what looks wrong in a row that can be entered all the same.
    """

    number: int
    tag: str
    item: Item | None
    problems: tuple[Fault, ...] = ()
    doubts: tuple[Fault, ...] = ()


def key_of(place: str, tag: str) -> Place:
    """Return what no two items may share: place and tag, whether written large or small."""
    return place.casefold(), tag.casefold()


def read_file(path: Path) -> str:
    """Return the text of a list.

    Raises:
        ItemListError: it is not there, too large, or no text.
    """
    try:
        if path.stat().st_size > LARGEST:
            raise ItemListError(f"{path.name}: is larger than {LARGEST // 2**20} MB; divide the list.")
        data = path.read_bytes()
    except OSError as error:
        raise ItemListError(f"{path.name}: cannot be read ({error.strerror or error}); check the name.") from None
    return read_bytes(data, path.name)


def read_bytes(data: bytes, name: str) -> str:
    """Return the text in a list's bytes; `name` stands in messages.

    Raises:
        ItemListError: it is no text in UTF-8.
    """
    if b"\0" in data:
        raise ItemListError(f"{name}: is no list as text; save the list as CSV in UTF-8, not as a workbook.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise ItemListError(f"{name}: line {line} is not in UTF-8; save the list as CSV in UTF-8.") from None


def read_items(
    text: str,
    existing_tags: Collection[Place],
    *,
    today: date,
    new_id: Callable[[], str],
) -> tuple[Row, ...]:
    """Read a list without entering anything.

    Args:
        existing_tags: of the items in the register, as `key_of` gives it.
        today: for dates that are still to come.
        new_id: gives an item its id.

    Raises:
        ItemListError: there are no columns to read it by, or no rows.
    """
    names, records = _table(text)
    taken: dict[Place, str] = dict.fromkeys(existing_tags, "in the register")
    rows = []
    for number, cells in records:
        row = _row(number, names, cells, today, new_id)
        if row.item is not None:
            place = key_of(row.item.place, row.item.tag)
            if place in taken:
                where = f" at {row.item.place}" if row.item.place else ""
                fault = Fault(
                    "tag",
                    f"'{row.tag}'{where} is {taken[place]} already; give this one its own tag, or leave the row out",
                )
                row = Row(number, row.tag, None, (fault,))
            else:
                taken[place] = f"in row {number}"
        rows.append(row)
    if not rows:
        raise ItemListError("The list has column names and no row below them; write one row for each item.")
    return tuple(rows)


def good(rows: Iterable[Row]) -> list[Item]:
    """Return the items of the rows that can be entered."""
    return [row.item for row in rows if row.item is not None]


def sentence(row: Row, fault: Fault) -> str:
    """Say what is wrong in one place of a list."""
    return f"row {row.number}, column {fault.name}: {fault.sentence}"


def template() -> str:
    """Return an empty list with every column and one row as an example."""
    out = io.StringIO()
    writer = csv.DictWriter(out, NAMES, lineterminator="\n")
    writer.writeheader()
    writer.writerow(EXAMPLE)
    return out.getvalue()


def _table(text: str) -> tuple[Sequence[str], Iterator[tuple[int, list[str]]]]:
    lines = _records(text, _separator(text))
    try:
        number, head = next(lines)
    except StopIteration:
        raise ItemListError("The list is empty; its first row names the columns.") from None
    names = [_plain(cell) for cell in head]
    while names and not names[-1]:
        names.pop()
    twice = sorted({name for name in names if name and names.count(name) > 1})
    if twice:
        raise ItemListError(f"The column {_short(twice[0])} stands twice in row {number}; keep one of them.")
    missing = [name for name in NEEDED if name not in names]
    if missing:
        raise ItemListError(
            f"Row {number} does not name the column {missing[0]}; the first row names the columns, and every item has "
            f"{', '.join(NEEDED)}. `throatmark items --template` prints a list to begin with."
        )
    unknown = [name for name in names if name not in NAMES]
    if unknown:
        raise ItemListError(
            f"The column '{_short(unknown[0])}' in row {number} is not known here; take it out, or check its spelling."
        )
    return names, lines


def _separator(text: str) -> str:
    """Return what stands between the columns: with which the first row names most columns that are known."""
    head = next((line for line in text.splitlines() if line.strip()), "")[:20_000]

    def known(separator: str) -> int:
        return sum(_plain(cell.strip('"')) in NAMES for cell in head.split(separator))

    return max(SEPARATORS, key=known)


def _records(text: str, separator: str) -> Iterator[tuple[int, list[str]]]:
    """Yield the rows that are not empty with their numbers, counted as a spreadsheet does."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    number = 0
    while True:
        number += 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise ItemListError(
                f"Row {number} cannot be read ({error}); check its quotation marks, and that no cell is endless."
            ) from None
        if number > MOST_ROWS + 1:
            raise ItemListError(f"The list has more than {MOST_ROWS} rows; divide it.")
        if any(cell.strip() for cell in cells):
            yield number, cells


def _row(number: int, names: Sequence[str], cells: list[str], today: date, new_id: Callable[[], str]) -> Row:
    said = {name: cell.strip() for name, cell in zip(names, cells, strict=False) if cell.strip()}
    tag = _short(said.get("tag", ""))
    spare = [cell for cell in cells[len(names) :] if cell.strip()]
    if spare:
        fault = Fault(
            names[-1],
            f"'{_short(spare[0])}' stands beyond the last column; put text with a separator in it in quotation marks",
        )
        return Row(number, tag, None, (fault,))
    found = item_of(said, new_id())
    if not isinstance(found, Item):
        return Row(number, tag, None, found)
    wrong = impossible(said, today)
    return Row(number, tag, None, wrong) if wrong else Row(number, tag, found, doubts=unlikely(said, today))


def _plain(cell: str) -> str:
    return cell.strip().casefold().replace(" ", "_")


def _short(text: str, longest: int = 60) -> str:
    """Return a text from a file as a screen or a terminal may show it."""
    plain = "".join(sign if sign.isprintable() else "·" for sign in text[: longest + 1])
    return plain if len(plain) <= longest else plain[:longest] + "…"


def columns() -> Iterator[tuple[str, str]]:
    """Yield every column with what is written in it; of columns that are the same for several parts, the first."""
    for name in NAMES:
        if name.startswith(("end_b_", *(f"{part}_{n}_" for part in ("joint", "fitting") for n in range(2, 9)))):
            continue
        sort = sort_of(name)
        words = {
            "length": "a length with its unit: 24 mm, 6 m, 2 1/4 in",
            "force": "a force with its unit: 60 kN, 6 tf",
            "date": "a date: 2050-01-10",
            "yes or no": "yes or no",
            "count": "a whole number",
            "choice": "one of: " + "; ".join(choices_of(name)),
        }.get(sort, "one of: " + "; ".join(choices_of(name)) if choices_of(name) else "text")
        yield name, words
