"""Invented cases for the laws: items of every covered make, sound or damaged, as the JSON a person would write.

A case is a plain dict, so that a law can change one thing and judge it again. `NEEDED` says what each kind of
inspection must contain; it was written from the trade's list of what eye and hand must answer, not from the packs.
"""

from copy import deepcopy
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from inspection_rules.book import RuleBook, read_pack, shipped
from inspection_rules.case import Case
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement
from inspection_rules.words import Answer

Json = dict[str, Any]

# From best to worst, as the product lists its four answers.
RANK = {Answer.SERVICEABLE: 0, Answer.WATCH: 1, Answer.HOLD: 2, Answer.REMOVE: 3}

LOOKS = ("before use", "periodic", "after an incident", "as found")
EXAMINATIONS = ("periodic", "after an incident")
ALL_KINDS = ("as made", "bedded in", "as found", "before use", "periodic", "after an incident")
BURIED, TUCKED = "buried eye", "tucked eye"
LAID = ("laid, three-strand", "laid, four-strand")
PLAITED = ("plaited, eight-strand",)
HOLLOW = ("hollow braid, eight-strand", "hollow braid, twelve-strand")
MADE_IN = {BURIED: HOLLOW, TUCKED: (*LAID, *PLAITED)}
US_SLINGS = ("rope sling", "grommet")  # which the US law has a competent person look at before use
MADE = datetime(2050, 3, 1, 8, 0, tzinfo=UTC)

# Sizes as they are written, with what they are in mm by definition (25.4 mm to the inch).
SIZES = {
    "8 mm": Fraction(8), "12 mm": Fraction(12), "16 mm": Fraction(16), "24 mm": Fraction(24),
    "25.4 mm": Fraction("25.4"), "48 mm": Fraction(48),
    "1/2 in": Fraction("12.7"), "7/8 in": Fraction("22.225"), "1 in": Fraction("25.4"),
    "1 1/8 in": Fraction("28.575"), '2"': Fraction("50.8"),
}  # fmt: skip


def needed(item: Json, kind: str) -> list[tuple[str, str]]:
    """Every (part, observation) an inspection of this kind must contain."""
    keys = [("", "tag"), ("", "shock")] if kind in LOOKS else []
    keys += [("", "tag_content")] if kind in ("periodic", "as found") else []
    ends = [part for part in item["parts"] if part["kind"] == "termination"]
    keys += [("", "other_end")] if kind in LOOKS and item["kind"] == "line" and len(ends) == 1 else []
    for part in item["parts"]:
        keys += [(part["id"], name) for name in _needed_of(part, kind)]
    if item["kind"] == "rope sling" and any(part.get("splice") == TUCKED for part in item["parts"]):
        keys += [("body", "clear_rope")] if kind in EXAMINATIONS else []
        keys += [("body", "clear_length")] if kind in ("as made", "as found") else []
    return keys


def _needed_of(part: Json, kind: str) -> list[str]:
    if part["kind"] == "body":
        names = ["body_surface"] if kind in LOOKS else []
        names += ["body_fibre"] if kind in (*EXAMINATIONS, "as found") else []
        return names + (["body_inside", "girth_worst", "girth_sound"] if kind in (*EXAMINATIONS, "as found") else [])
    names = []
    if kind in LOOKS:
        thimble = part["thimble"] != "none"
        names = ["eye_bearing"] if kind != "before use" or not thimble else []
        names += ["thimble"] if thimble else []
        if part["splice"] == BURIED:
            names += ["throat_marks", "bury_feel"] + (["lock_stitching"] if part["lock_stitched"] else [])
        else:
            names += ["throat_lay", "strand_tails"]
    if part["splice"] == BURIED:
        names += ["throat_entry"] if kind in EXAMINATIONS else []
        names += ["mark_offset"] if kind != "before use" else []
        names += ["bury"] if kind == "as made" else []
    elif kind not in ("before use", "bedded in"):
        names += ["tucks", "tail"]
    return names


DUTIES = ("lifting", "life support", "tree rigging", "mooring", "towing")
READINGS = (
    "mark_offset",
    "mark_tail",
    "mark_standing",
    "bury",
    "tucks",
    "tail",
    "girth_worst",
    "girth_sound",
    "clear_length",
)
METHODS = {
    "bury": "tape on the laid-out tail",
    "tucks": "counted",
    "girth_worst": "girth tape",
    "girth_sound": "girth tape",
    "mark_tail": "tape",
    "mark_standing": "tape",
}

# Every condition that can be seen on any of these items, by its question; worst last.
CONDITIONS = {
    "tag": ("unreadable", "other_item"),
    "eye_bearing": ("chafed", "cut"),
    "thimble": ("loose", "damaged"),
    "throat_marks": ("no_marks", "not_level"),
    "throat_entry": ("stretched", "strands_broken"),
    "throat_lay": ("opened", "hockled"),
    "lock_stitching": ("leaning", "broken"),
    "bury_feel": ("bunched", "hollow", "tail_showing"),
    "strand_tails": ("cutting", "shorter", "drawn"),
    "clear_rope": ("hard_to_say", "less"),
    "body_surface": ("fuzzy", "hard", "distorted", "abraded", "cut"),
    "body_fibre": ("faded", "powdery", "discoloured", "melted", "brittle", "melted_more"),
    "body_inside": ("grit", "soaked", "powder", "broken"),
    "tag_content": ("incomplete",),
    "shock": ("heat", "chemical", "shock"),
    "other_end": ("frayed", "eye", "worn", "cut"),
}


def diameter_of(item: Json) -> Fraction:
    """The nominal diameter in mm."""
    return SIZES[item["diameter"]]


def mm(value: Fraction | int) -> str:
    """Write a length in mm, as a decimal of at most three places."""
    thousandths = round(Fraction(value) * 1000)
    sign, whole = ("-" if thousandths < 0 else ""), abs(thousandths)
    return f"{sign}{whole // 1000}.{whole % 1000:03d} mm"


def sound_value(item: Json, name: str) -> list[str]:
    """What a sound, new splice or rope of this size reads."""
    d = diameter_of(item)
    values = {
        "mark_offset": [mm(0)] * 2,
        "bury": [mm(74 * d)],
        "tucks": ["5"],
        "tail": [mm(9 * d + 30)],
        "clear_length": [mm(60 * d)],
        "girth_worst": [mm(d * Fraction("3.12"))] * 3,
        "girth_sound": [mm(d * Fraction("3.14"))] * 3,
    }
    return values[name]


def inspection(item: Json, kind: str, day: int, *, name: str = "") -> Json:
    """A complete, sound inspection of this kind, so many days after the item was made."""
    by = {"name": "mate", "competence": "user"}
    if item["kind"] in US_SLINGS:
        by = {"name": "yard hand", "competence": "competent person"}
    if kind != "before use":
        by = {"name": "yard examiner", "competence": "competent person"}
    made: Json = {
        "id": name or f"{kind} on day {day}",
        "item": item["id"],
        "kind": kind,
        "at": (MADE + timedelta(days=day)).isoformat(),
        "by": by,
        "readings": [],
        "findings": [],
    }
    for part, observation in needed(item, kind):
        if observation in READINGS:
            values = sound_value(item, observation)
            method = METHODS.get(observation, "steel rule")
            how = {"method": method, "tension": "hand-taut", "moisture": "dry"}
            made["readings"].append({"observation": observation, "part": part, "values": values, **how})
        else:
            made["findings"].append({"observation": observation, "part": part, "seen": "absent"})
    return made


def reading(one: Json, part: str, observation: str) -> Json | None:
    """The reading of this observation in an inspection."""
    return next((r for r in one["readings"] if (r["part"], r["observation"]) == (part, observation)), None)


def finding(one: Json, part: str, observation: str) -> Json:
    """The finding of this observation in an inspection."""
    return next(f for f in one["findings"] if (f["part"], f["observation"]) == (part, observation))


def set_values(one: Json, part: str, observation: str, values: list[str]) -> None:
    """Give a reading other values."""
    found = reading(one, part, observation)
    assert found is not None
    found["values"] = values


def judged(case: Json, book: RuleBook | None = None) -> Judgement:
    """Judge a case as it would be judged from its file."""
    return judge(Case.model_validate(case), book or shipped())


def rank(case: Json, book: RuleBook | None = None) -> int:
    """0 serviceable, 1 watch, 2 hold, 3 remove."""
    return RANK[judged(case, book).answer]


@st.composite
def items(draw: st.DrawFn, splices: tuple[str, ...] = (BURIED, TUCKED)) -> Json:
    """One covered item: a body with one or two eyes."""
    kind = draw(st.sampled_from(["rope sling", "line", "grommet", "lanyard"]))
    parts: list[Json] = [{"id": "body", "kind": "body"}]
    size = draw(st.sampled_from(sorted(SIZES)))
    splice = draw(st.sampled_from(splices))
    # A sling or lanyard has two ends; a line may have an eye at one.
    for end in draw(st.sampled_from(["A", "B", "AB"] if kind in ("line", "grommet") else ["AB"])):
        part: Json = {
            "id": end,
            "kind": "termination",
            "end": end,
            "splice": splice,
            "thimble": draw(st.sampled_from(["none", "removable", "captive"])),
            "lock_stitched": splice == BURIED and draw(st.booleans()),
        }
        if splice == BURIED:
            part |= {"required_bury": mm(72 * SIZES[size]), "required_by": "splice instruction", "marks_at": "48 mm"}
        parts.insert(draw(st.integers(0, len(parts))), part)
    fibres = ["HMPE", "aramid", "LCP", "polyester", "nylon", "polypropylene", "manila", "sisal", "hemp"]
    return {
        "id": "item",
        "tag": "SP-01",
        "kind": kind,
        "duty": draw(st.sampled_from([duty for duty in DUTIES if (kind, duty) != ("lanyard", "life support")])),
        "fibre": draw(st.sampled_from(fibres)),
        "construction": draw(st.sampled_from(MADE_IN[splice])),
        "diameter": size,
        "service": draw(st.sampled_from(["normal", "severe", "special"])),
        "made": MADE.date().isoformat(),
        "first_used": MADE.date().isoformat(),
        "maker_criteria": "instructions, first edition",
        "parts": parts,
    }


@st.composite
def sound_cases(
    draw: st.DrawFn, kinds: tuple[str, ...] = ALL_KINDS, splices: tuple[str, ...] = (BURIED, TUCKED)
) -> Json:
    """An item with its baselines and earlier looks, everything sound and in time, and one more complete look."""
    item = draw(items(splices))
    buried = any(part.get("splice") == BURIED for part in item["parts"])
    kind = draw(st.sampled_from([kind for kind in kinds if buried or kind != "bedded in"] or ["periodic"]))
    day = {"as made": 0, "bedded in": 14}.get(kind, 80)
    baselines = [] if kind == "as made" else [inspection(item, "as made", 0)]
    if buried and kind not in ("as made", "bedded in"):
        baselines.append(inspection(item, "bedded in", 14))
    earlier = []
    if day == 80:
        for when in draw(st.lists(st.integers(20, 70), unique=True, max_size=3)):
            earlier.append(inspection(item, draw(st.sampled_from(["before use", "periodic"])), when))
    return {
        "on": (MADE + timedelta(days=day)).date().isoformat(),
        "item": item,
        "inspection": inspection(item, kind, day),
        "baselines": baselines,
        "earlier": earlier,
        "regimes": draw(st.sampled_from([[], ["US lifting"]])),
    }


@st.composite
def any_cases(draw: st.DrawFn, kinds: tuple[str, ...] = ALL_KINDS, splices: tuple[str, ...] = (BURIED, TUCKED)) -> Json:
    """A sound case in which anything may have gone wrong since: answers, readings, earlier readings, the date."""
    case = draw(sound_cases(kinds, splices))
    item, now = case["item"], case["inspection"]
    for found in now["findings"]:
        if draw(st.integers(0, 5)) == 0:
            found |= {"seen": "present", "conditions": [draw(st.sampled_from(CONDITIONS[found["observation"]]))]}
    for one in (now, *case["earlier"]):
        for read in one["readings"]:
            if draw(st.booleans()):
                read["values"] = draw(values_near(item, read["observation"]))
    if draw(st.integers(0, 9)) == 0:
        late = date.fromisoformat(case["on"]) + timedelta(days=draw(st.integers(1, 500)))
        case["on"] = late.isoformat()
    return case


@st.composite
def values_near(draw: st.DrawFn, item: Json, name: str) -> list[str]:
    """Values of one reading on both sides of every limit it meets."""
    d = diameter_of(item)
    count = draw(st.integers(1, 4))
    if name == "tucks":
        return [str(draw(st.integers(0, 6))) for _ in range(count)]
    factor = Fraction(draw(st.integers(0, 60)), 60)
    middle = {
        "mark_offset": 2 * d * factor,
        "bury": 70 * d + 8 * d * factor,
        "tail": 10 * d * factor,
        "clear_length": 20 * d * factor,
        "girth_worst": d * Fraction("3.14") * (Fraction("0.8") + Fraction("0.25") * factor),
        "girth_sound": d * Fraction("3.14"),
    }[name]
    spread = [Fraction(draw(st.integers(-10, 10)), 10) for _ in range(count)]
    return [mm(max(middle + step, Fraction(0))) for step in spread]


def copy(case: Json) -> Json:
    """A case of its own, to be changed."""
    return deepcopy(case)


def pendant_case() -> Json:
    """A sound towing pendant with one buried eye, at its periodic examination."""
    item: Json = {
        "id": "item", "tag": "SP-09", "kind": "line", "duty": "towing", "fibre": "HMPE",
        "construction": "hollow braid, twelve-strand", "diameter": "24 mm",
        "parts": [
            {"id": "A", "kind": "termination", "end": "A", "splice": BURIED, "thimble": "none", "lock_stitched": True,
             "required_bury": "1728 mm", "required_by": "splice instruction"},
            {"id": "body", "kind": "body"},
        ],
    }  # fmt: skip
    return examined(item)


def laid_case() -> Json:
    """A sound sling of laid polyester with two tucked eyes, at its periodic examination."""
    eyes: list[Json] = [
        {"id": end, "kind": "termination", "end": end, "splice": TUCKED, "thimble": "none", "lock_stitched": False}
        for end in "AB"
    ]
    item: Json = {
        "id": "item", "tag": "RS-11", "kind": "rope sling", "duty": "lifting", "fibre": "polyester",
        "construction": "laid, three-strand", "diameter": "16 mm", "parts": [*eyes, {"id": "body", "kind": "body"}],
    }  # fmt: skip
    return examined(item)


def examined(item: Json) -> Json:
    """This item, everything sound, at its periodic examination."""
    buried = item["parts"][0]["splice"] == BURIED
    return {
        "on": "2050-05-20",
        "item": item,
        "inspection": inspection(item, "periodic", 80),
        "baselines": [inspection(item, "as made", 0)] + ([inspection(item, "bedded in", 14)] if buried else []),
        "earlier": [],
        "regimes": [],
    }


def without(case: Json, part: str) -> Json:
    """The case without any entry on this part."""
    for one in (case["inspection"], *case["baselines"], *case["earlier"]):
        for group in ("readings", "findings"):
            one[group] = [entry for entry in one[group] if entry["part"] != part]
    return case


SITE_HEAD = '[pack]\nid = "harbour"\nversion = "1"\ntitle = "Harbour rules"\nregime = "harbour"\n'
SITE_RULE = """
[[rule]]
id = "harbour-{number}"
title = "Harbour rule"
fires = "It does not meet the harbour's rule."
action = "Ask the safety officer."
source = {{ document = "Harbour rules", kind = "site", verified = "none" }}
{body}
"""


def harbour(*bodies: str) -> RuleBook:
    """The shipped book with one more pack, of the regime `harbour`."""
    rules = [SITE_RULE.format(number=number, body=body) for number, body in enumerate(bodies)]
    pack = read_pack((SITE_HEAD + "".join(rules)).encode(), "harbour.toml", shipped().observations, shipped().criteria)
    return RuleBook(shipped().observations, (*shipped().packs, pack), shipped().criteria)
