"""Time the judging: `python tests/benchmarks/bench_judging.py [--inspections 100000]`.

The limit step of one full periodic inspection, against the same numeric limits in two general-purpose rule engines from
the registry (`pip install zen-engine rule-engine`, not needed by any test), in one run and taking turns. Each engine
gets numbers that are already computed, with the limits and their guard bands compiled beforehand; the answers are
compared before anything is timed. Then the whole of `judge()`, and how its rate grows with the number of inspections
and with the length of an item's history.
"""

import argparse
import json
import statistics
import sys
import time
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from inspection_rules.book import RuleBook, shipped
from inspection_rules.case import Case
from inspection_rules.formulas import Bound, bound
from inspection_rules.judge import judge
from inspection_rules.measures import MEASURES
from inspection_rules.quantity import Measured, Quantity
from inspection_rules.rule import Limit
from inspection_rules.rulings.limits import weigh
from inspection_rules.rulings.numbers import Z
from inspection_rules.words import Answer

EXAMPLES = Path(__file__).parents[2] / "assets" / "examples"
PERIODIC = ("made-to-specification-periodic-serviceable.json", "laid-sling-periodic-serviceable.json")
ROUNDS, TURNS = 7, 2000

Weighing = tuple[Limit, Measured, Bound]


def read(name: str) -> dict[str, Any]:
    """Return one of the example cases as it is written."""
    document: dict[str, Any] = json.loads((EXAMPLES / name).read_text(encoding="utf-8"))
    return document


def limits_of(case: Case, book: RuleBook) -> list[Weighing]:
    """Return every limit that this case has a number for, as `limit_ruling` meets it."""
    found = []
    for pack in book.chosen(case.regimes, case.item):
        for rule in pack.rules:
            if rule.limit is None or not rule.applies.to_item(case.item):
                continue
            measure = MEASURES[rule.limit.measure]
            for part in [p for p in case.item.parts if p.kind in measure.on and rule.applies.to_part(p)]:
                measured = measure.compute(case, part.id)
                at = bound(rule.limit.bound, case, part.id)
                if isinstance(measured, Measured) and isinstance(at, Bound):
                    same = Bound(Quantity("", at.value, at.unit).to(measured.unit), measured.unit)
                    found.append((rule.limit, measured, same))
    return found


def ours(weighings: list[Weighing]) -> list[str]:
    """Weigh every number against its limit."""
    return [str(weigh(limit, measured, at).answer) for limit, measured, at in weighings]


def terms(limit: Limit, at: Bound, name: str) -> tuple[str, str]:
    """Return the two comparisons of a limit as expressions: beyond it, and inside it but not surely."""
    edge = repr(float(at.value))
    if limit.lower:
        return f"{name} {'<' if limit.equality_passes else '<='} {edge}", f"{name} - {Z!r} * u_{name} < {edge}"
    return f"{name} {'>' if limit.equality_passes else '>='} {edge}", f"{name} + {Z!r} * u_{name} > {edge}"


def numbers(weighings: list[Weighing]) -> dict[str, float]:
    """Return the numbers an engine is asked about, by name."""
    found: dict[str, float] = {}
    for index, (_, measured, _) in enumerate(weighings):
        found[f"y{index}"] = float(measured.value)
        found[f"u_y{index}"] = measured.u if measured.guarded else 0.0
    return found


def rule_engine_step(weighings: list[Weighing]) -> Callable[[], list[str]]:
    """Return the limit step in rule-engine: two compiled rules a limit."""
    import rule_engine

    compiled = []
    for index, (limit, _, at) in enumerate(weighings):
        beyond, unsure = terms(limit, at, f"y{index}")
        compiled.append((rule_engine.Rule(beyond), rule_engine.Rule(unsure), limit.outcome))
    values = numbers(weighings)

    def step() -> list[str]:
        return [
            str(outcome) if beyond.matches(values) else doubt(outcome) if unsure.matches(values) else "serviceable"
            for beyond, unsure, outcome in compiled
        ]

    return step


def zen_engine_step(weighings: list[Weighing]) -> Callable[[], list[str]]:
    """Return the limit step in zen-engine: one decision with an expression a limit, evaluated in one call."""
    import zen

    expressions = []
    for index, (limit, _, at) in enumerate(weighings):
        beyond, unsure = terms(limit, at, f"y{index}")
        value = f'({beyond}) ? "{limit.outcome}" : (({unsure}) ? "{doubt(limit.outcome)}" : "serviceable")'
        expressions.append({"id": f"e{index}", "key": f"a{index}", "value": value})
    graph = {
        "nodes": [
            {"id": "in", "type": "inputNode", "name": "in", "position": {"x": 0, "y": 0}},
            {"id": "limits", "type": "expressionNode", "name": "limits", "position": {"x": 1, "y": 0},
             "content": {"expressions": expressions}},
            {"id": "out", "type": "outputNode", "name": "out", "position": {"x": 2, "y": 0}},
        ],
        "edges": [
            {"id": "1", "sourceId": "in", "targetId": "limits", "type": "edge"},
            {"id": "2", "sourceId": "limits", "targetId": "out", "type": "edge"},
        ],
    }  # fmt: skip
    decision = zen.ZenEngine().create_decision(json.dumps(graph))
    values = numbers(weighings)

    def step() -> list[str]:
        result = decision.evaluate(values)["result"]
        return [result[f"a{index}"] for index in range(len(weighings))]

    return step


def doubt(outcome: Answer) -> str:
    """What doubt inside a limit leads to."""
    return "watch" if outcome is Answer.WATCH else "hold"


def timed(step: Callable[[], object], turns: int) -> float:
    """Return the microseconds one call takes."""
    start = time.perf_counter()
    for _ in range(turns):
        step()
    return (time.perf_counter() - start) / turns * 1e6


def limit_step(book: RuleBook) -> bool:
    """Print the limit step of each example against both engines; whether ours is the faster of all."""
    faster = True
    for name in PERIODIC:
        case = Case.model_validate(read(name))
        weighings = limits_of(case, book)
        plain = [(limit.model_copy(update={"watch_fraction": None}), m, at) for limit, m, at in weighings]
        steps = {"ours": lambda w=plain: ours(w), "rule-engine": rule_engine_step(plain), "zen": zen_engine_step(plain)}
        answers = {engine: step() for engine, step in steps.items()}
        if len({tuple(given) for given in answers.values()}) != 1:
            raise SystemExit(f"{name}: the engines do not agree: {answers}")
        turns: dict[str, list[float]] = {engine: [] for engine in steps}
        for _ in range(ROUNDS):
            for engine, step in steps.items():
                turns[engine].append(timed(step, TURNS))
        whole = timed(lambda c=case: judge(c, book), 50)
        times = {engine: statistics.median(several) for engine, several in turns.items()}
        rest = ", ".join(f"{e} {t:.1f} µs ({t / times['ours']:.1f} x)" for e, t in times.items() if e != "ours")
        sys.stdout.write(f"{name}: {len(plain)} limits: ours {times['ours']:.1f} µs; {rest}; judge() {whole:.0f} µs\n")
        faster = faster and times["ours"] < min(t for e, t in times.items() if e != "ours")
    return faster


def many(book: RuleBook, most: int) -> None:
    """Print how many inspections a second are judged anew, for ever more of them."""
    cases = [Case.model_validate(read(path.name)) for path in sorted(EXAMPLES.glob("*.json"))]
    number = min(1000, most)
    while True:
        start = time.perf_counter()
        for index in range(number):
            judge(cases[index % len(cases)], book)
        took = time.perf_counter() - start
        sys.stdout.write(f"{number:>7} inspections judged anew: {number / took:.0f} a second, {took:.1f} s\n")
        if number >= most:
            return
        number = min(number * 10, most)


def long_histories(book: RuleBook) -> None:
    """Print how judging one inspection grows with the number of earlier ones."""
    document = read(PERIODIC[0])
    template = document["inspection"]
    last = date.fromisoformat(document["on"])
    for earlier in (12, 120, 1200):
        visits = []
        for back in range(earlier, 0, -1):
            day = last - timedelta(days=back)
            visits.append({**template, "id": f"earlier {back}", "at": f"{day.isoformat()}T06:00:00+00:00"})
        newest = max(one["at"] for one in document["baselines"])
        kept = [one for one in visits if one["at"] > newest] or visits[-1:]
        case = Case.model_validate({**document, "earlier": kept})
        took = timed(lambda c=case: judge(c, book), 20) / 1000
        sys.stdout.write(f"{len(kept):>7} earlier inspections: judge() {took:.1f} ms\n")


def main() -> int:
    """Run all three; 1 when an engine was faster."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--inspections", type=int, default=100_000)
    options = parser.parse_args()
    book = shipped()
    faster = limit_step(book)
    long_histories(book)
    many(book, options.inspections)
    return 0 if faster else 1


if __name__ == "__main__":
    raise SystemExit(main())
