"""After a re-splice: how the new splice is made, where it differs from the old one, and its as-made record."""

from dataclasses import dataclass, replace
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.screens.records.act import Act, Stamp, capital, clean
from app.touch.screens.records.asking import Choice, ChoosePage, NumberPage, WordsPage
from app.touch.screens.records.sign import SignPage
from app.touch.services import Services
from app.touch.typed import units_of
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.words import Words
from app.touch.wording import DO_NOT_USE, part_name, who
from inspection_rules.item import Item, Part
from inspection_rules.quantity import Quantity
from inspection_rules.standing import Standing
from inspection_rules.words import COMPETENT, JOINTS, UNSPLICED, Answer, InspectionKind, PartKind, SpliceKind, Thimble

HELD = mark(
    "It is on hold until a competent person has recorded the new splice as made. It is a new part: what was read on "
    "the splice before it no longer counts for it."
)
Found = tuple[Item, Standing]


class NewSplicePage(Page):
    """Offers the as-made record of a new splice, after saying how it is made where it differs."""

    def __init__(self, services: Services, app: Any, item_id: str, part: str, **kwargs: Any) -> None:
        super().__init__(heading=say("Record the new splice as made"), **kwargs)
        self._services, self._app, self._id, self._part = services, app, item_id, part
        self._found: Found | None = None
        app.bind(person=self._changed)

    def shown(self) -> None:
        """Read the item as it stands now."""
        on, register = self._services.today(), self._services.register
        self._services.records.do(lambda: (register.item(self._id), register.standing(self._id, on)), self._show)

    def _changed(self, *_changed: object) -> None:
        if self.manager is not None and self._found is not None:
            self._show(self._found)

    def _show(self, found: Found) -> None:
        self._found = found
        item, _ = found
        person = self._app.person
        self.under = f"{item.tag} · {who(person)}"
        part = item.part(self._part)
        content: list[Widget] = [
            Card(
                answer=Answer.HOLD.value,
                heavy=True,
                title=say(DO_NOT_USE),
                lines=[say(HELD)],
            ),
            Card(title=capital(part_name(item, self._part)), lines=specified(part)),
        ]
        if person.competence not in COMPETENT:
            content.append(
                Words(
                    text=say(
                        "Only the record of a competent or a qualified person counts as made; you act as {who}.",
                        who=who(person),
                    ),
                    bold=True,
                )
            )
        other = QuietButton(text=say("Somebody else records it"))
        other.bind(on_release=self._ask_who)
        differs = AnswerButton(text=say("It is made otherwise: say how"))
        differs.bind(on_release=self._differs)
        later = QuietButton(text=say("Later; it stays on hold"), bold=True)
        later.bind(on_release=self._later)
        self.fill(*content, other, differs)
        record = MainButton(text=say("It is made so: record it as made"))
        record.bind(on_release=self._record)
        self.fill_foot(later, record)

    def _ask_who(self, *_event: object) -> None:
        self._app.ask_who()

    def _later(self, *_event: object) -> None:
        self.manager.pop(self)

    def _record(self, *_event: object) -> None:
        app = self._app
        self.manager.pop(self)
        app.begin(self._id, InspectionKind.AS_MADE)

    def _differs(self, *_event: object) -> None:
        if self._found is not None:
            item, standing = self._found
            act = Act(self._services, self._app, None, item, standing)
            _kind(act, Specified.of(item.part(self._part)))


def specified(part: Part) -> list[str]:
    """Say how a splice is specified, a line each."""
    return [
        capital(say(part.splice.value)) if part.splice else "",
        say("Thimble: {thimble}", thimble=say(part.thimble.value)),
        say("Lock-stitched") if part.lock_stitched else say("Not lock-stitched"),
        say("Required bury {length}, by {by}", length=part.required_bury.text, by=part.required_by)
        if part.required_bury
        else say("No required bury on record"),
        say("Of its core's tail {length}", length=part.required_core_bury.text) if part.required_core_bury else "",
        say("Reference marks at {length} from the throat", length=part.marks_at.text)
        if part.marks_at
        else say("No reference marks on record"),
    ]


@dataclass(frozen=True, slots=True)
class Specified:
    """How the new splice is made, as far as it was said."""

    old: Part
    splice: SpliceKind
    thimble: Thimble
    lock_stitched: bool = False
    bury: Quantity | None = None
    by: str = ""
    core_bury: Quantity | None = None
    marks: Quantity | None = None

    @classmethod
    def of(cls, part: Part) -> "Specified":
        """Begin with how the old one was made."""
        return cls(part, part.splice or SpliceKind.PLAIN_END, part.thimble, part.lock_stitched)

    @property
    def part(self) -> Part:
        """The part as it is now: the same place on the rope under the same name, and nothing else of the old splice."""
        old = self.old
        return Part(
            id=old.id,
            kind=old.kind,
            end=old.end,
            from_a=old.from_a,
            chafe_gear=old.chafe_gear,
            splice=self.splice,
            thimble=self.thimble,
            lock_stitched=self.lock_stitched,
            required_bury=self.bury,
            required_core_bury=self.core_bury,
            required_by=self.by,
            marks_at=self.marks,
            tails_buried=old.tails_buried and self.splice is old.splice,
            layout=old.layout if self.splice is old.splice else None,
        )


def _kind(act: Act, made: Specified) -> None:
    joint = made.old.kind is PartKind.JOINT
    kinds = [kind for kind in SpliceKind if (kind in JOINTS) == joint]

    def chosen(key: str) -> None:
        splice = SpliceKind(key)
        if joint or splice in UNSPLICED:
            _stitched(act, replace(made, splice=splice, thimble=Thimble.NONE))
        else:
            _thimble(act, replace(made, splice=splice))

    choices = [Choice(kind.value, capital(say(kind.value))) for kind in kinds]
    act.push(ChoosePage(act, say("Which splice is it now?"), choices, chosen, present=made.splice.value))


def _thimble(act: Act, made: Specified) -> None:
    choices = [Choice(one.value, capital(say(one.value))) for one in Thimble]
    act.push(
        ChoosePage(
            act,
            say("Which thimble has it?"),
            choices,
            lambda key: _stitched(act, replace(made, thimble=Thimble(key))),
            present=made.thimble.value,
        )
    )


def _stitched(act: Act, made: Specified) -> None:
    if made.splice is SpliceKind.PLAIN_END:
        _sign(act, made)
        return
    choices = [
        Choice("yes", say("Lock-stitched"), say("Sewn through throat and bury")),
        Choice("no", say("Not lock-stitched")),
    ]
    act.push(
        ChoosePage(
            act,
            say("Is it lock-stitched?"),
            choices,
            lambda key: _bury(act, replace(made, lock_stitched=key == "yes")),
            present="yes" if made.lock_stitched else "no",
        )
    )


def _bury(act: Act, made: Specified) -> None:
    def typed(bury: Quantity | None) -> None:
        if bury is None:
            _marks(act, replace(made, bury=None, core_bury=None, by=""))
        elif made.splice is SpliceKind.DOUBLE_BRAID_EYE:
            _core_bury(act, replace(made, bury=bury))
        else:
            _by(act, replace(made, bury=bury, core_bury=None))

    act.push(
        NumberPage(
            act,
            say("Which bury must it have?"),
            "bury",
            "length",
            units_of("length", act.app.preferences.length_unit),
            typed,
            why=say("What its own instruction asks for, not what was measured."),
            without=say("Its instruction gives none"),
        )
    )


def _core_bury(act: Act, made: Specified) -> None:
    act.push(
        NumberPage(
            act,
            say("And which bury must its core's tail have?"),
            "core bury",
            "length",
            units_of("length", act.app.preferences.length_unit),
            lambda bury: _by(act, replace(made, core_bury=bury)),
            why=say("The bury given before is its cover's."),
            without=say("Its instruction gives none"),
        )
    )


def _by(act: Act, made: Specified) -> None:
    act.said.setdefault("by", made.old.required_by)
    act.push(
        WordsPage(
            act,
            say("By which instruction?"),
            "by",
            lambda by: _marks(act, replace(made, by=clean(by))),
            why=say("Title, edition and page, so that it can be found again."),
        )
    )


def _marks(act: Act, made: Specified) -> None:
    act.push(
        NumberPage(
            act,
            say("How far from the throat are its marks?"),
            "marks",
            "length",
            units_of("length", act.app.preferences.length_unit),
            lambda marks: _sign(act, replace(made, marks=marks)),
            why=say("One on the tail leg, one on the standing leg, at the same distance."),
            without=say("It has no marks"),
        )
    )


def _sign(act: Act, made: Specified) -> None:
    def log(stamp: Stamp) -> object:
        item = act.services.register.item(act.item.id)
        parts = tuple(made.part if part.id == made.old.id else part for part in item.parts)
        return act.services.register.revise_item(
            Item(**{**dict(item), "parts": parts}), stamp["by"], stamp["at"], stamp["utc_offset_minutes"]
        )

    act.push(
        SignPage(
            act,
            say("How it is made now"),
            lambda: [Card(title=capital(part_name(act.item, made.old.id)), lines=specified(made.part))],
            [say("The item is described anew; how it was before stays on record.")],
            lambda: act.log(log),
            pictured=False,
        )
    )
