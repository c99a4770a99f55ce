"""Whether what an inspection must contain was examined, and the hold where it was not."""

from collections.abc import Iterator

from inspection_rules.book import COMMON, RuleBook, hidden_behind
from inspection_rules.case import Case
from inspection_rules.item import Item
from inspection_rules.judgement import Ruling
from inspection_rules.observation import Observation
from inspection_rules.record import Finding, Inspection
from inspection_rules.rule import PRACTICE, RuleSource
from inspection_rules.words import Answer, Door, InspectionKind, Mend, Seen


def spoken_of(parts: tuple[str, ...], one: Inspection, item: Item) -> tuple[str, ...]:
    """Return the parts an inspection speaks of: an as-made record is of one splice as often as of all.

    Once it speaks of every splice it is of the whole item, the rope between them included.
    """
    if one.kind is not InspectionKind.AS_MADE or not one.entries:
        return parts
    spoken = {entry.part for entry in one.entries}
    if all(part.id in spoken for part in item.spliced):
        return parts
    return tuple(part for part in parts if part in spoken)


def lack(observation: Observation, part: str, one: Inspection, item: Item, book: RuleBook) -> str | None:
    """Say why a needed observation does not count as made; None when it does."""
    if observation.kind == "reading":
        if one.reading(part, observation.id) is not None:
            return None
        unread = one.finding(part, observation.id)
        if unread is not None:
            return f"could not be read ({unread.reason})"
        others = [one.reading(part, name) for name in observation.instead]
        read = [other for other in others if other is not None]
        if not read or len(read) < len(others):
            return "not read"
        return None if len({other.state for other in read}) == 1 else "read in different states"
    finding = one.finding(part, observation.id)
    return "not answered" if finding is None else unseen(observation, finding, one, item, book)


def unseen(observation: Observation, finding: Finding, one: Inspection, item: Item, book: RuleBook) -> str | None:
    """Say why a finding tells nothing; None when it, or what stands in for it by design, was seen."""
    if finding.seen is Seen.NOT_EXAMINED:
        return f"could not be examined ({finding.reason})"
    if finding.seen is not Seen.HIDDEN:
        return None
    substitute = hidden_behind(observation, finding.part, item, book)
    stands_in = one.finding(finding.part, substitute.id) if substitute else None
    if stands_in is not None and stands_in.seen in (Seen.ABSENT, Seen.PRESENT):
        return None
    return "hidden by design, and what stands in for it was not examined"


def hold(rule: str, pack: str, observation: Observation, part: str, why: str, source: RuleSource) -> Ruling:
    """Return the hold, to look again, for what was not examined; `why` completes the question's sentence."""
    return Ruling(
        rule=rule,
        pack=pack,
        title="Not examined",
        part=part,
        answer=Answer.HOLD,
        door=Door.LOOK_AGAIN,
        observation=observation.id,
        source=source,
        sentence=f"{observation.ask.rstrip('?.')}: {why}. What was not examined does not pass.",
        action="Do not use it until this has been looked at.",
        mends=Mend.LOOK,
    )


def unread(case: Case, book: RuleBook, needed: set[tuple[str, str]]) -> Iterator[Ruling]:
    """Yield a hold for each reading that was tried beyond need and could not be taken: that is doubt too."""
    for finding in case.inspection.findings:
        observation = book.observations[finding.observation]
        if observation.kind == "reading" and (finding.part, finding.observation) not in needed:
            why = f"could not be read ({finding.reason})"
            yield hold("not-read", COMMON, observation, finding.part, why, PRACTICE)
