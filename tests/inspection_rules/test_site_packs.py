"""A site's rules tighten and never loosen: what a file may not say, and what no file can bring about."""

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspection_rules.book import PackError, RuleBook, with_pack
from inspection_rules.words import Answer, InspectionKind

from .small_book import book, judged, look, pack_text, rule, ruling, surface, with_rules

GIRTH = 'limit = {{ measure = "effective_diameter_loss", {bound}, outcome = "{outcome}" }}'
TAIL = 'limit = {{ measure = "tail", {bound}, outcome = "{outcome}" }}'
TIME = 'interval = {{ since = ["periodic"], longest = {{ {longest} }} }}'
AGE = 'age = {{ since = "{since}", longest = "{longest}", outcome = "{outcome}" }}'
FACT = 'fact = {{ field = "maker_criteria", inspection = ["periodic"], outcome = "{outcome}" }}'
TOGETHER = 'combined = {{ within = "{within}", outcome = "{outcome}" }}'
MOVES = (
    'movement = {{ measure = "slip", watch_k = "{watch}", hold_k = "{hold}", steps_to_remove = {steps}, '
    'action = {{ formula = "slip_action", times = "{action}" }}, '
    'provisional = {{ formula = "diameters", times = "{settle}" }} }}'
)
SIX_D = 'at_least = { formula = "diameters", times = "6" }'


def girth(bound: str, outcome: str = "hold") -> str:
    return GIRTH.format(bound=bound, outcome=outcome)


def tail(bound: str, outcome: str = "hold") -> str:
    return TAIL.format(bound=bound, outcome=outcome)


def age(longest: str, outcome: str = "hold", since: str = "made") -> str:
    return AGE.format(longest=longest, outcome=outcome, since=since)


def moves(watch: str = "1.5", hold: str = "2", steps: int = 2, action: str = "0.5", settle: str = "1") -> str:
    return MOVES.format(watch=watch, hold=hold, steps=steps, action=action, settle=settle)


@pytest.fixture
def offer(tmp_path: Path) -> Callable[..., RuleBook]:
    """Read a site's rule from a file, beside one rule that stands."""

    def offered(standing: str, mine: str, *, of_regime: str = "", regime: str = "") -> RuleBook:
        known = book() if of_regime else book(rule("standing", standing))
        if of_regime:
            known = with_rules(known, pack_text(rule("standing", standing), name="law", more=f'regime = "{of_regime}"'))
        path = tmp_path / "harbour.toml"
        more = f'regime = "{regime}"' if regime else ""
        path.write_text(pack_text(rule("mine", mine, kind="site"), name="harbour", more=more), encoding="utf-8")
        return with_pack(known, path)

    return offered


LOOSER: dict[str, tuple[str, str, str]] = {
    "higher bound": (
        girth('at_most = "10 %"'),
        girth('at_most = "12 %"'),
        "limit.at_most: '12 %' is looser than '10 %'",
    ),
    "higher bound though removed": (
        girth('at_most = "10 %"'),
        girth('at_most = "12 %"', "remove"),
        "limit.at_most: '12 %'",
    ),
    "graded by its extent": (
        surface("torn", "hold"),
        surface("torn", "hold").replace(" }", ', graded_by = ["effective_diameter_loss"] }'),
        "condition.graded_by: its extent would decide, where the other asks for none",
    ),
    "lower bound": (
        tail('at_least = "80 mm"'),
        tail('at_least = "7 cm"'),
        "limit.at_least: '7 cm' is looser than '80 mm'",
    ),
    "passes at equality": (
        tail('more_than = "80 mm"'),
        tail('at_least = "80 mm"'),
        "limit.at_least: exactly at the limit",
    ),
    "milder outcome": (
        tail('at_least = "80 mm"'),
        tail('at_least = "80 mm"', "watch"),
        "limit.outcome: 'watch' is milder",
    ),
    "fewer diameters": (
        tail(SIX_D),
        tail(SIX_D.replace('"6"', '"5"')),
        "limit.at_least: diameters (times 5) is looser",
    ),
    "number beside diameters": (
        tail(SIX_D),
        tail('at_least = "200 mm"'),
        "cannot be compared with diameters (times 6)",
    ),
    "diameters beside more and less": (
        tail('at_least = { formula = "diameters", times = "6", least = "80 mm" }'),
        tail('at_least = { formula = "diameters", times = "7", least = "70 mm" }'),
        "cannot be compared",
    ),
    "condition held only": (
        surface("scuffed torn", "remove"),
        surface("torn", "hold"),
        "condition.outcome: 'hold' is milder",
    ),
    "longer interval": (
        TIME.format(longest='normal = "12 months"'),
        TIME.format(longest='normal = "2 years"'),
        "interval.longest.normal: 2 years is longer than 12 months",
    ),
    "longer interval in severe service": (
        TIME.format(longest='normal = "12 months", severe = "3 months"'),
        TIME.format(longest='normal = "12 months"'),
        "interval.longest.severe: 12 months is longer than 3 months",
    ),
    "interval that may be longer": (
        TIME.format(longest='normal = "1 months"'),
        TIME.format(longest='normal = "30 days"'),
        "30 days cannot be compared with 1 months",
    ),
    "older": (age("5 years"), age("6 years"), "age.longest: 6 years is longer than 5 years"),
    "as old but only held": (age("5 years", "remove"), age("60 months"), "age.outcome: 'hold' is milder than 'remove'"),
    "fact only watched": (FACT.format(outcome="hold"), FACT.format(outcome="watch"), "fact.outcome: 'watch' is milder"),
    "damages only close by": (
        TOGETHER.format(within="1 m", outcome="remove"),
        TOGETHER.format(within="50 cm", outcome="remove"),
        "combined.within: '50 cm' is looser than '1 m'",
    ),
    "more movement watched": (moves(), moves(watch="1.6"), "movement.watch_k: 1.6 is looser"),
    "more steps": (moves(), moves(steps=3), "movement.steps_to_remove: 3 is looser"),
    "larger action value": (moves(), moves(action="0.6"), "movement.action: slip_action (times 0.6) is looser"),
    "settles further": (moves(), moves(settle="2"), "movement.provisional: diameters (times 2) is looser"),
}


@pytest.mark.parametrize(("standing", "mine", "why"), LOOSER.values(), ids=LOOSER)
def test_what_loosens_is_refused_naming_file_rule_field_and_the_rule_it_loosens(
    offer: Callable[..., RuleBook], standing: str, mine: str, why: str
) -> None:
    with pytest.raises(PackError) as refused:
        offer(standing, mine)
    said = str(refused.value)
    assert said.startswith("harbour.toml: rule mine: ")
    assert why in said
    assert said.endswith("it would loosen standing of pack common-practice")


TIGHTER: dict[str, tuple[str, str]] = {
    "lower bound": (girth('at_most = "10 %"'), girth('at_most = "8 %"')),
    "the same": (girth('at_most = "10 %"'), girth('at_most = "10 %"')),
    "removed instead of held": (girth('at_most = "10 %"'), girth('at_most = "10 %"', "remove")),
    "fails at equality": (tail('at_least = "80 mm"'), tail('more_than = "80 mm"')),
    "an earlier step": (girth('at_most = "10 %"', "remove"), girth('at_most = "5 %"', "watch")),
    "the other side": (girth('at_most = "10 %"'), girth('at_least = "1 %"', "watch")),
    "another measure": (girth('at_most = "10 %"'), tail('at_least = "10 mm"', "watch")),
    "more diameters": (tail(SIX_D), tail(SIX_D.replace('"6"', '"6.5"'))),
    "another condition": (surface("torn", "remove"), surface("scuffed", "watch")),
    "graver condition": (surface("torn scuffed", "hold"), surface("scuffed", "remove")),
    "shorter interval": (TIME.format(longest='normal = "12 months"'), TIME.format(longest='normal = "180 days"')),
    "interval of other kinds": (
        TIME.format(longest='normal = "12 months"'),
        'interval = { since = ["before use"], longest = { normal = "2 years" } }',
    ),
    "younger": (age("5 years", "remove"), age("4 years")),
    "since another day": (age("5 years"), age("8 years", "remove", since="first_used")),
    "more is needed": (
        surface("torn", "hold"),
        'needs = { inspection = ["before use"], observations = ["girth_worst"] }',
    ),
    "movement seen sooner": (moves(), moves(watch="1.4", action="0.4", settle="0.9")),
}


@pytest.mark.parametrize(("standing", "mine"), TIGHTER.values(), ids=TIGHTER)
def test_what_tightens_is_taken(offer: Callable[..., RuleBook], standing: str, mine: str) -> None:
    assert [pack.id for pack in offer(standing, mine).packs] == ["common-practice", "harbour"]


def narrowed(body: str, applies: str) -> str:
    return f"applies = {{ {applies} }}\n{body}"


def test_a_rule_for_other_items_loosens_nothing(offer: Callable[..., RuleBook]) -> None:
    lines, slings = 'item = ["line"]', 'item = ["rope sling"]'
    offer(narrowed(surface("torn", "remove"), lines), narrowed(surface("torn", "watch"), slings))


def test_a_rule_for_more_items_loosens_where_they_meet(offer: Callable[..., RuleBook]) -> None:
    with pytest.raises(PackError, match="it would loosen standing"):
        offer(narrowed(surface("torn", "remove"), 'item = ["line"]'), surface("torn", "hold"))


def test_a_rule_of_the_regime_that_the_pack_names_is_not_loosened(offer: Callable[..., RuleBook]) -> None:
    with pytest.raises(PackError, match="it would loosen standing of pack law"):
        offer(surface("torn", "remove"), surface("torn", "hold"), of_regime="lifting", regime="lifting")


def test_a_regime_that_the_pack_does_not_name_is_no_concern_of_it(offer: Callable[..., RuleBook]) -> None:
    offer(surface("torn", "remove"), surface("torn", "hold"), of_regime="lifting")


def test_a_pack_that_always_counts_says_that_it_is_the_sites(tmp_path: Path) -> None:
    path = tmp_path / "harbour.toml"
    path.write_text(pack_text(rule("mine", surface("torn", "hold")), name="harbour"), encoding="utf-8")
    with pytest.raises(PackError, match=r"harbour\.toml: rule mine: source\.kind: a pack that always counts"):
        with_pack(book(), path)


# --- however it got there --------------------------------------------------------------------------------

STANDING = (surface("torn", "hold"), age("5 years", "remove"), surface("scuffed", "watch"))
MINE = (
    surface("torn", "watch"),
    surface("stiff", "watch"),
    surface("scuffed", "remove"),
    girth('at_most = "50 %"', "watch"),
    age("60 years"),
    TIME.format(longest='normal = "90 years"'),
    TIME.format(longest='normal = "1 days"'),
    'needs = { inspection = ["before use"], observations = ["event"] }',
    'needs = { inspection = ["bedded in"], observations = ["surface"] }',
    FACT.format(outcome="watch"),
)
SEEN = st.lists(st.sampled_from(["scuffed", "torn", "stiff"]), unique=True)


@given(
    st.lists(st.sampled_from(STANDING), unique=True),
    st.lists(st.sampled_from(MINE), min_size=1, unique=True),
    SEEN,
    st.sampled_from(["before use", "periodic", "bedded in", "after an incident"]),
    st.sampled_from(["2046-03-01", "2050-03-01"]),
)
def test_a_site_pack_that_nobody_checked_still_never_yields_a_better_answer(
    standing: list[str], mine: list[str], seen: list[str], kind: str, day: str
) -> None:
    known = book(*(rule(f"standing-{number}", body) for number, body in enumerate(standing)))
    rules = (rule(f"mine-{number}", body, kind="site") for number, body in enumerate(mine))
    both = with_rules(known, pack_text(*rules, name="harbour"))
    now = look(day, *seen, kind=kind)
    assert judged(both, now).answer.severity >= judged(known, now).answer.severity


def test_a_condition_that_only_the_site_judges_is_still_held() -> None:
    known = with_rules(book(), pack_text(rule("mine", surface("stiff", "watch"), kind="site"), name="harbour"))
    assert ruling(judged(known, look("2050-03-01", "stiff")), "no-rule").answer is Answer.HOLD


def test_a_kind_of_record_that_only_the_site_asks_for_still_shows_nothing() -> None:
    asks = 'needs = { inspection = ["bedded in"], observations = ["surface"] }'
    known = with_rules(book(), pack_text(rule("mine", asks, kind="site"), name="harbour"))
    now = look("2050-03-01", kind=InspectionKind.BEDDED_IN)
    assert ruling(judged(known, now), "nothing-asked").answer is Answer.HOLD
