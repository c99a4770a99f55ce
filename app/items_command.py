"""`throatmark items`: a list of items on the command line, read first and entered only when that is said."""

import argparse
import sys
from datetime import UTC, date, datetime
from pathlib import Path

from pydantic import ValidationError

from app.item_list import ItemListError, columns, good, key_of, read_file, read_items, sentence
from app.item_list import template as empty_list
from app.register import Register, new_id
from inspection_rules.record import Person
from inspection_rules.words import Competence

DONE, BAD = 0, 2
SHOWN = 40  # sentences


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    parser.description = (
        "Read a list of items: one row an item, the first row naming the columns. Nothing is written without --enter; "
        "then all rows are entered, or none where one of them is wrong (--good-rows: those that are right). "
        "Exit code 2 when a row is wrong."
    )
    listed = "; ".join(f"{name} ({words})" for name, words in columns())
    parser.epilog = (
        f"Columns: {listed}. The same again with end_b_, joint_2_, joint_3_, fitting_2_ to fitting_6_. Only tag, kind, "
        "duty and fibre must be there; leave out what does not apply."
    )
    parser.add_argument("list", nargs="?", type=Path, metavar="FILE.csv")
    parser.add_argument("--template", action="store_true", help="print an empty list with one row as an example")
    parser.add_argument("--enter", action="store_true", help="enter the items")
    parser.add_argument("--good-rows", action="store_true", help="with --enter: leave out the rows that are wrong")
    parser.add_argument("--by", metavar="NAME", help="who enters them")
    parser.add_argument("--competence", type=Competence, choices=list(Competence), metavar="WORD",
                        help="in which competence: " + ", ".join(Competence))  # fmt: skip


def template() -> int:
    """Print an empty list."""
    sys.stdout.write(empty_list())
    return DONE


def run(options: argparse.Namespace, register: Register) -> int:
    """Read the list, say what is wrong with it, and enter it where that was asked for.

    Raises:
        ItemListError: the list cannot be read, or nobody is named who enters it.
    """
    by = _who(options) if options.enter else None
    if by is not None and register.pins.asked_of(by):
        raise ItemListError(f"{by.name} acts with a PIN here: enter the list in the window. Nothing was entered.")
    existing = {key_of(place, tag) for place, tag in register.tags()}
    rows = read_items(read_file(options.list), existing, today=date.today(), new_id=new_id)
    items, bad = good(rows), [row for row in rows if row.item is None]
    doubts = [sentence(row, one) for row in rows for one in row.doubts]
    for line in doubts[:SHOWN]:
        print(f"check {line}")
    if len(doubts) > SHOWN:
        print(f"and {len(doubts) - SHOWN} more to check")
    wrong = [sentence(row, one) for row in bad for one in row.problems]
    for line in wrong[:SHOWN]:
        print(line, file=sys.stderr)
    if len(wrong) > SHOWN:
        print(f"and {len(wrong) - SHOWN} more", file=sys.stderr)
    print(f"{len(items)} of {len(rows)} rows can be entered.")
    if by is None:
        print("Nothing was entered.")
    elif bad and not options.good_rows:
        print("Nothing was entered: put the rows right, or add --good-rows to leave them out.")
    elif items:
        now = datetime.now().astimezone()
        offset = now.utcoffset()
        minutes = int(offset.total_seconds() // 60) if offset else 0
        print(f"{len(register.add_items(items, by, now.astimezone(UTC), minutes))} items were entered.")
    return BAD if bad else DONE


def _who(options: argparse.Namespace) -> Person:
    if not options.by or options.competence is None:
        raise ItemListError(
            'say who enters the items: --by "yard examiner" --competence "competent person". Nothing was entered.'
        )
    try:
        return Person(name=options.by, competence=options.competence)
    except ValidationError as error:
        raise ItemListError(f"--by: {error.errors()[0]['msg']}. Nothing was entered.") from None
