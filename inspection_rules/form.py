"""The form an item is entered by: which names are asked one by one, which are offered as more, which must be said."""

from inspection_rules.entering import (
    ENDS,
    MOST_JOINTS,
    NEEDED,
    Said,
    applying,
    choices_of,
    field_of,
    sort_of,
)
from inspection_rules.words import Duty, FittingKind, ItemKind

CERTIFIED = (Duty.MOORING, Duty.LIFE_SUPPORT)  # the rules ask for a certificate and the maker's criteria there
SIZE = ("diameter", "circumference")
HUNG = (ItemKind.CONNECTOR, ItemKind.LANYARD, ItemKind.ROPE_SLING, ItemKind.WEB_SLING)  # often with fittings
BY_INSTRUCTION = ("required_bury", "required_core_bury", "required_by", "marks_at", "tails_buried", "layout")
_MORE = ("strands", "legs", "rated_choker", "rated_basket", "breaking_spliced", "ship_design_force", "continuous",
         "maker_pack")  # fmt: skip


def asked(said: Said) -> tuple[str, ...]:
    """Return the names that are asked one by one, in their order; of a rope's two sizes the one that was given."""
    return tuple(name for name in applying(said) if _is_asked(name, said))


def offered(said: Said) -> tuple[str, ...]:
    """Return the names that may be said besides; of joints and fittings the next one only."""
    main, found = asked(said), []
    numbered = set()
    for name in applying(said):
        if name in main:
            continue
        field = field_of(name)
        sort = name.split("_")[0] if field != name else ""
        if sort in ("joint", "fitting") and not said.get(name):
            if sort in numbered:
                continue
            numbered.add(sort)
        found.append(name)
    return tuple(found)


def _is_asked(name: str, said: Said) -> bool:
    duty, kind = said.get("duty", ""), said.get("kind", "")
    if name in SIZE:
        other = SIZE[1 - SIZE.index(name)]
        return bool(said.get(name)) or (name == SIZE[0] and not said.get(other))
    if name == "working_load_limit":
        return duty == Duty.LIFTING
    if name in ("breaking_force", "maker_criteria"):
        return duty in CERTIFIED
    if name.startswith("joint_"):
        first = name == "joint_1_splice" and kind == ItemKind.GROMMET
        return first or bool(said.get(name.removesuffix(field_of(name)) + "splice"))
    if name.startswith("fitting_"):
        return _fitting_is_asked(name, said)
    return name not in _MORE


def _fitting_is_asked(name: str, said: Said) -> bool:
    """One fitting after the other, until nothing else hangs on it."""
    number = int(name.split("_")[1])
    own = said.get(f"fitting_{number}_kind", "")
    if field_of(name) == "throat_opening":
        return own == FittingKind.HOOK
    if own or field_of(name) != "kind":
        return bool(own)
    return bool(said.get(f"fitting_{number - 1}_kind")) if number > 1 else said.get("kind") in HUNG


def must_be_said(name: str, said: Said) -> bool:
    """Whether the form does not go on without it."""
    field = field_of(name)
    if name in NEEDED or name in ("construction", "service", *SIZE) or field == "thimble":
        return True  # what is left out of these would be recorded as none, or as normal
    if name.startswith("end_") and field == "splice":
        return True
    return name == "fitting_1_kind" and said.get("kind") == ItemKind.CONNECTOR


def pruned(said: Said) -> dict[str, str]:
    """Return what still applies after something else was said instead: the rest is asked anew."""
    kept = dict(said)
    while True:
        applies = set(applying(kept))
        left = {
            name: text
            for name, text in kept.items()
            if name in applies and (sort_of(name) != "choice" or text in choices_of(name, kept))
        }
        if left == kept:
            return left
        kept = left


def respliced(said: Said, name: str) -> dict[str, str]:
    """Return what is said once a part has another splice: what its old instruction asked for is asked anew."""
    prefix = name.removesuffix("splice")
    return {one: text for one, text in said.items() if one not in {prefix + own for own in BY_INSTRUCTION}}


def same_as_a(said: Said) -> dict[str, str]:
    """Return what is said once end B is made the same as end A."""
    own = {name: text for name, text in said.items() if not name.startswith("end_b_")}
    return own | {f"end_b_{name[6:]}": text for name, text in said.items() if name.startswith("end_a_")}


def splices_said(said: Said) -> tuple[tuple[str, str], ...]:
    """Return the id of every part that has a splice, with the beginning of the names it was said under."""
    ends = [(end.upper(), f"end_{end}_") for end in ENDS]
    joints = [(f"J{n}", f"joint_{n}_") for n in range(1, MOST_JOINTS + 1)]
    return tuple((part, prefix) for part, prefix in (*ends, *joints) if said.get(f"{prefix}splice"))


def copied(said: Said) -> dict[str, str]:
    """Return what a new item like this one begins with: everything but its tag and dates."""
    return {name: text for name, text in said.items() if name not in ("tag", "made", "first_used")}
