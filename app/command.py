"""The command line: a thin shell over the rest.

Exit codes: 0 the work was done, whatever the answer; 1 asked to be told (`--fail-on`, `verify` finding a
break); 2 bad input, with the reason and the place on stderr.
"""

import argparse
import io
import json
import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import app
from app import items_command, photo_command
from app.account import account
from app.device.abilities import Unavailable
from app.device.folders import data_folder, device_id
from app.item_list import ItemListError
from app.reading import CaseFileError, read_case
from app.register import Register, RegisterError
from app.rule_list import coverage_lines, listing, one_rule
from inspection_rules.book import CaseError, PackError, RuleBook, shipped, with_pack
from inspection_rules.case import Case
from inspection_rules.coverage import coverage
from inspection_rules.judge import judge
from inspection_rules.measures.photo_height import PhotoRefusedError
from inspection_rules.words import Answer

DONE, TOLD, BAD = 0, 1, 2
SHOWN_FAULTS = 10
COVERAGE = "coverage"


class BadInputError(Exception):
    """Ends the command with exit code 2; the text is what the person reads."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a narrow terminal shows "?" rather than nothing
    options = _parser().parse_args(arguments)
    try:
        return int(options.run(options))
    except (BadInputError, PhotoRefusedError, CaseFileError, CaseError, PackError, ItemListError) as error:
        print(f"throatmark: {error}", file=sys.stderr)
        return BAD
    except BrokenPipeError:
        return DONE
    except KeyboardInterrupt:
        print("throatmark: stopped", file=sys.stderr)
        return BAD


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="throatmark",
        description="Inspect spliced rope and slings: may this still carry load? Without a command, opens the window.",
        epilog="It helps a trained person. It does not replace the maker's instructions, local law or a licensed "
        "examiner.",
    )
    parser.add_argument("--version", action="version", version=f"throatmark {app.__version__}")
    _with_register(parser)
    parser.set_defaults(run=_open_window, register=None)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")

    demo = commands.add_parser("demo", help="make the demo register, do the main job on it, open the window")
    _with_register(demo, "where to make it (default: a new folder in the person's data folder)")
    window = demo.add_mutually_exclusive_group()
    window.add_argument("--window", dest="window", action="store_true", default=None, help="open the window")
    window.add_argument("--no-window", dest="window", action="store_false", help="do not open the window")
    demo.set_defaults(run=_demo)

    one = commands.add_parser("judge", help="judge one case from a JSON file")
    one.add_argument("case", type=Path, metavar="CASE.json")
    one.add_argument("--json", action="store_true", help="print the judgement as JSON")
    one.add_argument(
        "--fail-on",
        type=Answer,
        choices=list(Answer)[1:],
        metavar="ANSWER",
        help="exit 1 when the answer is this or worse: watch, hold or remove; what is not for this use counts as hold",
    )
    _with_packs(one)
    one.set_defaults(run=_judge)

    schema = commands.add_parser("schema", help="print the JSON Schema of a case")
    schema.set_defaults(run=_schema)

    rules = commands.add_parser("rules", help="list the rules, show one, or check a pack")
    rules.add_argument("rule", nargs="?", metavar="RULE", help="a rule's id, or: coverage")
    rules.add_argument("--check", type=Path, metavar="PACK.toml", help="check a pack and say what is wrong with it")
    rules.add_argument("--observations", action="store_true", help="list the observations that rules may ask for")
    rules.add_argument("--json", action="store_true")
    _with_packs(rules)
    rules.set_defaults(run=_rules)

    photo = commands.add_parser("photo-length", help="take a length from a photograph with a card of known size in it")
    photo_command.add_arguments(photo)
    photo.set_defaults(run=photo_command.run)

    report = commands.add_parser("report", help="write a report as PDF")
    report.add_argument(
        "kind",
        choices=["retirement", "round"],
        metavar="KIND",
        help="retirement: what to remove or hold, and why; round: a signed round, ready or not",
    )
    report.add_argument("--round", default=None, metavar="ID", help="which round (default: the newest)")
    report.add_argument("--out", type=Path, required=True, metavar="FILE.pdf")
    report.add_argument("--on", type=_local_date, default=None, metavar="YYYY-MM-DD", help="the date it speaks for")
    _with_register(report)
    report.set_defaults(run=_report)

    card = commands.add_parser("scale-card", help="write a card of known size to print, for lengths from photographs")
    card.add_argument("--out", type=Path, required=True, metavar="FILE.pdf")
    card.set_defaults(run=_scale_card)

    items = commands.add_parser("items", help="read a list of items (CSV), and enter them with --enter")
    items_command.add_arguments(items)
    _with_register(items)
    items.set_defaults(run=_items)

    verify = commands.add_parser("verify", help="check every seal and every projection of a register")
    _with_register(verify)
    verify.set_defaults(run=_verify)
    return parser


def _with_register(parser: argparse.ArgumentParser, text: str = "the register's folder") -> None:
    # Suppressed, or a command's own default would undo `throatmark --register PATH COMMAND`.
    parser.add_argument("--register", type=Path, default=argparse.SUPPRESS, metavar="PATH", help=text)


def _with_packs(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--pack", type=Path, action="append", default=[], metavar="PACK.toml", help="one more pack")
    _with_register(parser, "the folder of a register whose own packs count too")


def _local_date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"'{text}' is no date; write it as 2026-11-25") from None


# --- judge -----------------------------------------------------------------------------------------------


def _book(options: argparse.Namespace) -> RuleBook:
    """The rules that ship, those of the register that was named, and the packs that were."""
    book = shipped()
    if options.register is not None:
        with _opened(options.register) as register:
            book = register.book()
    for path in options.pack:
        book = with_pack(book, path)
    return book


def _judge(options: argparse.Namespace) -> int:
    book = _book(options)
    case = read_case(options.case)
    try:
        judgement = judge(case, book)
    except CaseError as error:
        raise BadInputError(f"{options.case}: {error}") from None
    if options.json:
        print(json.dumps(judgement.model_dump(), indent=2, ensure_ascii=False, default=_json_value))
    else:
        print(account(case, judgement))
    answer = judgement.answer
    if judgement.not_for_this_use and answer.severity < Answer.HOLD.severity:
        answer = Answer.HOLD
    return TOLD if options.fail_on and answer.severity >= options.fail_on.severity else DONE


def _json_value(value: object) -> Any:
    if isinstance(value, Decimal):
        return int(value) if value == value.to_integral_value() else float(value)
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(type(value).__name__)


def _schema(options: argparse.Namespace) -> int:
    print(json.dumps(Case.model_json_schema(), indent=2, ensure_ascii=False))
    return DONE


# --- rules -----------------------------------------------------------------------------------------------


def _rules(options: argparse.Namespace) -> int:
    book = _book(options)
    if options.check:
        pack = with_pack(book, options.check).packs[-1]
        print(f"{options.check}: pack {pack.id} {pack.version}, {len(pack.rules)} rules, nothing wrong")
        return DONE
    if options.observations:
        for observation in book.observations.values():
            print(f"{observation.id:<16}{observation.station:<16}{observation.ask}")
        return DONE
    if options.rule == COVERAGE:
        return _coverage(book, options.json)
    chosen = [(pack, rule) for pack in book.packs for rule in pack.rules if options.rule in (None, rule.id)]
    if not chosen:
        raise BadInputError(f"no rule '{options.rule}'; `throatmark rules` lists them")
    if options.json:
        dumped = [{"pack": pack.id, **rule.model_dump(mode="json", exclude_defaults=True)} for pack, rule in chosen]
        print(json.dumps(dumped, indent=2, ensure_ascii=False))
    elif options.rule:
        for pack, rule in chosen:
            print(one_rule(pack, rule))
    else:
        for line in listing(book):
            print(line)
    return DONE


def _coverage(book: RuleBook, as_json: bool) -> int:
    found = coverage(book)
    if as_json:
        dumped = [
            {**one.criterion.model_dump(), "rules": [f"{pack.id}/{rule.id}" for pack, rule in one.rules]}
            for one in found
        ]
        print(json.dumps(dumped, indent=2, ensure_ascii=False))
    else:
        for line in coverage_lines(found):
            print(line)
    return DONE


# --- what works on a register ----------------------------------------------------------------------------


def _report(options: argparse.Namespace) -> int:
    from app.reports import ReportError, retirement_report

    with _opened(options.register) as register:
        if options.kind == "round":
            return _round_report(register, options.round, options.out)
        try:
            path = retirement_report(register, options.out, options.on or date.today())
        except ReportError as error:
            raise BadInputError(str(error)) from None
    print(path)
    return DONE


def _round_report(register: Register, round_id: str | None, out: Path) -> int:
    from app.reports import ReportError
    from app.reports.round_page import one_line, round_report

    if round_id is None:
        newest = register.rounds(limit=1)
        if not newest:
            raise BadInputError(f"{register.folder}: no round was signed in this register yet")
        round_id = newest[0].made.id
    try:
        path = round_report(register, out, round_id)
    except ReportError as error:
        raise BadInputError(str(error)) from None
    print(one_line(register.round(round_id)))
    print(path)
    return DONE


def _scale_card(options: argparse.Namespace) -> int:
    from app.reports import ReportError
    from app.reports.scale_card import scale_card

    try:
        print(scale_card(options.out, date.today()))
    except ReportError as error:
        raise BadInputError(str(error)) from None
    return DONE


def _items(options: argparse.Namespace) -> int:
    if options.template:
        return items_command.template()
    if options.list is None:
        raise BadInputError("name the list: throatmark items FILE.csv, or ask for an empty one: --template")
    with _opened(options.register) as register:
        return items_command.run(options, register)


def _verify(options: argparse.Namespace) -> int:
    with _opened(options.register) as register:
        faults = register.verify()
        for end in register.chain_ends():
            print(f"{end.device}: {end.entries} entries, last seal {end.seal}")
        if not faults:
            print(f"{register.folder}: every seal and every projection fits")
            print("Entries cut off the end leave no trace: compare the last seal with one noted elsewhere.")
            return DONE
    print(f"{register.folder}: {len(faults)} do not fit; the first of them:")
    for fault in faults[:SHOWN_FAULTS]:
        print(f"  {fault.record_id or 'register'}: {fault.sentence}")
    return TOLD


def _demo(options: argparse.Namespace) -> int:
    from app.demo import demo

    with _telling():
        folder = demo(options.register, print)
    wanted = has_display() if options.window is None else options.window
    if not wanted:
        if options.window is None:
            print("There is no display here, so no window is opened.")
        return DONE
    return _window(folder)


def _open_window(options: argparse.Namespace) -> int:
    folder = options.register or _data_folder() / "register"
    with _telling():
        if not (folder / "register.db").exists() and folder.name != "register.db":
            Register.create(folder, _device()).close()
    return _window(folder)


def _window(folder: Path) -> int:
    from app.touch.main import run
    from app.touch.window import WindowUnavailable

    try:
        run(folder)
    except WindowUnavailable as error:
        raise BadInputError(str(error)) from None
    return DONE


def has_display(environment: Mapping[str, str] = os.environ, platform: str = sys.platform) -> bool:
    """Whether a window can be seen here: asked before the window's library is loaded, which would not say."""
    if platform in ("win32", "darwin"):
        return True
    return bool(environment.get("DISPLAY") or environment.get("WAYLAND_DISPLAY"))


@contextmanager
def _opened(folder: Path | None) -> Iterator[Register]:
    with _telling(), Register.open(folder or _data_folder() / "register") as register:
        yield register


@contextmanager
def _telling() -> Iterator[None]:
    """Turn what a register says into the command's message."""
    try:
        yield
    except RegisterError as error:
        raise BadInputError(str(error)) from None


def _data_folder() -> Path:
    folder = data_folder()
    if isinstance(folder, Unavailable):
        raise BadInputError(f"{folder.reason} Or name a folder with --register.")
    return folder


def _device() -> str:
    name = device_id(_data_folder())
    if isinstance(name, Unavailable):
        raise BadInputError(name.reason)
    return name
