"""Every message of the program, in the order in which it is best translated: the rules, the sentences, the screens.

A sentence that the rules or the register put together is a template: what is filled in stands as `{0}`, `{1}` in the
order of the English sentence. `app/language/telling.py` finds the template of a sentence again.
"""

import ast
import enum
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import product
from pathlib import Path
from string import Formatter
from typing import get_args

import app.register.people
import inspection_rules.rounds
import inspection_rules.words
from app.figures import Label
from app.figures.catalogue import FIGURES, VARIANTS, figure, variant
from app.language.speaking import ON_A_FIGURE
from inspection_rules.book import shipped
from inspection_rules.formulas import FORMULAS
from inspection_rules.item import Item, Part
from inspection_rules.measures import MEASURES
from inspection_rules.observation import Applies
from inspection_rules.quantity import Dimension

ROOT = Path(__file__).parents[2]
# Where sentences are put together in English: they are stored in records, or serve a terminal as well.
TELLING = (
    "inspection_rules",
    "app/register",
    "app/photos",
    "app/device",
    "app/rule_words.py",
    "app/item_list.py",
    "app/reading.py",
    "app/touch/typed.py",
    "app/touch/services.py",
    "app/touch/window.py",
    "app/touch/screens/photograph/folder.py",
    "app/reports/errors.py",
    "app/reports/saving.py",
)
# What is put together there and never told: drawings, schemas, what only a developer meets.
# So are the faults of a site's own pack of rules: they name keys of its file, for the one who writes it.
NEVER_TOLD = (
    "app/photos/drawing",
    "app/register/tables.py",
    "app/register/guards.py",
    "inspection_rules/book.py",
    "inspection_rules/tightening.py",
    "inspection_rules/rule.py",
    "inspection_rules/observation.py",
    "inspection_rules/typical.py",
)
# Words and ends of sentences that are filled in by a choice, a unit or a name in code.
PIECES = (
    "inside",
    "short",
    "over",
    "out",
    "in",
    "leg",
    "basket",
    "twice",
    "yes",
    "no",
    "now",
    "last",
    "common practice",
    "{0} inside",
    "{0} short",
    "{0} over",
    "{0}, limit at least {1}",
    "{0}, limit at most {1}",
    "{0}, limit at least {1}; {2}",
    "{0}, limit at most {1}; {2}",
    "{0}, limit at least {1} ({2})",
    "{0}, limit at most {1} ({2})",
    "{0}, limit at least {1} ({2}); {3}",
    "{0}, limit at most {1} ({2}); {3}",
    "{0} inside; good to ± {1}",
    "{0} short; good to ± {1}",
    "{0} over; good to ± {1}",
    "{0} inside; good to ± {1}: not enough to be sure",
    "Dates",
    "Chemical",
    "Persons",
    "Frozen",
    "Pin",
    "Lift",
    "Heat",
    "Cold",
    "Incident",
    "First used {0}; {1} ended on {2}.",
    "First used {0}; {1} end on {2}.",
    "Made {0}; {1} ended on {2}.",
    "Made {0}; {1} end on {2}.",
    "photograph, {0}, first-order propagation",
    "photograph, {0}, first-order propagation, corners as tapped",
    "cut back and re-spliced",
    "{0}; what was cut off at end A was not measured",
    "Exactly at the limit",
    "Exactly at the limit; good to ± {0}",
    "Exactly at the limit; good to ± {0}: not enough to be sure",
    "limit at least {0}",
    "limit at most {0}",
    "{0} day",
    "{0} days",
    "{0} month",
    "{0} months",
    "{0} year",
    "{0} years",
    "{0} times",
    "{0} from horizontal",
    "{0} from vertical",
)
# Templates in code that `PIECES` says in whole words instead.
SAID_WHOLE = {"{0}, limit at {1} {2}", "{0} {1} {2}; {3} ended on {4}.", "{0} {1}; {2} end on {3}."}
SAYING = {"say", "say_many", "told", "mark"}
# What calls take that is never read by a person.
NO_SENTENCE = {"compile", "fullmatch", "getattr", "encode", "exec_driver_sql", "text", "Annotated", "Literal"}
MOST_VARIANTS = 16


@dataclass
class Message:
    """One message: its English text, its plural, and the places it comes from."""

    id: str
    plural: str = ""
    context: str = ""
    places: list[str] = field(default_factory=list)


def messages() -> dict[str, Message]:
    """Return every message by its English text, those of figures with their context before it."""
    found: dict[str, Message] = {}
    for text, plural, place in _all():
        if not text.strip():
            continue
        message = found.setdefault(text, Message(text))
        message.plural = message.plural or plural
        if place not in message.places:
            message.places.append(place)
    for text, place in _drawn():
        message = found.setdefault(f"{ON_A_FIGURE}\x04{text}", Message(text, context=ON_A_FIGURE))
        message.places = [*dict.fromkeys((*message.places, place))]
    return found


def _drawn() -> Iterator[tuple[str, str]]:
    """The words on figures: short, and often one line of several."""
    drawings = [*(figure(name) for name in FIGURES), *(variant(name, kind) for name, kind in VARIANTS)]
    for drawing in drawings:
        for shape in drawing.shapes:
            if isinstance(shape, Label) and re.search("[A-Za-z]{2}", shape.text):
                yield shape.text, f"figure {drawing.name}"


def _all() -> Iterator[tuple[str, str, str]]:
    for text, place in _packs():
        yield text, "", place
    for text, place in _words():
        yield text, "", place
    for path in _files(TELLING):
        place = path.relative_to(ROOT).as_posix()
        for text in templates(ast.parse(path.read_text(encoding="utf-8"))):
            yield text, "", place
    for path in sorted((ROOT / "app").rglob("*.py")):
        for text, plural in said(ast.parse(path.read_text(encoding="utf-8"))):
            yield text, plural, path.relative_to(ROOT).as_posix()
    for path in sorted((ROOT / "app").rglob("*.kv")):
        for _, text in re.findall(r"""\bsay\((["'])(.*?)\1""", path.read_text(encoding="utf-8")):
            yield text, "", path.relative_to(ROOT).as_posix()


# --- the rules --------------------------------------------------------------------------------------------


def _packs() -> Iterator[tuple[str, str]]:
    book = shipped()
    for observation in book.observations.values():
        place = "packs/observations"
        yield observation.station, place
        yield observation.ask, place
        yield observation.look, place
        yield observation.good, place
        for condition in observation.conditions:
            yield condition.say, place
        for wording in observation.worded:
            yield from ((text, place) for text in (wording.ask, wording.look, wording.good) if text)
            yield from ((condition.say, place) for condition in wording.conditions)
    for pack in book.packs:
        place = f"packs/{pack.id}"
        yield pack.title, place
        for rule in pack.rules:
            yield from ((text, place) for text in (rule.title, rule.fires, rule.action))
        for who in pack.who:
            yield who.means, place
        for kept in pack.retention:
            yield kept.record, place
            yield kept.keep, place
    for criterion in book.criteria.values():
        yield criterion.says, "packs/criteria"
        yield criterion.left_out, "packs/criteria"


def _words() -> Iterator[tuple[str, str]]:
    for module in (inspection_rules.words, inspection_rules.rounds, app.register.people):
        for name, kind in sorted(vars(module).items()):
            if isinstance(kind, type) and issubclass(kind, enum.StrEnum):
                yield from ((str(one), f"words.{name}") for one in kind)
    for name in (*MEASURES, *FORMULAS):
        yield name.replace("_", " "), "measures"
    for model in (Item, Part, Applies):
        for name in model.model_fields:
            yield name.replace("_", " "), "fields"
    for dimension in get_args(Dimension):
        yield f"a {dimension}", "dimensions"
    for text in PIECES:
        yield text, "pieces"
    for measure in MEASURES.values():
        if " " in measure.unit or measure.unit.isalpha():
            yield measure.unit, "units"


# --- the screens ------------------------------------------------------------------------------------------


def said(tree: ast.AST) -> Iterator[tuple[str, str]]:
    """Yield the texts, each with its plural, that a module says."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name) or not node.args:
            continue
        if node.func.id == "say_many":
            one, many = node.args[:2]
            if isinstance(one, ast.Constant) and isinstance(many, ast.Constant):
                yield str(one.value), str(many.value)
        elif node.func.id in SAYING:
            yield from ((text, "") for text in _alternatives(node.args[0]))


def _alternatives(node: ast.expr) -> Iterator[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from _alternatives(node.body)
        yield from _alternatives(node.orelse)
    elif isinstance(node, ast.BoolOp):
        for one in node.values:
            yield from _alternatives(one)


# --- sentences put together -------------------------------------------------------------------------------


def templates(tree: ast.AST) -> Iterator[str]:
    """Yield the texts and templates that a module puts sentences together from."""
    seen: set[int] = set()
    _leave_out(tree, seen)
    for node in ast.walk(tree):  # what holds others comes before them
        if id(node) in seen or not isinstance(node, ast.Constant | ast.JoinedStr | ast.BinOp | ast.Call):
            continue
        if isinstance(node, ast.Call):
            if getattr(node.func, "id", "") != "PydanticCustomError" or not isinstance(node.args[1], ast.Constant):
                continue
            forms = [_formatted(str(node.args[1].value))]
            seen.update(id(one) for one in node.args[:2])
        elif isinstance(node, ast.Constant) and re.search(r"\{[a-z]\w*\}", str(node.value)):
            forms = [_formatted(str(node.value))]
        else:
            forms = _variants(node, seen)
        for pieces in forms:
            text = _numbered(pieces)
            if text and _wordy(text) and text not in SAID_WHOLE:
                yield text


def _leave_out(tree: ast.AST, seen: set[int]) -> None:
    """Mark what is no sentence: docstrings, type annotations, patterns, keys, names of fields, schema texts."""
    for node in ast.walk(tree):
        left: list[ast.AST] = []
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            if node.body and isinstance(node.body[0], ast.Expr) and isinstance(node.body[0].value, ast.Constant):
                left.append(node.body[0].value)
            if isinstance(node, ast.FunctionDef) and node.returns is not None:
                left.append(node.returns)
        elif isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            left.append(node.value)
        elif isinstance(node, ast.AnnAssign | ast.arg) and node.annotation is not None:
            left.append(node.annotation)
        elif isinstance(node, ast.Subscript):
            left.append(node.slice)
        elif isinstance(node, ast.Call):
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            if name in (
                "say",
                "say_many",
                "told",
                "mark",
                "compile",
                "fullmatch",
                "getattr",
                "encode",
                "exec_driver_sql",
                "text",
                "Annotated",
                "Literal",
            ):
                left.extend(node.args)
            left.extend(one.value for one in node.keywords if one.arg in ("pattern", "description", "examples"))
        elif isinstance(node, ast.FormattedValue) and node.format_spec is not None:
            left.append(node.format_spec)
        for one in left:
            seen.update(id(inner) for inner in ast.walk(one))


def _wordy(text: str) -> bool:
    """Whether there is something to translate: a word beside what is filled in, more than a name in code."""
    literal = "".join(piece for piece, *_ in Formatter().parse(text) if piece)
    if not re.search(r"[A-Za-z]{2}", literal):
        return False
    if re.search(r"[_<>\\=^$]|https?:|SELECT|PRAGMA|\.db|\.json", literal):
        return False
    return " " in text.strip() and bool(re.search(r"[a-z]{2}", literal))


Pieces = tuple[str | None, ...]  # None: something is filled in


def _formatted(text: str) -> Pieces:
    """Return a text with `{names}` as pieces and gaps."""
    pieces: list[str | None] = []
    for literal, name, *_ in Formatter().parse(text):
        pieces += [literal] if name is None else [literal, None]
    return tuple(pieces)


def _variants(node: ast.expr, seen: set[int]) -> list[Pieces]:
    """Return each form a text can take, as literal pieces and gaps; what is in them is marked as seen."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        seen.add(id(node))
        return [(node.value,)]
    if isinstance(node, ast.JoinedStr):
        seen.add(id(node))
        return _product(node.values, seen)
    if isinstance(node, ast.FormattedValue) and isinstance(node.value, ast.IfExp) and _texts(node.value):
        return _variants(node.value, seen)
    if isinstance(node, ast.IfExp) and _texts(node):
        return [*_variants(node.body, seen), *_variants(node.orelse, seen)]
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        seen.add(id(node))
        return _product([node.left, node.right], seen)
    return [(None,)]


def _texts(node: ast.expr) -> bool:
    """Whether an expression is a choice among texts written here."""
    if isinstance(node, ast.IfExp):
        return _texts(node.body) and _texts(node.orelse)
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))


def _product(nodes: Iterable[ast.expr], seen: set[int]) -> list[Pieces]:
    every = [_variants(one, seen) for one in nodes]
    joined = [tuple(piece for part in choice for piece in part) for choice in product(*every)]
    return joined[:MOST_VARIANTS]


def _numbered(pieces: Pieces) -> str:
    """Write pieces as one template; where it begins or ends amid a sentence, a gap stands for the rest."""
    merged: list[str | None] = []
    for piece in pieces:
        if piece is None and merged and merged[-1] is None:
            continue
        if piece is not None and merged and merged[-1] is not None:
            merged[-1] += piece  # type: ignore[operator]
        else:
            merged.append(piece)
    merged = [one for one in merged if one != ""]
    if not merged or all(one is None for one in merged):
        return ""
    first, last = merged[0], merged[-1]
    if first is not None and re.match(r"[ ,;:.)]", first) and first.strip():
        merged.insert(0, None)
    if last is not None and re.search(r"[ (:]$|, $", last) and last.strip():
        merged.append(None)
    gaps = 0
    text = ""
    for one in merged:
        if one is None:
            text += f"{{{gaps}}}"
            gaps += 1
        else:
            text += one.replace("{", "{{").replace("}", "}}")
    return text.strip() if gaps else text


def _files(places: Iterable[str]) -> Iterator[Path]:
    for place in places:
        path = ROOT / place
        found = [path] if path.suffix == ".py" else sorted(path.rglob("*.py"))
        for one in found:
            if not any(one.relative_to(ROOT).as_posix().startswith(left) for left in NEVER_TOLD):
                yield one
