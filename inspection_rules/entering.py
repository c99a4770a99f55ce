"""Entering an item: what may be said of it, word by word, which of that applies, and the item that comes of it.

What is said stands as texts under names, the same on a form, in a list and in a draft: those of the record's own
fields, with `end_a_`, `end_b_`, `joint_1_`, `fitting_1_` ... before those of a part. Nothing is filled in that was not
said.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Any, Literal

from pydantic import ValidationError

from inspection_rules.item import Item, Part, Rated
from inspection_rules.quantity import QuantityError, parse
from inspection_rules.words import (
    ENDLESS,
    JOINTS,
    UNSPLICED,
    WEB_KINDS,
    Construction,
    CoverLoad,
    Duty,
    Fibre,
    FittingKind,
    Hitch,
    ItemKind,
    Layout,
    PartKind,
    Service,
    SpliceKind,
    Thimble,
)

Said = Mapping[str, str]
Sort = Literal["text", "choice", "length", "force", "yes or no", "date", "count"]
ENDS, MOST_JOINTS, MOST_FITTINGS = ("a", "b"), 3, 6
COVERED = (Construction.DOUBLE_BRAID, Construction.KERNMANTLE, Construction.PARALLEL_CORE)
TUCKED = (SpliceKind.TUCKED_EYE, SpliceKind.TUCKED_SHORT_SPLICE)
BURIED = (SpliceKind.BURIED_EYE, SpliceKind.TUCK_AND_BURY_EYE, SpliceKind.LOCKED_EYE, SpliceKind.DOUBLE_BRAID_EYE,
          SpliceKind.END_TO_END)  # fmt: skip
MARKED = (SpliceKind.BURIED_EYE, SpliceKind.TUCK_AND_BURY_EYE, SpliceKind.DOUBLE_BRAID_EYE)
_HOLLOW = (SpliceKind.BURIED_EYE, SpliceKind.TUCK_AND_BURY_EYE, SpliceKind.LOCKED_EYE, SpliceKind.ADJUSTABLE_EYE,
           SpliceKind.END_TO_END)  # fmt: skip
# The splices that the rules speak for in each construction; any rope may have a sewn eye or a plain end.
_SPLICES = {
    Construction.LAID_3: TUCKED,
    Construction.LAID_4: TUCKED,
    Construction.PLAITED_8: TUCKED,
    Construction.HOLLOW_BRAID_8: _HOLLOW,
    Construction.HOLLOW_BRAID_12: _HOLLOW,
    Construction.DOUBLE_BRAID: (SpliceKind.DOUBLE_BRAID_EYE,),
}
_PART = ("splice", "thimble", "lock_stitched", "chafe_gear", "required_bury", "required_core_bury", "required_by",
         "marks_at", "tails_buried", "layout")  # fmt: skip
_JOINT = ("splice", "from_a", "lock_stitched", "required_bury", "required_by", "marks_at", "tails_buried")
_FITTING = ("kind", "throat_opening", "thickness")
_ITEM = (
    "tag", "description", "place", "kind", "duty", "fibre", "construction", "diameter", "circumference", "width",
    "thickness", "length", "strands", "cover_load", "continuous", "legs", "working_load_limit", "rated_choker",
    "rated_basket", "breaking_force", "breaking_spliced", "ship_design_force", "service", "made", "first_used",
    "maker_criteria", "maker_pack",
)  # fmt: skip
NAMES: tuple[str, ...] = (
    *_ITEM,
    *(f"end_{end}_{name}" for end in ENDS for name in _PART),
    *(f"joint_{n}_{name}" for n in range(1, MOST_JOINTS + 1) for name in _JOINT),
    *(f"fitting_{n}_{name}" for n in range(1, MOST_FITTINGS + 1) for name in _FITTING),
)
"""Every name under which something may be said, in the order of a list's columns."""
NEEDED = ("tag", "kind", "duty", "fibre")
_CHOICES: dict[str, type[StrEnum]] = {
    "kind": ItemKind, "duty": Duty, "fibre": Fibre, "construction": Construction, "cover_load": CoverLoad,
    "service": Service, "splice": SpliceKind, "thimble": Thimble, "layout": Layout,
}  # fmt: skip
_SORTS: dict[str, Sort] = {
    **dict.fromkeys(("diameter", "circumference", "width", "thickness", "length", "required_bury",
                     "required_core_bury", "marks_at", "from_a", "throat_opening"), "length"),
    **dict.fromkeys(("working_load_limit", "rated_choker", "rated_basket", "breaking_force", "ship_design_force"),
                    "force"),
    **dict.fromkeys(("continuous", "breaking_spliced", "lock_stitched", "chafe_gear", "tails_buried"), "yes or no"),
    **dict.fromkeys(("made", "first_used"), "date"),
    **dict.fromkeys(("strands", "legs"), "count"),
    **dict.fromkeys(_CHOICES, "choice"),
}  # fmt: skip
_YES, _NO = ("yes", "y", "true", "1"), ("no", "n", "false", "0")


@dataclass(frozen=True, slots=True)
class Fault:
    """What keeps an item from being entered: the name it stands under, what is wrong, and what to do."""

    name: str
    sentence: str


def field_of(name: str) -> str:
    """Return the record's own field that a name stands for: `required_bury` of `end_a_required_bury`."""
    for prefix in _prefixes():
        if name.startswith(prefix):
            return name.removeprefix(prefix)
    return name


def sort_of(name: str) -> Sort:
    """Return what kind of thing is said under a name."""
    return _SORTS.get(field_of(name), "text")


def choices_of(name: str, said: Said | None = None) -> tuple[str, ...]:
    """Return the words to choose from under a name; with `said`, those only that go with the rest; empty for a text."""
    field = field_of(name)
    if name.startswith("fitting_") and field == "kind":
        return tuple(FittingKind)
    if field not in _CHOICES:
        return ()
    every = tuple(_CHOICES[field])
    if name.startswith(("end_", "joint_")) and field == "splice":
        splices = tuple(one for one in SpliceKind if (one in JOINTS) == name.startswith("joint_"))
        # Where no rule speaks for any of them they may be said all the same: it is held then, and not passed.
        return splices if said is None else tuple(one for one in splices if spoken_for(one, said)) or splices
    if name == "construction" and said is not None:
        web = said.get("kind") == ItemKind.LANYARD
        return tuple(one for one in Construction if one is not Construction.WEBBING or web)
    return every


def spoken_for(splice: str, said: Said) -> bool:
    """Whether the rules speak for such a splice in what is described."""
    if of_web(said):
        return splice == SpliceKind.SEWN_EYE
    return splice in UNSPLICED or splice in _SPLICES.get(said.get("construction", ""), ())  # type: ignore[call-overload]


def of_web(said: Said) -> bool:
    """Whether what is described is of web, or a roundsling: nothing is asked of a rope then."""
    return said.get("kind") in WEB_KINDS or said.get("construction") == Construction.WEBBING


def applying(said: Said) -> tuple[str, ...]:
    """Return the names under which something can be said of such an item, in the order in which it is asked."""
    return tuple(_applying(said))


def _applying(said: Said) -> Iterator[str]:
    kind, construction, duty = said.get("kind", ""), said.get("construction", ""), said.get("duty", "")
    yield from ("kind", "duty", "fibre")
    if kind not in (*WEB_KINDS, ItemKind.CONNECTOR):
        yield "construction"
    if kind == ItemKind.CONNECTOR:
        pass
    elif of_web(said):
        yield from ("width", "thickness", "length")
    else:
        if construction in COVERED:
            yield "cover_load"
        yield from ("diameter", "circumference", "length", "strands")
    yield from ("legs", "working_load_limit", "rated_choker", "rated_basket", "breaking_force", "breaking_spliced")
    if duty == Duty.MOORING:
        yield from ("ship_design_force", "continuous")
    if kind not in ENDLESS:
        for end in ENDS:
            yield from _of_splice(f"end_{end}_", said, _PART)
    if kind not in (*WEB_KINDS, ItemKind.CONNECTOR) and construction != Construction.WEBBING:
        for number in range(1, MOST_JOINTS + 1):
            yield from _of_splice(f"joint_{number}_", said, _JOINT)
    for number in range(1, MOST_FITTINGS + 1):
        yield f"fitting_{number}_kind"
        if said.get(f"fitting_{number}_kind"):
            yield from (f"fitting_{number}_throat_opening", f"fitting_{number}_thickness")
    yield from ("made", "first_used", "maker_criteria", "maker_pack", "tag", "description", "place", "service")


def _of_splice(prefix: str, said: Said, names: tuple[str, ...]) -> Iterator[str]:
    splice = said.get(f"{prefix}splice", "")
    yield f"{prefix}splice"
    if not splice:
        return
    buried = splice in BURIED
    double = splice == SpliceKind.DOUBLE_BRAID_EYE
    twelve = said.get("construction") == Construction.HOLLOW_BRAID_12
    asked = {
        "from_a": True,
        "thimble": splice != SpliceKind.PLAIN_END and not of_web(said),
        "lock_stitched": buried,
        "chafe_gear": splice != SpliceKind.PLAIN_END,
        "required_bury": buried,
        "required_core_bury": double,
        "required_by": bool(said.get(f"{prefix}required_bury") or said.get(f"{prefix}required_core_bury")),
        "marks_at": splice in MARKED,
        "tails_buried": splice in TUCKED,
        "layout": splice == SpliceKind.TUCK_AND_BURY_EYE and twelve,
    }
    yield from (f"{prefix}{name}" for name in names if asked.get(name))


def item_of(said: Said, item_id: str) -> Item | tuple[Fault, ...]:
    """Return the item that was described, or everything that keeps it from being one.

    Args:
        said: by name; an empty text says nothing.
        item_id: its id in the register.
    """
    given = {name: text.strip() for name, text in said.items() if text.strip()}
    faults = [Fault(name, "is empty; say it, every item has one") for name in NEEDED if name not in given]
    words = {}
    for name, text in given.items():
        found = _read(name, text)
        if isinstance(found, Fault):
            faults.append(found)
        else:
            words[name] = found
    if not faults:
        plain = {name: _written(value) for name, value in words.items()}
        faults += _not_applying(given, plain)
        faults += _missing_ends(plain)
    if faults:
        return tuple(faults)
    parts: list[Part] = []
    for prefix, fields in _parts_said(words):
        try:
            parts.append(Part.model_validate(fields))
        except ValidationError as error:
            faults += _faults(error, prefix)
    if faults:
        return tuple(faults)
    try:
        return Item.model_validate({**_item_fields(words), "id": item_id, "parts": parts})
    except ValidationError as error:
        return tuple(_faults(error, ""))


def said_of(item: Item) -> dict[str, str]:
    """Return what would have to be said to enter such an item, its tag, dates and all."""
    said = {name: _written(getattr(item, name)) for name in _ITEM if not name.startswith("rated_")}
    said |= {f"rated_{one.hitch}": str(one.force) for one in item.rated if f"rated_{one.hitch}" in NAMES}
    straight = next((one for one in item.rated if one.hitch is Hitch.STRAIGHT), None)
    if item.working_load_limit is None and straight is not None:
        said["working_load_limit"] = str(straight.force)
    joints = fittings = 0
    fields: tuple[str, ...]
    for part in item.parts:
        fields, prefix = _PART, f"end_{(part.end or '').lower()}_"
        if part.kind is PartKind.BODY:
            continue
        if part.kind is PartKind.JOINT:
            joints += 1
            fields, prefix = _JOINT, f"joint_{joints}_"
        elif part.kind is PartKind.FITTING:
            fittings += 1
            fields, prefix = _FITTING, f"fitting_{fittings}_"
        for name in fields:
            own = "fitting" if part.kind is PartKind.FITTING and name == "kind" else name
            said[prefix + name] = _written(getattr(part, own))
    if item.kind in WEB_KINDS:
        said["construction"] = ""  # it goes without saying
    return {name: text for name, text in said.items() if text and name in NAMES and not _plainly(name, text)}


def _plainly(name: str, text: str) -> bool:
    """Whether this is what stands in every record where nothing was said."""
    plain = {"legs": "1", "service": "normal", "thimble": "none"}
    no = sort_of(name) == "yes or no" and name != "breaking_spliced"
    return text == ("no" if no else plain.get(field_of(name)))


def _written(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else str(value)


def _read(name: str, text: str) -> object | Fault:
    """Read one text; what the models check is left to them."""
    sort = sort_of(name)
    if name not in NAMES:
        return Fault(name, "is not known here; take it out, or check the spelling")
    if sort == "choice":
        words = choices_of(name)
        found = next((one for one in words if one.casefold() == text.casefold()), None)
        return found or Fault(name, f"'{text[:40]}' is not one of the words here; write one of: {'; '.join(words)}")
    if sort == "yes or no":
        if text.casefold() not in (*_YES, *_NO):
            return Fault(name, f"'{text[:40]}' is neither yes nor no; write yes or no")
        return text.casefold() in _YES
    if sort == "date":
        try:
            return date.fromisoformat(text)
        except ValueError:
            return Fault(name, f"'{text[:40]}' is no date that reads one way only; write it as 2050-01-10")
    if sort == "count":
        most = 4 if name == "legs" else 200
        if not (text.isascii() and text.isdigit() and len(text) < 4 and 1 <= int(text) <= most):
            return Fault(name, f"'{text[:40]}' is no whole number from 1 to {most}; write it in figures")
        return int(text)
    if sort in ("length", "force"):
        try:
            return parse(text, sort)
        except QuantityError as error:
            return Fault(name, str(error))
    return text


def _not_applying(given: Said, plain: Said) -> Iterator[Fault]:
    """What was said of something that such an item does not have: it would be lost in silence."""
    applies = set(applying(plain))
    for name, text in given.items():
        web_sling = (name, plain[name]) == ("construction", Construction.WEBBING)  # it goes without saying
        of_part = _splice_of(name) in applies and plain.get(_splice_of(name))
        if name not in applies and not _plainly(name, plain[name]) and not web_sling and not of_part:
            yield Fault(
                name,
                f"'{text[:40]}' does not apply to what is described here; leave it empty, or check kind, construction "
                "and splice",
            )


def _splice_of(name: str) -> str:
    """The name under which the splice of the same part stands; empty for what is no splice's."""
    return name.removesuffix(field_of(name)) + "splice" if name.startswith(("end_", "joint_")) else ""


def _missing_ends(plain: Said) -> Iterator[Fault]:
    kind = plain.get("kind", "")
    if kind == ItemKind.CONNECTOR and not plain.get("fitting_1_kind"):
        yield Fault("fitting_1_kind", "is empty; say what the connector is, or nothing would be asked of it")
    if kind not in (*WEB_KINDS, ItemKind.CONNECTOR) and not plain.get("construction"):
        yield Fault("construction", "is empty; say how the rope is made, the rules go by it")
    if kind not in ENDLESS:
        for end in ENDS:
            if not plain.get(f"end_{end}_splice"):
                yield Fault(f"end_{end}_splice", "is empty; say how that end is made, 'plain end' where it has no eye")


def _parts_said(words: Mapping[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for end in ENDS:
        own = _under(words, f"end_{end}_")
        if own:
            name = end.upper()
            yield f"end_{end}_", {"id": name, "kind": PartKind.TERMINATION, "end": name, **own}
    for number in range(1, MOST_JOINTS + 1):
        own = _under(words, f"joint_{number}_")
        if own:
            yield f"joint_{number}_", {"id": f"J{number}", "kind": PartKind.JOINT, **own}
    if words.get("kind") != ItemKind.CONNECTOR:
        yield "", {"id": "body", "kind": PartKind.BODY}
    for number in range(1, MOST_FITTINGS + 1):
        own = _under(words, f"fitting_{number}_")
        if own:
            own["fitting"] = own.pop("kind", None)
            yield f"fitting_{number}_", {"id": f"F{number}", "kind": PartKind.FITTING, **own}


def _item_fields(words: Mapping[str, Any]) -> dict[str, Any]:
    fields = {name: words[name] for name in _ITEM if name in words and not name.startswith("rated_")}
    rated = [Rated(hitch=hitch, force=words[f"rated_{hitch}"]) for hitch in Hitch if f"rated_{hitch}" in words]
    if of_web(words) and words.get("kind") == ItemKind.WEB_SLING:
        fields["construction"] = Construction.WEBBING
    return {**fields, "rated": tuple(rated)}


def _under(words: Mapping[str, Any], prefix: str) -> dict[str, Any]:
    return {name.removeprefix(prefix): value for name, value in words.items() if name.startswith(prefix)}


def _prefixes() -> Iterator[str]:
    yield from (f"end_{end}_" for end in ENDS)
    yield from (f"joint_{n}_" for n in range(1, MOST_JOINTS + 1))
    yield from (f"fitting_{n}_" for n in range(1, MOST_FITTINGS + 1))


_LENGTHS = {"string_too_long": "is too long; shorten it", "string_too_short": "is empty; say it"}


def _faults(error: ValidationError, prefix: str) -> Iterator[Fault]:
    """Say what the models refuse as plain sentences."""
    for one in error.errors(include_url=False):
        quoted = [word for word in one["msg"].split("'")[1::2] if prefix + word in NAMES]
        first = str(one["loc"][0]) if one["loc"] else quoted[0] if quoted else "splice" if prefix else "kind"
        name = prefix + ("kind" if first == "fitting" else first)
        if one["type"] == "string_pattern_mismatch":
            yield Fault(name, "has a sign in it that cannot be kept; type it again in plain letters")
        elif one["type"] in _LENGTHS:
            yield Fault(name, _LENGTHS[one["type"]])
        else:
            yield Fault(name, one["msg"])
