"""Work done on an item: which of the trade's works, on which part, and what such work has to say."""

from collections.abc import Mapping
from types import MappingProxyType

from app.language import mark, say, told
from app.touch.screens.records.act import Act, capital, clean, one_line
from app.touch.screens.records.asking import Choice, ChoosePage, NumberPage, WordsPage
from app.touch.screens.records.new_splice import NewSplicePage
from app.touch.screens.records.sign import SignPage
from app.touch.typed import PLACE_UNITS, UNITS_OF
from app.touch.widgets.card import Card
from app.touch.wording import part_name
from inspection_rules.mending import MENDS, WORK_MENDS
from inspection_rules.quantity import Quantity
from inspection_rules.record import Item, WorkDone
from inspection_rules.words import Duty, ItemKind, Mend, PartKind, SpliceKind, Thimble, Work

ENDS_STAY = mark(
    "End A and end B are whipped in and never change their names: the history stays with each of them, "
    "however the line lies now."
)
CUT_KEPT = mark(
    "End {end} keeps its name and its history. Places recorded before are reckoned from the new end A where something "
    "was cut off there."
)
NEW_SPLICE_HELD = mark(
    "A re-spliced part is a new part: the item is on hold until a competent person has recorded the new splice as "
    "made. What was read on the splice before it no longer counts for it."
)
RELEASED_APART = mark("This record releases nothing by itself: a competent person does, after looking.")
WHOLE = mark("The item as a whole")
SPLICED_KINDS = frozenset(SpliceKind) - {SpliceKind.SEWN_EYE}
FOLLOWS: Mapping[Work, str] = MappingProxyType(
    {Work.ENDS_TURNED: ENDS_STAY, Work.CUT_BACK: CUT_KEPT, Work.RE_SPLICED: NEW_SPLICE_HELD}
)


def works(item: Item) -> tuple[Work, ...]:
    """Return the works that can be done to an item like this."""
    return tuple(work for work in Work if parts_for(work, item))


def named(item: Item) -> str:
    """Name a few of the works that can be done to this item."""
    few = works(item)[:4]
    return ", ".join(say(work.value) for work in few) + " …"


def parts_for(work: Work, item: Item) -> tuple[str, ...]:
    """Return the ids of the parts a work can be done to, empty text for the item as a whole; none where it cannot."""
    ends = item.terminations
    found: tuple[str, ...] = ("",)
    if work is Work.ENDS_TURNED:
        found = ("",) if len(ends) == 2 else ()
    elif work is Work.MOORING_TAIL:
        found = ("",) if item.kind is ItemKind.LINE and item.duty is Duty.MOORING else ()
    elif work is Work.RE_SPLICED:
        found = tuple(part.id for part in item.spliced if part.splice in SPLICED_KINDS)
    elif work is Work.RE_STITCHED:
        found = tuple(part.id for part in item.spliced if part.lock_stitched)
    elif work in (Work.CUT_BACK, Work.CHAFE_GEAR):
        found = tuple(part.id for part in ends)
    elif work is Work.FITTING:
        hung = [part for part in item.parts if part.kind is PartKind.FITTING or part.thimble is not Thimble.NONE]
        found = tuple(part.id for part in hung)
    elif work in (Work.CLEANED, Work.REPAIRED):
        found = ("", *(part.id for part in item.parts))
    return found


def mended_by(work: Work) -> Mend:
    """Return the mending a work is: its only one, or none where a competent look decides."""
    can = MENDS[work]
    return next(iter(can)) if len(can) == 1 else Mend.NOTHING


def begin(act: Act) -> None:
    """Ask which work was done."""
    wanted = {one.ruling.mends: one.ruling for one in act.standing.open if one.ruling.mends in WORK_MENDS}

    def line(work: Work) -> str:
        ruling = wanted.get(mended_by(work))
        return say("It is asked for. {why}", why=told(ruling.sentence)) if ruling else ""

    def chosen(key: str) -> None:
        work = Work(key)
        parts = parts_for(work, act.item)
        if len(parts) == 1:
            _what(act, work, parts[0])
        else:
            _which_part(act, work, parts)

    choices = [Choice(work.value, capital(say(work.value)), line(work)) for work in works(act.item)]
    act.push(ChoosePage(act, say("What was done?"), choices, chosen))


def _which_part(act: Act, work: Work, parts: tuple[str, ...]) -> None:
    wanted = {one.ruling.part: one.ruling for one in act.standing.open if one.ruling.mends is mended_by(work)}

    def choice(part: str) -> Choice:
        asked = wanted.get(part) if mended_by(work) in WORK_MENDS else None
        line = say("It is asked for. {why}", why=told(asked.sentence)) if asked else ""
        return Choice(part, part_title(act.item, part), line)

    act.push(
        ChoosePage(
            act,
            say("What was it done to?"),
            [choice(part) for part in parts],
            lambda part: _what(act, work, part),
            why=capital(say(work.value)),
        )
    )


def part_title(item: Item, part: str) -> str:
    """Name a part with what it is: `End A · buried eye`."""
    if not part:
        return say(WHOLE)
    splice = item.part(part).splice
    return " · ".join(one for one in (capital(part_name(item, part)), say(splice.value) if splice else "") if one)


def _what(act: Act, work: Work, part: str) -> None:
    def typed(_text: str) -> None:
        _next(act, work, part)

    act.push(
        WordsPage(
            act,
            say("What was done, in a few words?"),
            f"what {work}",
            typed,
            why=_follows(act, work, part),
            hint=say("By whom, with what, to which instruction"),
            needed=False,
        )
    )


def _next(act: Act, work: Work, part: str) -> None:
    """Ask what such work has to say beyond its words, then let it be signed."""
    end = act.item.part(part).end if part else None
    if work in (Work.CUT_BACK, Work.RE_SPLICED) and end == "A":
        act.push(
            NumberPage(
                act,
                say("How much was cut off at end A?"),
                "cut",
                "length",
                PLACE_UNITS[act.app.preferences.length_unit],
                lambda cut: _sign(act, work, part, cut=cut),
                why=say("Places along the line are reckoned from there."),
                without=say("Not measured") if work is Work.CUT_BACK else say("Nothing was cut off"),
            )
        )
    elif work is Work.REPAIRED:
        act.push(
            NumberPage(
                act,
                say("To what was it proof loaded?"),
                "proof",
                "force",
                UNITS_OF["force"],
                lambda proof: _sign(act, work, part, proof=proof),
                why=say("A repair without a proof load brings nothing back."),
            )
        )
    elif work is Work.RE_TAGGED:
        act.said.setdefault("tag", act.item.tag)
        act.push(
            WordsPage(
                act,
                say("What was it known again by?"),
                "known",
                lambda _known: act.push(
                    WordsPage(
                        act,
                        say("What does the tag say now?"),
                        "tag",
                        lambda _tag: _sign(act, work, part),
                        why=say("As it stands on the tag, as far as the item is called by it."),
                    )
                ),
                why=say("What of its record showed that it is this item: length, splices, stitching, maker's number."),
            )
        )
    else:
        _sign(act, work, part)


def _sign(act: Act, work: Work, part: str, cut: Quantity | None = None, proof: Quantity | None = None) -> None:
    what = one_line(act.said.get(f"what {work}", "")) or work.value
    known = clean(act.said.get("known", "")) if work is Work.RE_TAGGED else ""
    tag = one_line(act.said.get("tag", "")) if work is Work.RE_TAGGED else act.item.tag
    unmeasured = work is Work.CUT_BACK and part and act.item.part(part).end == "A" and cut is None
    if unmeasured:
        what = one_line(f"{what[:80]}; what was cut off at end A was not measured")

    def log() -> object:
        done = WorkDone(
            **act.stamp(),
            part=part,
            work=work,
            mends=mended_by(work),
            what=what,
            cut_from_a=cut,
            proof_load=proof,
            known_by=known,
            pictures=tuple(act.pictures),
        )
        register = act.services.register
        register.log_work(done)
        if tag != act.item.tag:
            item = Item(**{**dict(register.item(act.item.id)), "tag": tag})
            register.revise_item(item, done.by, done.at, done.utc_offset_minutes)
        return done.id

    lines = [
        part_title(act.item, part),
        what if what != work.value else "",
        say("Cut off at end A: {length}", length=cut.text) if cut else "",
        say("Proof loaded to {force}", force=proof.text) if proof else "",
        say("Known again by: {known}", known=known) if known else "",
        say("The tag now says {tag}", tag=tag) if tag != act.item.tag else "",
    ]
    then = (lambda: _new_splice(act, part)) if work is Work.RE_SPLICED else None
    act.push(
        SignPage(
            act,
            say("Work done"),
            lambda: [Card(title=capital(say(work.value)), lines=lines)],
            [_follows(act, work, part), say(RELEASED_APART) if act.standing.open else ""],
            lambda: act.log(log, then),
        )
    )


def _new_splice(act: Act, part: str) -> None:
    act.app.stack.push(NewSplicePage(act.services, act.app, act.item.id, part))


def _follows(act: Act, work: Work, part: str) -> str:
    if work not in FOLLOWS:
        return ""
    return say(FOLLOWS[work], end=act.item.part(part).end) if work is Work.CUT_BACK else say(FOLLOWS[work])
