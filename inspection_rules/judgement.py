"""What a judgement says: rulings with their reasons, what is missing, until when."""

import hashlib
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Annotated

from pydantic import Field

from inspection_rules.case import Site, Use
from inspection_rules.fields import Hash, Model, Name, Text
from inspection_rules.record import Inspection
from inspection_rules.words import Answer, Door, InspectionKind, Mend, Scope


class Source(Model):
    """Where a rule comes from, and how well that was verified.

    Attributes:
        kind: regulation, standard, handbook, common practice, site or maker.
        verified: read, secondary or memory; none where there is no source to verify.
    """

    document: Name
    edition: Text = ""
    clause: Text = ""
    kind: Name
    verified: Name

    def __str__(self) -> str:
        """Return the citation with its standing, for screens and reports."""
        gap = "" if self.clause.startswith("(") else " "
        cited = f"{self.document}{gap}{self.clause}".strip()
        edition = f" ({self.edition})" if self.edition else ""
        standing = {
            "none": " · as recorded, not verified" if self.kind == "maker" else " · no published source",
            "secondary": " · secondary source",
            "memory": " · source not verified",
        }
        return cited + edition + standing.get(self.verified, "")


class Missing(Model):
    """A needed observation that was not made, or cannot be used."""

    part: Text
    observation: Name
    ask: Name


class Ruling(Model):
    """What one rule says about one part.

    Attributes:
        rule, pack: which rule, of which pack.
        part: id of the part; empty for the item.
        scope: item, or use: then `answer` is `hold` and the item's own answer is untouched by it.
        answer, door: the outcome, and for a hold how it is left.
        measure: name of the measure, empty for a condition.
        value, limit, margin, unit, u: decimal texts in `unit`; None where the rule has no number. `margin` is
            positive inside the limit.
        u_source: where `u` comes from.
        from_study: whether `u` rests on the site's own measurement study.
        probability: that the true value conforms; shown to people only when `from_study`.
        sentence: what was found, for the person.
        action: what to do.
        mends: what may bring the item back.
        look_again: for a watch, the local date by which to look again.
        closed_by: for a hold that an examination closes, the kinds of inspection that are one.
        if_accepted: for a hold that a competent person may accept for a time, how soon it is looked at again then.
        accepted: id of the acceptance that made a watch of this hold.
    """

    rule: Name
    pack: Name
    title: Name
    part: Text = ""
    scope: Scope = Scope.ITEM
    answer: Answer
    door: Door | None = None
    observation: Text = ""
    measure: Text = ""
    value: Decimal | None = None
    limit: Decimal | None = None
    margin: Decimal | None = None
    unit: Text = ""
    u: Decimal | None = None
    u_source: Text = ""
    from_study: bool = False
    probability: Decimal | None = None
    source: Source
    sentence: Text
    action: Text = ""
    mends: Mend = Mend.NOTHING
    look_again: date | None = None
    closed_by: tuple[InspectionKind, ...] = ()
    if_accepted: Annotated[str, Field(pattern="^([1-9][0-9]{0,2} (days|months|years))?$")] = ""
    accepted: Text = ""


class PackStamp(Model):
    """Which pack a judgement used: id, version and SHA-256 of the pack's text."""

    id: Name
    version: Name
    sha256: Hash


class Judgement(Model):
    """What the rules say about one case.

    Attributes:
        inspection_sha256: of the inspection that was judged (`content_hash`), so that no other is logged with it.
        regimes, site, use: what else it was judged by.
        answer: the worst of the rulings on the item.
        door: for a hold, refer when any hold asks for it, else look again.
        rulings: on the item, worst first, then in the order of the rope.
        not_for_this_use: rulings on the use that stop it. for_this_use: those that it satisfies.
        missing: needed observations that are not there.
        next_due: the local date of the next inspection; None while the item is held or removed.
        examination_due: the local date the next examination is due by the intervals alone, whatever the answer.
        next_due_why: which interval or watch sets it.
        advisories: what is worth knowing and decides nothing.
    """

    on: date
    inspection_sha256: Text = ""
    regimes: tuple[Name, ...] = ()
    site: Site = Site()
    use: Use | None = None
    answer: Answer
    door: Door | None
    rulings: tuple[Ruling, ...]
    not_for_this_use: tuple[Ruling, ...] = ()
    for_this_use: tuple[Ruling, ...] = ()
    missing: tuple[Missing, ...] = ()
    next_due: date | None = None
    next_due_why: Text = ""
    examination_due: date | None = None
    advisories: tuple[Text, ...] = ()
    packs: tuple[PackStamp, ...]
    rules_version: Name


def content_hash(inspection: Inspection) -> str:
    """Return the SHA-256 of an inspection's content, the same for equal inspections."""
    return hashlib.sha256(inspection.model_dump_json().encode()).hexdigest()


def decimal(value: Fraction | float, digits: int = 6) -> Decimal:
    """Round a number to a decimal that a record can hold, without an exponent or trailing zeros."""
    exact = Fraction(value)
    scaled = (abs(exact) * 10**digits * 2 + 1) // 2
    number = Decimal(int(scaled)).scaleb(-digits)
    text = f"{-number if exact < 0 else number:f}"
    return Decimal(text.rstrip("0").rstrip(".") if "." in text else text)
