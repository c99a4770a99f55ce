"""What a rule and a pack are, as data; `book.py` reads and checks the files."""

from decimal import Decimal
from itertools import pairwise
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from inspection_rules.fields import AnyQuantity, Model, Name, Text
from inspection_rules.judgement import Source
from inspection_rules.observation import Applies
from inspection_rules.quantity import Quantity, parse
from inspection_rules.words import (
    Answer,
    Chemical,
    Competence,
    Hitch,
    InspectionKind,
    Mend,
    Moisture,
    Scope,
    Service,
)

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


class Factor(Model):
    """How many times one leg's working load may be carried, for a hitch, a number of legs and an angle.

    By the whole sling where a table rates modes (`mode_rating`), by each rope part where the angle is reckoned
    (`leg_rating`). The first factor listed for a hitch is that of one sling, upright.

    Attributes:
        up_to: the largest angle it holds for, in degrees from the vertical; empty for any.
        times: empty where only the tag's own rating for the hitch counts.
    """

    hitch: Hitch
    legs: Annotated[tuple[int, ...], Field(min_length=1)] = (1,)
    up_to: Annotated[Decimal, Field(gt=0, le=90)] | None = None
    times: Annotated[Decimal, Field(gt=0)] | None = None


class Formula(Model):
    """A limit that depends on the item: a named formula (`formulas.py`) with its parameters."""

    formula: Name
    factors: tuple[Factor, ...] = ()
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
        combines: whether it is a loss of load-bearing fibre that adds up with others close by (`combined`).
    """

    measure: Name
    at_least: AnyQuantity | Formula | None = None
    more_than: AnyQuantity | Formula | None = None
    at_most: AnyQuantity | Formula | None = None
    less_than: AnyQuantity | Formula | None = None
    outcome: Literal[Answer.WATCH, Answer.HOLD, Answer.REMOVE]
    detection_step: AnyQuantity | None = None
    watch_fraction: Annotated[Decimal, Field(gt=0, lt=1)] | None = None
    combines: bool = False

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


class Confirmed(Model):
    """How far the mean of so many readings of one visit must lie beyond the baseline to be confirmed movement."""

    readings: Annotated[int, Field(ge=2, le=20)]
    k: Annotated[Decimal, Field(gt=0)]


class Movement(Model):
    """A measure that should stay still between visits: the slip of a buried tail.

    Attributes:
        watch_k, hold_k: how many standard uncertainties of a difference count as a sign of movement, and as enough of
            one to read it again at once. The uncertainty here is that of the direct method on this rope, the mean of
            four readings against a baseline of two, whatever method was used and however often it was read: so a
            coarser reading never yields a better answer.
        confirmed: how many count as movement, by how many readings the mean is of; the most readings first.
        steps_to_remove: this many confirmed steps since the splice was made remove it.
        action: a value beyond which, doubt included, the splice is not serviceable.
        provisional: how far it may settle before a bedded-in baseline exists.
    """

    measure: Name
    watch_k: Annotated[Decimal, Field(gt=0)]
    hold_k: Annotated[Decimal, Field(gt=0)]
    confirmed: Annotated[tuple[Confirmed, ...], Field(min_length=1)] = (
        Confirmed(readings=4, k=Decimal("2.7")),
        Confirmed(readings=2, k=Decimal(4)),
    )
    steps_to_remove: Annotated[int, Field(ge=1)]
    action: Formula
    provisional: Formula

    @model_validator(mode="after")
    def _ordered(self) -> Self:
        if self.watch_k >= self.hold_k:
            raise PydanticCustomError("movement", "'watch_k' must be less than 'hold_k'")
        pairs = [(one.readings, one.k) for one in self.confirmed]
        if any(more[0] <= fewer[0] or more[1] >= fewer[1] for more, fewer in pairwise(pairs)):
            raise PydanticCustomError("movement", "'confirmed' goes from most readings to fewest, 'k' rising")
        if self.confirmed[0].k < self.hold_k:
            raise PydanticCustomError("movement", "'confirmed' must not ask for less than 'hold_k'")
        return self


class RouteRule(Model):
    """Another route to the same slip, read beside the marks or where they tell nothing; it only adds holds.

    Attributes:
        measure: name of a registered route (`measures/routes.py`).
        hold_k: movement by itself, or disagreement with the marks, beyond so many standard uncertainties of the
            difference is a hold.
    """

    measure: Name
    hold_k: Annotated[Decimal, Field(gt=0)]


class ConditionRule(Model):
    """A finding and the outcome when one of these conditions was seen.

    Attributes:
        graded_by: measures of its extent. Where one of them was read and a loaded limit judges it, the limit decides
            and the condition itself is watched.
    """

    observation: Name
    when: Annotated[tuple[Name, ...], Field(min_length=1)]
    outcome: Literal[Answer.WATCH, Answer.HOLD, Answer.REMOVE]
    graded_by: tuple[Name, ...] = ()


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


Fact = Literal[
    "maker_criteria", "working_load_limit", "breaking_force", "ship_design_force", "made", "first_used", "length",
    "width", "thickness", "cover_load", "fibre",
]  # fmt: skip


class FactRule(Model):
    """What the item's own record must say before an inspection of these kinds can pass."""

    field: Fact
    inspection: Annotated[tuple[InspectionKind, ...], Field(min_length=1)]
    outcome: Literal[Answer.WATCH, Answer.HOLD] = Answer.HOLD


class Age(Model):
    """The longest life, from the day it was made or first used; a date not on record is a hold.

    A hold for age may be accepted for longer by a competent person; a removal may not.
    """

    since: Literal["made", "first_used"]
    longest: Duration
    outcome: Literal[Answer.HOLD, Answer.REMOVE]


class Combined(Model):
    """Losses of load-bearing fibre close together, each inside its limit, that add up to one limit.

    Attributes:
        within: damages whose places are known to lie farther apart than this do not add up.
    """

    within: AnyQuantity
    outcome: Literal[Answer.HOLD, Answer.REMOVE]


class Meets(Model):
    """What a use must not meet; each given field is one of these. Rulings are on the use."""

    chemicals: tuple[Chemical, ...] = ()
    moisture: tuple[Moisture, ...] = ()
    persons: bool = False

    @model_validator(mode="after")
    def _one(self) -> Self:
        if not (self.chemicals or self.moisture or self.persons):
            raise PydanticCustomError("meets", "give 'chemicals', 'moisture' or 'persons'")
        return self


class Rule(Model):
    """One criterion: what it looks at, what follows, and where it comes from.

    Attributes:
        title: names the subject, as a heading.
        fires: the sentence when a condition is seen or an interval has passed.
        action: what the person should do then, one sentence.
        criterion: id in `criteria.toml`.
        look_again: for watch, how soon.
        cannot_bite_beside: ids of stricter rules on the same damage: where one of them counts too, this one can
            change nothing, and the judgement says so.
        acceptable: whether a competent person may accept its hold for a time. Not where the condition is a sign of
            slip, nor where it says that something could not be told.
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
    acceptable: bool = True
    cannot_bite_beside: tuple[Name, ...] = ()
    limit: Limit | None = None
    movement: Movement | None = None
    route: RouteRule | None = None
    condition: ConditionRule | None = None
    needs: Needs | None = None
    interval: Interval | None = None
    fact: FactRule | None = None
    age: Age | None = None
    combined: Combined | None = None
    meets: Meets | None = None

    @model_validator(mode="after")
    def _one_body(self) -> Self:
        given = [name for name in BODIES if getattr(self, name) is not None]
        if len(given) != 1:
            raise PydanticCustomError("rule", "give exactly one of {names}", {"names": ", ".join(BODIES)})
        if given[0] not in ("limit", "movement", "route", "needs") and not (self.fires and self.action):
            raise PydanticCustomError("rule", "'{body}' needs 'fires' and 'action' beside it", {"body": given[0]})
        if self.meets is not None and self.scope is not Scope.USE:
            raise PydanticCustomError("rule", "'meets' speaks of the use: it needs scope = \"use\"")
        return self

    @property
    def body(self) -> str:
        """Which of `BODIES` it has."""
        return next(name for name in BODIES if getattr(self, name) is not None)


BODIES = ("limit", "movement", "route", "condition", "needs", "interval", "fact", "age", "combined", "meets")


class Criterion(Model):
    """A published criterion, or one of the trade's own, in our words.

    Attributes:
        evidence: how well its words were verified.
        left_out: why no rule applies it; empty when one does.
        yields: whether a maker's written instruction may turn its removals into holds: wear and cuts only.
    """

    id: Annotated[str, Field(pattern="^[a-z0-9]+(-[a-z0-9]+)*$")]
    says: Annotated[Text, Field(min_length=1)]
    evidence: Literal["read", "secondary", "memory", "none"]
    left_out: Text = ""
    yields: bool = False


class Retention(Model):
    """How long a record must be kept; nothing is ever deleted, so this only tells what the duty is."""

    record: Name
    keep: Name
    source: RuleSource


class Defined(Model):
    """Who has a competence under a regime, in our words."""

    competence: Competence
    means: Name
    source: RuleSource


class Pack(Model):
    """A set of rules of one regime, site or maker.

    Attributes:
        regime: the name a person chooses; empty for common practice and for a site's pack, which always count.
        maker: whether it holds a maker's criteria, and counts for the items that name it in `maker_pack`.
        who: how the regime defines a competence, in our words.
        retention: how long it wants records kept.
        sha256: of the file's bytes; a judgement keeps it.
    """

    id: Annotated[str, Field(pattern="^[a-z0-9]+(-[a-z0-9]+)*$")]
    version: Name
    title: Name
    regime: Text = ""
    maker: bool = False
    who: tuple[Defined, ...] = ()
    retention: tuple[Retention, ...] = ()
    sha256: Text = ""
    rules: tuple[Rule, ...]

    @property
    def tightens(self) -> bool:
        """Whether it is a site's or a maker's: such a pack only tightens (`tightening.py`)."""
        return self.maker or any(rule.source.kind == "site" for rule in self.rules)


def span(duration: str) -> tuple[int, Literal["days", "months"]]:
    """Return a duration as a number of days or of months."""
    quantity = parse(duration, "duration")
    if quantity.unit == "days":
        return int(quantity.value), "days"
    return int(quantity.to("months")), "months"
