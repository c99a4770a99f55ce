"""The rules in plain text: what each asks, what follows, its source and how well that was verified."""

from collections.abc import Iterable, Iterator

from app import rule_words
from inspection_rules.book import RuleBook
from inspection_rules.coverage import Covered
from inspection_rules.quantity import Quantity
from inspection_rules.rule import Formula, Pack, Rule
from inspection_rules.words import Scope


def listing(book: RuleBook) -> Iterator[str]:
    """Yield one line for each rule, under a heading for each pack."""
    for pack in book.packs:
        when = f"regime '{pack.regime}'" if pack.regime else "always counts"
        if pack.maker:
            when = "counts for the items that name it"
        yield f"{pack.title} · {pack.id} {pack.version} · {when}"
        for rule in pack.rules:
            yield f"  {rule.id:<34}{_outcome(rule):<21}{rule.title} [{_standing(rule)}]"
        yield ""


def coverage_lines(found: Iterable[Covered]) -> Iterator[str]:
    """Yield each criterion with the rules that apply it, or why none does."""
    for one in found:
        yield f"{one.criterion.id} [{one.criterion.evidence}]  {one.criterion.says}"
        for pack, rule in one.rules:
            yield f"    {pack.id}/{rule.id}: {_outcome(rule)}"
        if not one.rules:
            yield f"    left out: {one.criterion.left_out}"


def one_rule(pack: Pack, rule: Rule) -> str:
    """Return everything a rule says, a line for each."""
    lines = [
        f"{rule.id} · {rule.title}",
        f"  pack          {pack.id} {pack.version}",
        f"  outcome       {_outcome(rule)}",
    ]
    if rule.limit:
        side = next(s for s in ("at_least", "more_than", "at_most", "less_than") if getattr(rule.limit, s) is not None)
        lines.append(f"  limit         {rule.limit.measure} {side.replace('_', ' ')} {_bound_words(rule.limit.bound)}")
    if rule.movement:
        lines.append(
            f"  movement      beyond {rule.movement.hold_k} u of a difference; {rule.movement.watch_k} u is watched"
        )
        lines.append(f"  remove        after {rule.movement.steps_to_remove} confirmed movements")
        lines.append(f"  action value  {_bound_words(rule.movement.action)}")
        lines.append(f"  new splice    may settle by {_bound_words(rule.movement.provisional)}")
    if rule.route:
        lines.append(f"  route         {rule.route.measure}: beyond {rule.route.hold_k} u of a difference")
    if rule.condition:
        lines.append(f"  seen          {rule.condition.observation}: {', '.join(rule.condition.when)}")
    if rule.needs:
        lines.append(f"  needs         {', '.join(rule.needs.observations) or ' or '.join(rule.needs.by)}")
        lines.append(f"  at            {', '.join(rule.needs.inspection)}")
    if rule.interval:
        lines.append(f"  longest       {', '.join(f'{k} {v}' for k, v in rule.interval.longest.items())}")
    if rule.age:
        lines.append(f"  longest       {rule.age.longest} from the day it was {rule.age.since.replace('_', ' ')}")
    if rule.fact:
        lines.append(f"  on record     {rule.fact.field.replace('_', ' ')}")
    if rule.combined:
        lines.append(f"  adds up       damages within {rule.combined.within} of each other")
    if rule.meets:
        meets = rule.meets.model_dump(mode="json", exclude_defaults=True)
        lines += [f"  must not meet {', '.join(v) if isinstance(v, list) else k}" for k, v in meets.items()]
    applies = rule.applies.model_dump(mode="json", exclude_defaults=True)
    lines += [f"  {name:<14}{', '.join(v) if isinstance(v, list) else v}" for name, v in applies.items()]
    lines += [f"  says          {rule.fires}"] if rule.fires else []
    lines += [f"  do            {rule.action}"] if rule.action else []
    lines += [f"  mends         {rule.mends}", f"  source        {rule.source} ({_standing(rule)})"]
    return "\n".join(lines)


def _bound_words(bound: Quantity | Formula) -> str:
    if isinstance(bound, Formula) and bound.factors:
        return rule_words.bound(bound)
    if isinstance(bound, Formula):
        given = bound.model_dump(mode="json", exclude_defaults=True)
        return f"{given.pop('formula')}" + (f" ({', '.join(f'{k} {v}' for k, v in given.items())})" if given else "")
    return str(bound)


def _outcome(rule: Rule) -> str:
    if rule.scope is Scope.USE:
        return "not for this use"
    if rule.movement:
        return "watch, hold, remove"
    body = rule.limit or rule.condition or rule.age or rule.combined or rule.fact
    return str(body.outcome) if body else "hold"


def _standing(rule: Rule) -> str:
    if rule.source.kind == "maker":
        return "the splice's own instruction, as recorded"
    return {"none": rule.source.kind, "read": f"{rule.source.kind}, read"}.get(
        rule.source.verified, f"{rule.source.kind}, {rule.source.verified} source"
    )
