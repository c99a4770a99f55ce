"""A sound item of every kind that the rules know, with a sound and complete record: for laws over all of them.

What is asked comes from the walk; what a sound rope reads stands in `SOUND`, written from the trade and not from the
packs. A reading that has no sound value here fails loudly, so that a new one gets its value with its rule.
"""

from copy import deepcopy
from datetime import UTC, datetime, timedelta
from typing import Any

from inspection_rules.book import RuleBook, shipped
from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement
from inspection_rules.typical import typical_items
from inspection_rules.walk import walk
from inspection_rules.words import Answer, InspectionKind, PartKind, SpliceKind

Json = dict[str, Any]
MADE = datetime(2050, 3, 1, 8, 0, tzinfo=UTC)
TODAY = 75
RANK = {Answer.SERVICEABLE: 0, Answer.WATCH: 1, Answer.HOLD: 2, Answer.REMOVE: 3}
EXAMINER = {"name": "yard examiner", "competence": "qualified person"}
BURIED = {SpliceKind.BURIED_EYE, SpliceKind.TUCK_AND_BURY_EYE, SpliceKind.LOCKED_EYE, SpliceKind.DOUBLE_BRAID_EYE}
REGIMES = tuple(sorted({pack.regime for pack in shipped().packs if pack.regime}))

# What a sound 24 mm rope, or a sound 50 mm web 5 mm thick, reads.
SOUND: dict[str, list[str]] = {
    "mark_offset": ["0 mm"] * 4,
    "mark_tail": ["48 mm"] * 4,
    "mark_standing": ["48 mm"] * 4,
    "tip_step": ["1776 mm"] * 2,
    "bury": ["1776 mm"],
    "core_bury": ["1776 mm"],
    "other_bury": ["1776 mm"],
    "tucks": ["5"],
    "tucks_one_side": ["5"],
    "tucks_other_side": ["5"],
    "extra_tucks": ["3"],
    "tail": ["246 mm"],
    "free_tail": ["900 mm"],
    "clear_length": ["3000 mm"],
    "eye_length": ["600 mm"],
    "eye_perimeter": ["1300 mm"] * 2,
    "girth_worst": ["75 mm"] * 3,
    "girth_sound": ["75.4 mm"] * 3,
    "caliper_widest": ["24.2 mm"] * 3,
    "caliper_narrowest": ["23.8 mm"] * 3,
    "gauge_length": ["1000 mm"] * 2,
    "cut_strands": ["0"],
    "strand_yarns": ["40"],
    "cut_yarns": ["0"],
    "fibre_strand": ["0 %"],
    "fibre_rope": ["0 %"],
    "web_abrasion_a": ["0 %"],
    "web_abrasion_b": ["0 %"],
    "edge_cut": ["0 mm"],
    "warp_width": ["0 mm"],
    "warp_edge": ["25 mm"],
    "warp_depth": ["0 %"],
    "weft_width": ["0 mm"],
    "weft_length": ["0 mm"],
    "hook_throat": ["40 mm"] * 2,
    "fitting_thickness": ["16 mm"] * 2,
    "break_test": ["400 kN"],
    "laid_out": ["1600 mm"],
    "strands_ended": ["6"],
    "passes": ["2"],
    "pairs_beside": ["3"],
    "picks_between": ["4"],
}


def sound_items() -> list[Item]:
    """Every typical item, with the facts on its record that a careful owner keeps."""
    return [_kept(item) for item in typical_items()]


def _kept(item: Item) -> Item:
    raw = item.model_dump(mode="json")
    for part in raw["parts"]:
        if part["splice"] in BURIED or part["splice"] == SpliceKind.END_TO_END:
            part |= {"required_bury": "1728 mm", "required_core_bury": "1728 mm", "required_by": "splice instruction"}
            part |= {"marks_at": "48 mm"}
        if part["kind"] == PartKind.FITTING:
            part |= {"throat_opening": "40 mm", "thickness": "16 mm"}
    raw |= {
        "made": "2050-03-01", "first_used": "2050-03-10", "length": "6 m", "maker_criteria": "maker's sheet, 2049",
        "working_load_limit": "40 kN", "breaking_force": "400 kN", "breaking_spliced": True,
        "ship_design_force": "380 kN", "cover_load": raw["cover_load"],
    }  # fmt: skip
    return Item.model_validate(raw)


def record(item: Item, kind: InspectionKind, day: int, regimes: tuple[str, ...], book: RuleBook | None = None) -> Json:
    """A complete, sound record of this kind, so many days after the item was made."""
    one: Json = {
        "id": f"{kind} on day {day}", "item": item.id, "kind": kind.value, "by": dict(EXAMINER),
        "at": (MADE + timedelta(days=day)).isoformat(), "readings": [], "findings": [],
    }  # fmt: skip
    for step in walk(item, kind, regimes, book or shipped()):
        head = {"observation": step.observation.id, "part": step.part}
        if step.observation.kind == "question":
            one["findings"].append({**head, "seen": "absent"})
            continue
        how = {"method": step.observation.methods[0], "tension": "hand-taut", "moisture": "dry"}
        one["readings"].append({**head, "values": list(SOUND[step.observation.id]), **how})
    return one


def sound_case(
    item: Item, kind: InspectionKind, regimes: tuple[str, ...] = REGIMES, book: RuleBook | None = None
) -> Json:
    """This item with sound baselines in time and one more complete, sound look of this kind."""
    day = {InspectionKind.AS_MADE: 0, InspectionKind.BEDDED_IN: 14}.get(kind, TODAY)
    past = []
    if kind is not InspectionKind.AS_MADE:
        past.append(record(item, InspectionKind.AS_MADE, 0, regimes, book))
    if kind not in (InspectionKind.AS_MADE, InspectionKind.BEDDED_IN):
        past.append(record(item, InspectionKind.BEDDED_IN, 14, regimes, book))
    earlier = [record(item, InspectionKind.PERIODIC, TODAY - 25, regimes, book)] if day == TODAY else []
    return {
        "on": (MADE + timedelta(days=day)).date().isoformat(),
        "item": item.model_dump(mode="json"),
        "inspection": record(item, kind, day, regimes, book),
        "baselines": [one for one in past if one["findings"] or one["readings"]],
        "earlier": earlier,
        "regimes": list(regimes),
    }


def judged(case: Json, book: RuleBook | None = None) -> Judgement:
    """Judge a case as it would be judged from its file."""
    return judge(Case.model_validate(case), book or shipped())


def rank(case: Json, book: RuleBook | None = None) -> int:
    """0 serviceable, 1 watch, 2 hold, 3 remove."""
    return RANK[judged(case, book).answer]


def changed(case: Json) -> Json:
    """A case of its own, to be changed."""
    return deepcopy(case)
