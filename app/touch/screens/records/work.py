"""Work done on an item: which of the trade's works, on which part, and what such work has to say."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from app.language import mark, say, told
from app.touch.screens.records.act import Act, Stamp, capital, clean, one_line
from app.touch.screens.records.asking import Choice, ChoosePage, NumberPage, WordsPage
from app.touch.screens.records.new_splice import NewSplicePage
from app.touch.screens.records.sign import SignPage
from app.touch.typed import PLACE_UNITS, UNITS_OF
from app.touch.widgets.card import Card
from app.touch.wording import part_name
from inspection_rules.events import WorkDone
from inspection_rules.item import Item
from inspection_rules.mending import MENDS, WORK_MENDS
from inspection_rules.quantity import Quantity
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
EYE_CUT_OFF = mark("An eye that is cut off is made anew: this is recorded as re-spliced, with how much was cut off.")
WHOLE = mark("The item as a whole")
SPLICED_KINDS = frozenset(SpliceKind) - {SpliceKind.SEWN_EYE}
FOLLOWS: Mapping[Work, str] = MappingProxyType({Work.ENDS_TURNED: ENDS_STAY, Work.RE_SPLICED: NEW_SPLICE_HELD})


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


@dataclass(frozen=True, slots=True)
class Doing:
    """One work on one part; `cut_back` where an eye was cut off and made anew."""

    work: Work
    part: str
    end: str
    cut_back: bool = False


def doing(work: Work, part: str, item: Item) -> Doing:
    """Return what a work on a part is recorded as: an end cut back with its eye is re-spliced."""
    one = item.part(part) if part else None
    end = one.end or "" if one else ""
    if work is Work.CUT_BACK and one is not None and one.splice is not SpliceKind.PLAIN_END:
        return Doing(Work.RE_SPLICED, part, end, cut_back=True)
    return Doing(work, part, end, cut_back=work is Work.CUT_BACK)


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
            _what(act, doing(work, parts[0], act.item))
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
            lambda part: _what(act, doing(work, part, act.item)),
            why=capital(say(work.value)),
        )
    )


def part_title(item: Item, part: str) -> str:
    """Name a part with what it is: `End A · buried eye`."""
    if not part:
        return say(WHOLE)
    splice = item.part(part).splice
    return " · ".join(one for one in (capital(part_name(item, part)), say(splice.value) if splice else "") if one)


def _what(act: Act, done: Doing) -> None:
    act.push(
        WordsPage(
            act,
            say("What was done, in a few words?"),
            f"what {done.work}",
            lambda _text: _next(act, done),
            why="\n".join(_follows(done)),
            hint=say("By whom, with what, to which instruction"),
            needed=False,
        )
    )


def _next(act: Act, done: Doing) -> None:
    """Ask what such work has to say beyond its words, then let it be signed."""
    if done.work in (Work.CUT_BACK, Work.RE_SPLICED) and done.end == "A":
        act.push(
            NumberPage(
                act,
                say("How much was cut off at end A?"),
                "cut",
                "length",
                PLACE_UNITS[act.app.preferences.length_unit],
                lambda cut: _sign(act, done, cut=cut),
                why=say("Places along the line are reckoned from there."),
                without=say("Not measured") if done.cut_back else say("Nothing was cut off"),
            )
        )
    elif done.work is Work.REPAIRED:
        act.push(
            NumberPage(
                act,
                say("To what was it proof loaded?"),
                "proof",
                "force",
                UNITS_OF["force"],
                lambda proof: _sign(act, done, proof=proof),
                why=say("A repair without a proof load brings nothing back."),
            )
        )
    elif done.work is Work.RE_TAGGED:
        _known_by(act, done)
    else:
        _sign(act, done)


def _known_by(act: Act, done: Doing) -> None:
    def tag(_known: str) -> None:
        act.said.setdefault("tag", act.item.tag)
        act.push(
            WordsPage(
                act,
                say("What does the tag say now?"),
                "tag",
                lambda _tag: _sign(act, done),
                why=say("As it stands on the tag, as far as the item is called by it."),
            )
        )

    act.push(
        WordsPage(
            act,
            say("What was it known again by?"),
            "known",
            tag,
            why=say("What of its record showed that it is this item: length, splices, stitching, maker's number."),
        )
    )


def _sign(act: Act, done: Doing, cut: Quantity | None = None, proof: Quantity | None = None) -> None:
    what = _in_words(act, done, cut)
    retagged = done.work is Work.RE_TAGGED
    known = clean(act.said["known"]) if retagged else ""
    tag = one_line(act.said["tag"]) if retagged else act.item.tag

    def log(stamp: Stamp) -> object:
        record = WorkDone(
            **stamp,
            part=done.part,
            work=done.work,
            mends=mended_by(done.work),
            what=what,
            cut_from_a=cut,
            proof_load=proof,
            known_by=known,
            pictures=tuple(act.pictures),
        )
        register = act.services.register
        item = register.item(act.item.id)
        if tag != item.tag and retagged:
            register.revise_item(Item(**{**dict(item), "tag": tag}), record.by, record.at, record.utc_offset_minutes)
        return register.log_work(record)

    lines = [
        part_title(act.item, done.part),
        what if what != done.work.value else "",
        say("Cut off at end A: {length}", length=cut.text) if cut else "",
        say("Proof loaded to {force}", force=proof.text) if proof else "",
        say("Known again by: {known}", known=known) if known else "",
        say("The tag now says {tag}", tag=tag) if tag != act.item.tag else "",
    ]

    def new_splice() -> None:
        act.app.stack.push(NewSplicePage(act.services, act.app, act.item.id, done.part))

    act.push(
        SignPage(
            act,
            say("Work done"),
            lambda: [Card(title=capital(say(done.work.value)), lines=lines)],
            [*_follows(done), say(RELEASED_APART) if act.standing.open else ""],
            lambda: act.log(log, new_splice if done.work is Work.RE_SPLICED else None),
        )
    )


def _in_words(act: Act, done: Doing, cut: Quantity | None) -> str:
    """What was done, as the record keeps it: what was typed, or the trade's word for it."""
    typed = one_line(act.said.get(f"what {done.work}", ""))
    what = typed or ("cut back and re-spliced" if done.cut_back and done.work is Work.RE_SPLICED else done.work.value)
    if done.cut_back and done.end == "A" and cut is None:
        what = f"{what[:70]}; what was cut off at end A was not measured"
    return what


def _follows(done: Doing) -> list[str]:
    """What follows from a work, to be read before it is signed."""
    if done.work is Work.CUT_BACK:
        return [say(CUT_KEPT, end=done.end)]
    said = [say(EYE_CUT_OFF)] if done.cut_back else []
    return [*said, say(FOLLOWS[done.work])] if done.work in FOLLOWS else said
