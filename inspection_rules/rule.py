"""What a rule and a pack are, as data; `packs.py` reads and checks the files."""

from decimal import Decimal
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.fields import AnyQuantity, Model, Name, Text
from inspection_rules.judgement import Source
from inspection_rules.observation import Applies
from inspection_rules.quantity import Quantity, parse
from inspection_rules.words import Answer, Competence, InspectionKind, Mend, Scope, Service

Sources = Literal["regulation", "standard", "handbook", "common practice", "site", "maker"]
Duration = Annotated[str, Field(pattern="^[1-9][0-9]{0,2} (days|months|years)$")]


class RuleSource(Source):
    """A source whose kind and standing come from closed lists."""

    kind: Sources
    verified: Literal["read", "secondary", "memory", "none"]

    @model_validator(mode="after")
    def _standing(self) -> Self:
        unsourced = self.kind in ("common practice", "site")
        if (unsourced and self.verified != "none") or (
            self.verified == "none" and not (unsourced or self.kind == "maker")
        ):
            raise PydanticCustomError(
                "source", "'verified' is 'none' for common practice and site rules, and may be for a maker's"
            )
        return self


PRACTICE = RuleSource(document="Common practice", kind="common practice", verified="none")


class Formula(Model):
    """A limit that depends on the item: a named formula (`formulas.py`) with its parameters."""

    formula: Name
    times: Annotated[Decimal, Field(gt=0)] | None = None
    least: AnyQuantity | None = None
    below: AnyQuantity | None = None
    otherwise: AnyQuantity | None = None

    @model_validator(mode="after")
    def _whole(self) -> Self:
        sizes = [size for size in (self.below, self.otherwise) if size is not None]
        if len(sizes) == 1 or any(size.dimension != "length" for size in sizes):
            raise PydanticCustomError("formula", "'below' and 'otherwise' go together, and both are lengths")
        if self.least is not None and self.least.dimension != "length":
            raise PydanticCustomError("formula", "'least' is a length")
        return self


class Limit(Model):
    """A measure against a limit.

    Attributes:
        measure: name of a registered measure.
        at_least, more_than, at_most, less_than: exactly one of them; the names say whether equality passes.
        outcome: the answer beyond the limit.
        detection_step: the largest step a reading may be blind to (2 u) and still satisfy the rule.
        watch_fraction: inside the limit but beyond this fraction of it, the answer is watch.
    """

    measure: Name
    at_least: AnyQuantity | Formula | None = None
    more_than: AnyQuantity | Formula | None = None
    at_most: AnyQuantity | Formula | None = None
    less_than: AnyQuantity | Formula | None = None
    outcome: Literal[Answer.WATCH, Answer.HOLD, Answer.REMOVE]
    detection_step: AnyQuantity | None = None
    watch_fraction: Annotated[Decimal, Field(gt=0, lt=1)] | None = None

    @model_validator(mode="after")
    def _one(self) -> Self:
        given = [v for v in (self.at_least, self.more_than, self.at_most, self.less_than) if v is not None]
        if len(given) != 1:
            raise PydanticCustomError("limit", "give exactly one of at_least, more_than, at_most, less_than")
        return self

    @property
    def bound(self) -> Quantity | Formula:
        """The limit itself."""
        for value in (self.at_least, self.more_than, self.at_most, self.less_than):
            if value is not None:
                return value
        raise AttributeError("a limit has a bound")

    @property
    def lower(self) -> bool:
        """Whether the value must stay above the bound."""
        return self.at_least is not None or self.more_than is not None

    @property
    def equality_passes(self) -> bool:
        """Whether a value exactly at the bound conforms."""
        return self.at_least is not None or self.at_most is not None


class Movement(Model):
    """A measure that should stay still between visits: the slip of a buried tail.

    Attributes:
        watch_k, hold_k: how many standard uncertainties of a difference count as a sign of movement and as
            movement. The uncertainty here is that of the direct method on this rope, read twice, whatever
            method was used: so a coarser reading never yields a better answer.
        steps_to_remove: this many confirmed steps since the splice was made remove it.
        action: a value beyond which, doubt included, the splice is not serviceable.
        provisional: how far it may settle before a bedded-in baseline exists.
    """

    measure: Name
    watch_k: Annotated[Decimal, Field(gt=0)]
    hold_k: Annotated[Decimal, Field(gt=0)]
    steps_to_remove: Annotated[int, Field(ge=1)]
    action: Formula
    provisional: Formula

    @model_validator(mode="after")
    def _ordered(self) -> Self:
        if self.watch_k >= self.hold_k:
            raise PydanticCustomError("movement", "'watch_k' must be less than 'hold_k'")
        return self


class ConditionRule(Model):
    """A finding and the outcome when one of these conditions was seen."""

    observation: Name
    when: Annotated[tuple[Name, ...], Field(min_length=1)]
    outcome: Literal[Answer.WATCH, Answer.HOLD, Answer.REMOVE]


class Needs(Model):
    """What an inspection of these kinds must contain.

    Attributes:
        observations: of the parts the rule applies to.
        by: the competence it takes.
        covers: that the pack's rules speak for the parts it applies to. A part that no rule covers is held.
    """

    inspection: Annotated[tuple[InspectionKind, ...], Field(min_length=1)]
    observations: tuple[Name, ...] = ()
    by: tuple[Competence, ...] = ()
    covers: bool = False


class Interval(Model):
    """The longest time since an inspection of these kinds.

    Attributes:
        since: the inspection kinds that start the interval anew.
        longest: by service severity; `normal` is needed.
        once: the interval runs only until one inspection of kind `until` exists.
    """

    since: Annotated[tuple[InspectionKind, ...], Field(min_length=1)]
    longest: dict[Service, Duration]
    once: bool = False
    until: tuple[InspectionKind, ...] = ()
    outcome: Literal[Answer.HOLD] = Answer.HOLD

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if Service.NORMAL not in self.longest:
            raise PydanticCustomError("interval", "'longest' needs 'normal'")
        if self.once is not bool(self.until):
            raise PydanticCustomError("interval", "'once' and 'until' go together")
        return self


class Rule(Model):
    """One criterion: what it looks at, what follows, and where it comes from.

    Attributes:
        title: names the subject, as a heading.
        fires: the sentence when a condition is seen or an interval has passed.
        action: what the person should do then, one sentence.
        criterion: id in `criteria.toml`.
        look_again: for watch, how soon.
    """

    id: Annotated[str, Field(pattern="^[a-z0-9]+(-[a-z0-9]+)*$")]
    title: Name
    fires: Text = ""
    action: Text = ""
    criterion: Text = ""
    source: RuleSource
    scope: Scope = Scope.ITEM
    applies: Applies = Applies()
    mends: Mend = Mend.NOTHING
    look_again: Duration = "30 days"
    limit: Limit | None = None
    movement: Movement | None = None
    condition: ConditionRule | None = None
    needs: Needs | None = None
    interval: Interval | None = None

    @model_validator(mode="after")
    def _one_body(self) -> Self:
        bodies = (self.limit, self.movement, self.condition, self.needs, self.interval)
        if sum(body is not None for body in bodies) != 1:
            raise PydanticCustomError("rule", "give exactly one of limit, movement, condition, needs, interval")
        if self.condition is not None and not (self.fires and self.action):
            raise PydanticCustomError("rule", "a condition rule needs 'fires' and 'action'")
        if self.interval is not None and not (self.fires and self.action):
            raise PydanticCustomError("rule", "an interval rule needs 'fires' and 'action'")
        return self


class Criterion(Model):
    """A published criterion, or one of the trade's own, in our words.

    Attributes:
        evidence: how well its words were verified.
        left_out: why no rule applies it; empty when one does.
    """

    id: Annotated[str, Field(pattern="^[a-z0-9]+(-[a-z0-9]+)*$")]
    says: Annotated[Text, Field(min_length=1)]
    evidence: Literal["read", "secondary", "memory", "none"]
    left_out: Text = ""


class Pack(Model):
    """A set of rules of one regime.

    Attributes:
        regime: the name a person chooses; empty for common practice, which always counts.
        sha256: of the file's bytes; a judgement keeps it.
    """

    id: Annotated[str, Field(pattern="^[a-z0-9]+(-[a-z0-9]+)*$")]
    version: Name
    title: Name
    regime: Text = ""
    sha256: Text = ""
    rules: tuple[Rule, ...]


def span(duration: str) -> tuple[int, Literal["days", "months"]]:
    """Return a duration as a number of days or of months."""
    quantity = parse(duration, "duration")
    if quantity.unit == "days":
        return int(quantity.value), "days"
    return int(quantity.to("months")), "months"
