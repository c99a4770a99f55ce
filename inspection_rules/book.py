"""Loading and checking packs: the shipped ones, and any a person offers.

A `RuleBook` is the observations and the packs that were loaded together; every name one of them uses has
been found in the other.
"""

import hashlib
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

from inspection_rules.case import Case
from inspection_rules.formulas import FORCES, FORMULAS
from inspection_rules.item import Item
from inspection_rules.measures import MEASURES, Measure
from inspection_rules.measures.routes import ROUTES
from inspection_rules.observation import Observation
from inspection_rules.quantity import UNITS, Quantity
from inspection_rules.rule import Criterion, Formula, Limit, Pack, Rule
from inspection_rules.tightening import loosening
from inspection_rules.typical import typical_items
from inspection_rules.words import InspectionKind, Seen

COMMON = "common-practice"
MOST_BEFORE_USE = 12
_Entry = TypeVar("_Entry", Observation, Criterion)


class PackError(ValueError):
    """A pack cannot be used; the message names the file, the rule and the field, and what is wrong."""


class CaseError(ValueError):
    """A case is well formed but says something the vocabulary does not know; the message names the place."""


@dataclass(frozen=True)
class RuleBook:
    """Observations in the order of the rope, and packs that were checked against them."""

    observations: dict[str, Observation]
    packs: tuple[Pack, ...]
    criteria: dict[str, Criterion]

    def chosen(self, regimes: Iterable[str], item: Item | None = None) -> tuple[Pack, ...]:
        """Return the packs of these regimes, common practice, and the maker's pack that the item names.

        Raises:
            CaseError: a regime no pack knows.
        """
        wanted = set(regimes)
        unknown = wanted - {pack.regime for pack in self.packs if pack.regime}
        if unknown:
            known = ", ".join(sorted({pack.regime for pack in self.packs if pack.regime}))
            raise CaseError(f"regimes: '{min(unknown)}' is not known; known are {known}")
        named = item.maker_pack if item is not None else ""
        return tuple(
            pack
            for pack in self.packs
            if (pack.id == named if pack.maker else not pack.regime or pack.regime in wanted)
        )


@cache
def shipped() -> RuleBook:
    """Return the packs that ship with the program, checked."""
    folder = files("inspection_rules").joinpath("packs")
    texts = _texts(folder)
    observations: dict[str, Observation] = {}
    for name, text in _texts(folder.joinpath("observations")).items():
        for key, one in _entries(text, name, "observation", Observation).items():
            if key in observations:
                raise PackError(f"observations/{name}: {key}: the id is used twice")
            observations[key] = one
    criteria = _entries(texts.pop("criteria.toml"), "criteria.toml", "criterion", Criterion)
    _check_substitutes(observations)
    packs = tuple(read_pack(text, name, observations, criteria) for name, text in texts.items())
    book = RuleBook(observations, packs, criteria)
    _check_together(book)
    return book


def _texts(folder: Traversable) -> dict[str, bytes]:
    """The bytes of each TOML file of a folder, by its name, in the order of the names."""
    names = sorted(entry.name for entry in folder.iterdir() if entry.name.endswith(".toml"))
    return {name: folder.joinpath(name).read_bytes() for name in names}


def with_pack(book: RuleBook, path: Path) -> RuleBook:
    """Return the book with one more pack from a file.

    A pack of a site or a maker may tighten and never loosen: see `tightening.py` for what that means. One that names
    no regime always counts, and so is the site's own.

    Raises:
        PackError: the file cannot be read, is no valid pack, or loosens; the message names the file, the rule, the
            field, and the rule it would loosen.
    """
    try:
        data = path.read_bytes()
    except OSError as error:
        raise PackError(f"{path}: cannot be read ({error.strerror})") from None
    pack = read_pack(data, path.name, book.observations, book.criteria)
    if any(other.id == pack.id for other in book.packs):
        raise PackError(f"{path.name}: pack id '{pack.id}' is taken; give the pack its own id")
    if any(rule.needs is not None and rule.needs.covers for rule in pack.rules):
        raise PackError(f"{path.name}: needs.covers: only the packs that ship say what the rules cover")
    _check_owner(pack, path.name)
    for why in loosening(pack, book.packs) if pack.tightens else ():
        raise PackError(f"{path.name}: {why}")
    together = replace(book, packs=(*book.packs, pack))
    _check_together(together)
    return together


def _check_owner(pack: Pack, name: str) -> None:
    """A pack that always counts says that it is the site's; a maker's counts by item, not by regime."""
    if pack.maker and pack.regime:
        raise PackError(f"{name}: [pack] regime: a maker's pack counts for the items that name it; leave 'regime' out")
    if pack.maker or pack.regime:
        return
    for rule in pack.rules:
        if rule.source.kind != "site":
            raise PackError(
                f"{name}: rule {rule.id}: source.kind: a pack that always counts is the site's own: say 'site', or "
                "name a regime"
            )


def read_pack(data: bytes, name: str, observations: dict[str, Observation], criteria: dict[str, Criterion]) -> Pack:
    """Read and check one pack.

    Raises:
        PackError: with the file, the rule and the field.
    """
    document = _toml(data, name)
    head = document.pop("pack", None)
    rules = document.pop("rule", [])
    if not isinstance(head, dict) or not isinstance(rules, list) or document:
        raise PackError(f"{name}: a pack has one [pack] table and [[rule]] tables, nothing else")
    if head.keys() & {"sha256", "rules"}:
        raise PackError(f"{name}: [pack] 'sha256' and 'rules' are not written in it")
    checked: list[Rule] = []
    for index, raw in enumerate(rules):
        label = raw.get("id", f"number {index + 1}") if isinstance(raw, dict) else f"number {index + 1}"
        where = f"{name}: rule {label}"
        try:
            rule = Rule.model_validate(raw)
        except ValidationError as error:
            raise PackError(f"{where}: {_first(error)}") from None
        if rule.criterion and rule.criterion not in criteria:
            raise PackError(f"{where}: criterion: '{rule.criterion}' is not in criteria.toml")
        _check_names(rule, where, observations)
        if any(other.id == rule.id for other in checked):
            raise PackError(f"{where}: the id is used twice")
        checked.append(rule)
    try:
        return Pack(rules=tuple(checked), sha256=hashlib.sha256(data).hexdigest(), **head)
    except (ValidationError, TypeError) as error:
        why = _first(error) if isinstance(error, ValidationError) else str(error)
        raise PackError(f"{name}: [pack] {why}") from None


def check_case(case: Case, book: RuleBook) -> None:
    """Check a case's readings and findings against the vocabulary.

    What the item's record makes possible (a thimble to look at, a stitch) is asked of the inspection being judged
    only: at an earlier one the item may have been another.

    Raises:
        CaseError: names the inspection, the observation and the remedy.
    """
    for one in case.history:
        now = one is case.inspection
        for entry in one.entries:
            where = f"inspection {one.id}: {entry.observation}" + _of(entry.part)
            if entry.observation not in book.observations:
                raise CaseError(f"{where}: no such observation; `throatmark rules --observations` lists them")
            observation = book.observations[entry.observation]
            if observation.at and one.kind not in observation.at:
                raise CaseError(f"{where}: this is part of {' and '.join(observation.at)} only")
            if now and entry.part not in observation.parts(case.item):
                raise CaseError(f"{where}: this observation is not made there on this item")
        for reading in one.readings:
            where = f"inspection {one.id}: reading {reading.observation}" + _of(reading.part)
            observation = book.observations[reading.observation]
            if observation.kind != "reading":
                raise CaseError(f"{where}: this is a question; answer it with a finding")
            if reading.method not in observation.methods:
                raise CaseError(f"{where}: not read by '{reading.method}'; use {', '.join(observation.methods)}")
            if observation.state and not {"tension", "moisture"} <= reading.model_fields_set:
                raise CaseError(f"{where}: say in 'tension' and 'moisture' in which state it was read")
            for value in reading.values:
                if value.dimension != observation.dimension:
                    raise CaseError(f"{where}: '{value.text}' is no {observation.dimension}")
                if value.value < 0 and not observation.signed:
                    raise CaseError(f"{where}: '{value.text}' is negative; this reading is zero or more")
        for finding in one.findings:
            where = f"inspection {one.id}: finding {finding.observation}" + _of(finding.part)
            observation = book.observations[finding.observation]
            if observation.kind != "question" and finding.seen is not Seen.NOT_EXAMINED:
                raise CaseError(f"{where}: this is a reading; give its values, or say it could not be examined")
            answers = observation.answers(case.item, finding.part) if now else observation.conditions
            known = {condition.id for condition in answers}
            for condition in finding.conditions:
                if condition not in known:
                    raise CaseError(
                        f"{where}: condition '{condition}' is not known; known are {', '.join(sorted(known))}"
                    )
            hidden = finding.seen is Seen.HIDDEN
            if now and hidden and not hidden_behind(observation, finding.part, case.item, book):
                raise CaseError(f"{where}: nothing hides this by design; answer it, or say it could not be examined")


def _of(part: str) -> str:
    return f" of part {part}" if part else ""


def asked_of(rule: Rule, observation: Observation, item: Item) -> tuple[str, ...]:
    """Return the ids of the item's parts on which this rule asks for this observation."""
    return tuple(part for part in observation.parts(item) if part == "" or rule.applies.to_part(item.part(part)))


def hidden_behind(observation: Observation, part: str, item: Item, book: RuleBook) -> Observation | None:
    """Return what stands in for an observation that design hides on this part; None when nothing does."""
    substitute = book.observations.get(observation.substitute)
    if substitute is None or part not in substitute.parts(item):
        return None
    hidden = part == "" or observation.hidden_on.to_part(item.part(part))
    return substitute if hidden else None


def questions_before_use(item: Item, book: RuleBook, regimes: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Return what a before-use look at this item must contain: part id and observation id, each pair once."""
    found: dict[tuple[str, str], None] = {}
    for pack in book.chosen(regimes, item):
        for rule in pack.rules:
            if rule.needs and InspectionKind.BEFORE_USE in rule.needs.inspection and rule.applies.to_item(item):
                for name in rule.needs.observations:
                    found.update(dict.fromkeys((part, name) for part in asked_of(rule, book.observations[name], item)))
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
        for name in rule.condition.graded_by:
            _measure(name, where)
    if rule.needs:
        for name in rule.needs.observations:
            if name not in observations:
                raise PackError(f"{where}: needs.observations: no observation '{name}'")
        if rule.needs.covers and not rule.applies.part:
            raise PackError(f"{where}: needs.covers: say in applies.part which parts the rules speak for")
    if rule.limit:
        _check_limit(rule.limit, where)
    if rule.movement:
        measure = _measure(rule.movement.measure, where)
        if not measure.moves:
            raise PackError(f"{where}: movement.measure: '{rule.movement.measure}' is no position that could move")
        _check_formula(rule.movement.action, where)
        _check_formula(rule.movement.provisional, where)
    if rule.route and rule.route.measure not in ROUTES:
        raise PackError(f"{where}: route.measure: '{rule.route.measure}' is not one of {', '.join(sorted(ROUTES))}")


def _check_limit(limit: Limit, where: str) -> None:
    unit = _measure(limit.measure, where).unit
    dimension = UNITS[unit].dimension
    for value in (limit.bound, limit.detection_step):
        if isinstance(value, Quantity) and value.dimension != dimension:
            raise PackError(f"{where}: limit: '{value.text}' is no {dimension}, which '{limit.measure}' is")
        if isinstance(value, Quantity) and value.value < 0 and dimension != "temperature":
            raise PackError(f"{where}: limit: '{value.text}' is negative")
        # Turned into the other datum, "at most" would mean "at least".
        if isinstance(value, Quantity) and dimension == "inclination" and value.unit != unit:
            raise PackError(f"{where}: limit: give '{value.text}' in '{unit}', as '{limit.measure}' is")
    if isinstance(limit.bound, Formula):
        _check_formula(limit.bound, where)
        gives = "force" if limit.bound.formula in FORCES else "length"
        if dimension != gives:
            raise PackError(
                f"{where}: limit: '{limit.bound.formula}' gives a {gives}, and '{limit.measure}' is no {gives}"
            )


def _check_formula(formula: Formula, where: str) -> None:
    if formula.formula not in FORMULAS:
        raise PackError(f"{where}: formula: '{formula.formula}' is not one of {', '.join(sorted(FORMULAS))}")
    if formula.formula in FORCES and not formula.factors:
        raise PackError(f"{where}: formula: '{formula.formula}' needs 'factors'")
    if formula.formula not in (*FORCES, "required_bury") and formula.times is None:
        raise PackError(f"{where}: formula: '{formula.formula}' needs 'times'")


def _measure(name: str, where: str) -> Measure:
    if name not in MEASURES:
        raise PackError(f"{where}: measure: '{name}' is not one of {', '.join(sorted(MEASURES))}")
    return MEASURES[name]


def _check_together(book: RuleBook) -> None:
    """What no pack can be asked about alone: one meaning for each rule id, and few questions before use."""
    owner: dict[str, str] = {}
    for pack in book.packs:
        for rule in pack.rules:
            if rule.id in owner:
                raise PackError(f"{pack.id}: rule {rule.id}: the id is taken by pack {owner[rule.id]}; give it its own")
            owner[rule.id] = pack.id
    regimes = [pack.regime for pack in book.packs if pack.regime]
    for item in typical_items():
        asked = questions_before_use(item, book, regimes)
        if len(asked) > MOST_BEFORE_USE:
            made = f"a {item.terminations[0].splice} at each end" if item.terminations else "no ends"
            raise PackError(
                f"{book.packs[-1].id}: before use {len(asked)} questions of a {item.kind} of "
                f"{item.construction or item.fibre} with {made}; {MOST_BEFORE_USE} are the most a person answers"
            )


def _entries(data: bytes, name: str, table: str, model: type[_Entry]) -> dict[str, _Entry]:
    """Read the entries of one of the two vocabularies, by their id."""
    found: dict[str, _Entry] = {}
    for raw in _toml(data, name).get(table, []):
        where = f"{name}: {raw.get('id', '?')}"
        try:
            entry = model.model_validate(raw)
        except ValidationError as error:
            raise PackError(f"{where}: {_first(error)}") from None
        if entry.id in found:
            raise PackError(f"{where}: the id is used twice")
        found[entry.id] = entry
    return found


def _check_substitutes(observations: dict[str, Observation]) -> None:
    for observation in observations.values():
        for name in (*observation.instead, *([observation.substitute] if observation.substitute else [])):
            if name not in observations:
                raise PackError(f"observations: {observation.id}: no observation '{name}' to stand in")


def _toml(data: bytes, name: str) -> dict[str, Any]:
    try:
        return tomllib.loads(data.decode())
    except (UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError) as error:
        raise PackError(f"{name}: is no TOML text ({error})") from None


def _first(error: ValidationError) -> str:
    first = error.errors()[0]
    place = ".".join(str(step) for step in first["loc"] if not str(step).startswith("function-"))
    return f"{place}: {first['msg']}" if place else first["msg"]
