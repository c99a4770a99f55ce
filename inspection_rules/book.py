"""Loading and checking packs: the shipped ones, and any a person offers.

A `RuleBook` is the observations and the packs that were loaded together; every name one of them uses has
been found in the other.
"""

import hashlib
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from inspection_rules.case import Case
from inspection_rules.formulas import FORMULAS
from inspection_rules.measures import MEASURES
from inspection_rules.observation import Observation
from inspection_rules.record import Item
from inspection_rules.rule import Formula, Limit, Movement, Pack, Rule
from inspection_rules.words import InspectionKind, Seen

COMMON = "common-practice"
MOST_BEFORE_USE = 12


class PackError(ValueError):
    """A pack cannot be used; the message names the file, the rule and the field, and what is wrong."""


class CaseError(ValueError):
    """A case is well formed but says something the vocabulary does not know; the message names the place."""


@dataclass(frozen=True)
class RuleBook:
    """Observations in the order of the rope, and packs that were checked against them."""

    observations: dict[str, Observation]
    packs: tuple[Pack, ...]

    def chosen(self, regimes: Iterable[str]) -> tuple[Pack, ...]:
        """Return the packs of these regimes and common practice.

        Raises:
            CaseError: a regime no pack knows.
        """
        wanted = set(regimes)
        unknown = wanted - {pack.regime for pack in self.packs if pack.regime}
        if unknown:
            known = ", ".join(sorted(pack.regime for pack in self.packs if pack.regime))
            raise CaseError(f"regimes: '{min(unknown)}' is not known; known are {known}")
        return tuple(pack for pack in self.packs if not pack.regime or pack.regime in wanted)


@cache
def shipped() -> RuleBook:
    """Return the packs that ship with the program, checked."""
    folder = files("inspection_rules").joinpath("packs")
    names = sorted(entry.name for entry in folder.iterdir() if entry.name.endswith(".toml"))
    texts = {name: folder.joinpath(name).read_bytes() for name in names}
    observations = _observations(texts.pop("observations.toml"))
    texts.pop("criteria.toml", None)
    packs = tuple(read_pack(text, name, observations) for name, text in texts.items())
    return RuleBook(observations, packs)


def with_pack(book: RuleBook, path: Path) -> RuleBook:
    """Return the book with one more pack from a file.

    Raises:
        PackError: the file cannot be read or is no valid pack.
    """
    try:
        data = path.read_bytes()
    except OSError as error:
        raise PackError(f"{path}: cannot be read ({error.strerror})") from None
    pack = read_pack(data, path.name, book.observations)
    if any(other.id == pack.id for other in book.packs):
        raise PackError(f"{path.name}: pack id '{pack.id}' is taken; give the pack its own id")
    return RuleBook(book.observations, (*book.packs, pack))


def read_pack(data: bytes, name: str, observations: dict[str, Observation]) -> Pack:
    """Read and check one pack.

    Raises:
        PackError: with the file, the rule and the field.
    """
    document = _toml(data, name)
    head = document.pop("pack", None)
    rules = document.pop("rule", [])
    if not isinstance(head, dict) or not isinstance(rules, list) or document:
        raise PackError(f"{name}: a pack has one [pack] table and [[rule]] tables, nothing else")
    checked: list[Rule] = []
    for index, raw in enumerate(rules):
        label = raw.get("id", f"number {index + 1}") if isinstance(raw, dict) else f"number {index + 1}"
        where = f"{name}: rule {label}"
        try:
            rule = Rule.model_validate(raw)
        except ValidationError as error:
            raise PackError(f"{where}: {_first(error)}") from None
        _check_names(rule, where, observations)
        if any(other.id == rule.id for other in checked):
            raise PackError(f"{where}: the id is used twice")
        checked.append(rule)
    try:
        return Pack(rules=tuple(checked), **{"sha256": hashlib.sha256(data).hexdigest(), **head})
    except (ValidationError, TypeError) as error:
        why = _first(error) if isinstance(error, ValidationError) else str(error)
        raise PackError(f"{name}: [pack] {why}") from None


def check_case(case: Case, book: RuleBook) -> None:
    """Check a case's readings and findings against the vocabulary.

    Raises:
        CaseError: names the inspection, the observation and the remedy.
    """
    for one in case.history:
        for entry in one.entries:
            where = f"inspection {one.id}: {entry.observation}" + (f" of part {entry.part}" if entry.part else "")
            if entry.observation not in book.observations:
                raise CaseError(f"{where}: no such observation; `throatmark rules --observations` lists them")
            observation = book.observations[entry.observation]
            if entry.part not in observation.parts(case.item):
                raise CaseError(f"{where}: this observation is not made there on this item")
        for reading in one.readings:
            where = f"inspection {one.id}: reading {reading.observation} of part {reading.part}"
            observation = book.observations[reading.observation]
            if observation.kind != "reading":
                raise CaseError(f"{where}: this is a question; answer it with a finding")
            if reading.method not in observation.methods:
                raise CaseError(f"{where}: not read by '{reading.method}'; use {', '.join(observation.methods)}")
            for value in reading.values:
                if value.dimension != observation.dimension:
                    raise CaseError(f"{where}: '{value.text}' is no {observation.dimension}")
                if value.value < 0 and not observation.signed:
                    raise CaseError(f"{where}: '{value.text}' is negative; this reading is zero or more")
        for finding in one.findings:
            where = f"inspection {one.id}: finding {finding.observation} of part {finding.part}"
            observation = book.observations[finding.observation]
            if observation.kind != "question":
                raise CaseError(f"{where}: this is a reading; give its values")
            known = {condition.id for condition in observation.conditions}
            for condition in finding.conditions:
                if condition not in known:
                    raise CaseError(
                        f"{where}: condition '{condition}' is not known; known are {', '.join(sorted(known))}"
                    )
            if finding.seen is Seen.HIDDEN and not hidden_behind(observation, finding.part, case.item, book):
                raise CaseError(f"{where}: nothing hides this by design; answer it, or say it could not be examined")


def hidden_behind(observation: Observation, part: str, item: Item, book: RuleBook) -> Observation | None:
    """Return what stands in for an observation that design hides on this part; None when nothing does."""
    substitute = book.observations.get(observation.substitute)
    return substitute if substitute is not None and part in substitute.parts(item) else None


def questions_before_use(item: Item, book: RuleBook, regimes: Iterable[str]) -> tuple[str, ...]:
    """Return the observation ids a before-use look at this item must contain, each once."""
    found: dict[str, None] = {}
    for pack in book.chosen(regimes):
        for rule in pack.rules:
            if rule.needs and InspectionKind.BEFORE_USE in rule.needs.inspection and rule.applies.to_item(item):
                found.update(dict.fromkeys(o for o in rule.needs.observations if book.observations[o].parts(item)))
    return tuple(found)


def _check_names(rule: Rule, where: str, observations: dict[str, Observation]) -> None:
    if rule.condition:
        observation = observations.get(rule.condition.observation)
        if observation is None or observation.kind != "question":
            raise PackError(f"{where}: condition.observation: no question '{rule.condition.observation}'")
        known = {condition.id for condition in observation.conditions}
        for condition in rule.condition.when:
            if condition not in known:
                raise PackError(f"{where}: condition.when: '{condition}' is not one of {', '.join(sorted(known))}")
    if rule.needs:
        for name in rule.needs.observations:
            if name not in observations:
                raise PackError(f"{where}: needs.observations: no observation '{name}'")
    numeric: Limit | Movement | None = rule.limit or rule.movement
    if numeric:
        if numeric.measure not in MEASURES:
            raise PackError(f"{where}: measure: '{numeric.measure}' is not one of {', '.join(sorted(MEASURES))}")
        bounds = [numeric.bound] if isinstance(numeric, Limit) else [numeric.action, numeric.provisional]
        for bound in bounds:
            if isinstance(bound, Formula) and bound.formula not in FORMULAS:
                raise PackError(f"{where}: formula: '{bound.formula}' is not one of {', '.join(sorted(FORMULAS))}")


def _observations(data: bytes) -> dict[str, Observation]:
    found: dict[str, Observation] = {}
    for raw in _toml(data, "observations.toml").get("observation", []):
        where = f"observations.toml: {raw.get('id', '?')}"
        try:
            observation = Observation.model_validate(raw)
        except ValidationError as error:
            raise PackError(f"{where}: {_first(error)}") from None
        if observation.id in found:
            raise PackError(f"{where}: the id is used twice")
        found[observation.id] = observation
    for observation in found.values():
        for name in (*observation.instead, *([observation.substitute] if observation.substitute else [])):
            if name not in found:
                raise PackError(f"observations.toml: {observation.id}: no observation '{name}' to stand in")
    return found


def _toml(data: bytes, name: str) -> dict[str, Any]:
    try:
        return tomllib.loads(data.decode())
    except (UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError) as error:
        raise PackError(f"{name}: is no TOML text ({error})") from None


def _first(error: ValidationError) -> str:
    first = error.errors()[0]
    place = ".".join(str(step) for step in first["loc"] if not str(step).startswith("function-"))
    return f"{place}: {first['msg']}" if place else first["msg"]
