"""Sentences that the rules and the register put together in English, told in another language.

They are stored in records as they were put together, so they are translated when they are shown. The catalogue holds
the templates they are made from, with `{0}`, `{1}` for what is filled in. A sentence is matched against them; what is
filled in is told in turn, and put where the other language wants it. Where nothing matches, the English stays: a
sentence is never lost, and a test sees that none of the program's own is left.
"""

import re
import struct
from collections.abc import Callable, Iterator, Mapping
from itertools import islice
from string import Formatter
from typing import NamedTuple

# How many letters of its own a template has, so that it cannot have matched what somebody typed.
SURE = 10
LONGEST, DEEPEST, MOST_WAYS, MOST_TRIES, REMEMBERED = 3000, 7, 24, 400, 8192
_GAP = re.compile(r"\{\d+\}")
_ISO_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_UNITS = "mm|cm|m|in|ft|kN|N|kg|t|tf|lbf|lb|%|°C|°F|°|MB|MiB|px"
_NEUTRAL = re.compile(rf"[^A-Za-z]*|[-+±−]?[0-9][0-9.,/× ]*({_UNITS})?( [0-9/]+ in)?|'[^']*'|[A-Z]|u [0-9.]+ mm")
_SENTENCE_END = re.compile(r"[.?!:…] (?=[A-Z0-9'±−(-])")
_BEGINS, _ENDS = re.compile(r" [A-Z]| $"), re.compile(r"[.?!:…] $")
_DOT = " · "
_JOINTS = ("; ", ": ", ", ", _DOT, " – ", " (")


class Told(NamedTuple):
    """A text in another language, and the pieces of it that stayed English, `left`."""

    text: str
    left: tuple[str, ...]

    @property
    def cost(self) -> int:
        """How much of it stayed English, in letters."""
        return sum(len(one) for one in self.left)


class Template(NamedTuple):
    """A sentence with gaps: its English literals around them, and the other language's text."""

    literals: tuple[str, ...]
    numbers: tuple[int, ...]
    said: str
    across: bool  # whether it reaches from one sentence into another

    @property
    def weight(self) -> int:
        """How many letters of it are its own."""
        return sum(len(one) for one in self.literals)


class Teller:
    """Tells English sentences in one other language.

    Args:
        messages: the catalogue, English to that language.
        day: writes an ISO date for people.
    """

    def __init__(self, messages: Mapping[str, str], day: Callable[[str], str]) -> None:
        self._day = day
        self._whole = {text: said for text, said in messages.items() if "{" not in text}
        self._lower = {text.lower(): said for text, said in self._whole.items()}
        self._by_word: dict[str, list[Template]] = {}
        self._anywhere: list[tuple[str, Template]] = []
        for text, said in messages.items():
            if _GAP.search(text):
                self._add(_template(text, said))
        self._known: dict[str, Told] = {}
        self._tried: dict[str, tuple[int, Told]] = {}

    def tell(self, text: str) -> Told:
        """Return a text in the other language, line by line."""
        if "\n" in text and text not in self._whole:
            lines = [self.tell(line) for line in text.split("\n")]
            return Told("\n".join(one.text for one in lines), tuple(piece for one in lines for piece in one.left))
        if text not in self._known:
            if len(self._known) >= REMEMBERED:
                self._known.clear()
            self._tried.clear()
            self._known[text] = self._tell(text, 0)
        return self._known[text]

    def _add(self, template: Template) -> None:
        first, space, _ = template.literals[0].partition(" ")
        if space:
            self._by_word.setdefault(first, []).append(template)
        else:
            self._anywhere.append((max(template.literals, key=len), template))

    def _tell(self, text: str, depth: int) -> Told:
        if text in self._known:
            return self._known[text]
        tried = self._tried.get(text)
        if tried is not None and tried[0] <= depth:
            return tried[1]
        if len(self._tried) >= MOST_TRIES:
            return Told(text, (text,))
        self._tried[text] = (depth, Told(text, (text,)))
        found = self._work_out(text, depth)
        self._tried[text] = (depth, found)
        if not found.left:
            self._known[text] = found
        return found

    def _work_out(self, text: str, depth: int) -> Told:
        if text in self._whole:
            return Told(self._whole[text], ())
        core = text.strip()
        if core != text:
            start = text[: len(text) - len(text.lstrip())]
            inner = self._tell(core, depth) if core else Told("", ())
            return Told(f"{start}{inner.text}{text[len(text.rstrip()) :] if core else ''}", inner.left)
        if (asked := self._whole.get(f"{text}?")) is not None:
            return Told(asked.removesuffix("?"), ())
        if (begun := self._whole.get(text[:1].lower() + text[1:])) is not None:
            return Told(_as_begun(begun, text), ())
        if _ISO_DAY.fullmatch(text):
            return Told(self._day(text), ())
        if _NEUTRAL.fullmatch(text):
            return Told(text, ())
        best = Told(text, (text,))
        if depth >= DEEPEST or len(text) > LONGEST or text.isalnum():
            return best
        for way, trust in self._ways(text, depth):
            if not way.left:
                return way
            if trust and way.cost < best.cost:
                best = way
                if trust > 1 and 2 * way.cost <= len(text):
                    break  # its own words are many, and what is left over filled its gaps whole
        return best

    def _ways(self, text: str, depth: int) -> Iterator[tuple[Told, int]]:
        """Yield ways to tell a text, the likeliest first, each with how far it is trusted with a piece left over.

        What a person typed is left over, whole: never is half of it told by the chance of a word. So 0 is a way that
        counts only with nothing left over; 1 counts where no better one is found; 2 needs no looking further.
        """
        ends = [end.start() + 1 for end in _SENTENCE_END.finditer(text)]
        candidates = self._candidates(text)
        across = [one for one in candidates if one.across] if ends else candidates
        yield from self._filled(across, text, depth)
        for cut in ends:
            first, rest = self._tell(text[:cut], depth + 1), self._tell(text[cut + 1 :], depth + 1)
            unknown = first.left == (text[:cut],) or rest.left == (text[cut + 1 :],)
            yield _joined(first, " ", rest), 1 if unknown or text[cut - 1] == ":" else 2
        if ends:
            yield from self._filled([one for one in candidates if not one.across], text, depth)
        if (lower := self._lower.get(text.lower())) is not None:  # a title amid a sentence
            yield Told(_as_begun(lower, text), ()), 1
        if text[-1] in ".:?!…":  # a question or an answer as a sentence
            inner = self._tell(text[:-1], depth + 1)
            yield Told(inner.text + text[-1], inner.left), 0 if inner.left == (text[:-1],) else 2
        if text[0].isupper() and text[1:2].islower():
            inner = self._tell(text[0].lower() + text[1:], depth + 1)
            yield Told(_as_begun(inner.text, text), inner.left), 0
        if text[0] == "(" and text[-1] == ")":
            inner = self._tell(text[1:-1], depth + 1)
            yield Told(f"({inner.text})", inner.left), 0
        for joint in _JOINTS:
            for cut in _places(text, joint):
                first = self._tell(text[:cut], depth + 1)
                if not first.left or joint == _DOT:
                    rest = self._rest(text[cut + len(joint) :], joint, depth)
                    yield _joined(first, joint, rest), int(joint == _DOT and not rest.left)  # a document and its kind
        for way in self._beside_a_number(text, depth):
            yield way, 0

    def _filled(self, templates: list[Template], text: str, depth: int) -> Iterator[tuple[Told, int]]:
        for template in templates:
            best, filled = Told(text, (text,)), tuple[str, ...]()
            for pieces in _matches(template.literals, text):
                way = self._fill(template, pieces, depth)
                if way.cost < best.cost:
                    best, filled = way, pieces
                if not way.left:
                    break
            whole = template.weight >= 2 * SURE and set(best.left) <= set(filled)
            yield best, 2 if whole else int(template.weight >= SURE)

    def _rest(self, rest: str, joint: str, depth: int) -> Told:
        if joint == " (" and rest.endswith(")"):
            inner = self._tell(rest[:-1], depth + 1)
            return Told(f"{inner.text})", inner.left)
        return self._tell(rest, depth + 1)

    def _beside_a_number(self, text: str, depth: int) -> Iterator[Told]:
        """A number or a date beside words: `12 mm since ...`."""
        for cut in _places(text, " "):
            if any(sign.isdigit() for sign in text[:cut]) or any(sign.isdigit() for sign in text[cut:]):
                first = self._tell(text[:cut], depth + 1)
                if not first.left:
                    yield _joined(first, " ", self._tell(text[cut + 1 :], depth + 1))

    def _candidates(self, text: str) -> list[Template]:
        found = list(self._by_word.get(text.partition(" ")[0], ()))
        found += [template for literal, template in self._anywhere if literal in text]
        return sorted(found, key=_heaviest)

    def _fill(self, template: Template, pieces: tuple[str, ...], depth: int) -> Told:
        told = [self._tell(piece, depth + 1) if piece else Told("", ()) for piece in pieces]
        values = {number: one.text for number, one in zip(template.numbers, told, strict=True)}
        said = _GAP.sub(lambda gap: values.get(int(gap[0][1:-1]), gap[0]), template.said)
        return Told(said.replace("{{", "{").replace("}}", "}"), tuple(piece for one in told for piece in one.left))


def entries(data: bytes) -> dict[str, str]:
    """Return what a compiled gettext catalogue (`.mo`) says, without plurals, the words of figures and its head.

    Raises:
        ValueError: it is no such catalogue.
    """
    order = {b"\xde\x12\x04\x95": "<", b"\x95\x04\x12\xde": ">"}.get(data[:4])
    if order is None:
        raise ValueError("no compiled catalogue")
    count, texts, said = struct.unpack(f"{order}3I", data[8:20])
    found: dict[str, str] = {}
    for index in range(count):
        key, value = (
            data[start : start + length].decode("utf-8")
            for length, start in (struct.unpack_from(f"{order}2I", data, at + 8 * index) for at in (texts, said))
        )
        if key and "\0" not in key and "\4" not in key:
            found[key] = value
    return found


def _template(text: str, said: str) -> Template:
    literals, numbers = [""], []
    for literal, name, *_ in Formatter().parse(text):
        literals[-1] += literal
        if name is not None:
            numbers.append(int(name))
            literals.append("")
    across = any(_SENTENCE_END.search(one) for one in literals) or any(_BEGINS.match(one) for one in literals[1:])
    across = across or any(_ENDS.search(one) for one in literals[:-1])
    return Template(tuple(literals), tuple(numbers), said, across)


def _heaviest(template: Template) -> int:
    return -template.weight


def _matches(literals: tuple[str, ...], text: str) -> Iterator[tuple[str, ...]]:
    """Yield the ways in which a text can be cut at a template's literals, not too many."""
    first, last = literals[0], literals[-1]
    if not last and text[-1] in ".?!" and literals[-2][-2:] not in (": ", ". ", " "):
        return  # the end of the sentence is no part of a number or a name
    if not text.startswith(first) or not text.endswith(last) or len(text) < len(first) + len(last):
        return
    end = len(text) - len(last)
    yield from islice(_cuts(literals[1:-1], text[len(first) : end]), MOST_WAYS)


def _cuts(literals: tuple[str, ...], text: str) -> Iterator[tuple[str, ...]]:
    if not literals:
        yield (text,)
        return
    literal = literals[0]
    at = text.find(literal)
    while at >= 0:
        for rest in _cuts(literals[1:], text[at + len(literal) :]):
            yield (text[:at], *rest)
        at = text.find(literal, at + 1)


def _places(text: str, joint: str) -> Iterator[int]:
    at = text.find(joint, 1)
    while at >= 0:
        if at + len(joint) < len(text):
            yield at
        at = text.find(joint, at + 1)


def _joined(first: Told, joint: str, rest: Told) -> Told:
    return Told(f"{first.text}{joint}{rest.text}", (*first.left, *rest.left))


def _as_begun(said: str, text: str) -> str:
    """Begin a text with a capital where the English does; German nouns keep theirs."""
    return said[:1].upper() + said[1:] if text[:1].isupper() else said
