"""A judgement in plain text, as a person reads it on a terminal."""

from datetime import date

from inspection_rules.case import Case
from inspection_rules.judgement import Judgement, Ruling
from inspection_rules.words import Answer, Door, Scope


def account(case: Case, judgement: Judgement) -> str:
    """Return a judgement as a person reads it, worst first."""
    item = case.item
    lines = [f"{item.tag}  {item.description}".rstrip()]
    own = heading(judgement.answer, judgement.door, judgement.next_due)
    if judgement.not_for_this_use:
        lines += ["NOT FOR THIS USE: another rig is needed.", f"The item itself: {own}"]
    else:
        lines.append(own)
    shown = [r for r in judgement.rulings if r.answer is not Answer.SERVICEABLE]
    for ruling in (*shown, *judgement.not_for_this_use, *judgement.for_this_use):
        lines += ["", *_reason(ruling)]
    sound = len(judgement.rulings) - len(shown)
    if sound:
        lines += ["", f"{sound} more rulings: serviceable."]
    lines += [f"Note: {note}" for note in judgement.advisories]
    written = [entry for entry in case.inspection.entries if entry.note]
    lines += [f"Written at {where(entry.part)}{entry.observation}: {entry.note}" for entry in written]
    lines += [f"Written: {case.inspection.note}"] if case.inspection.note else []
    lines += ["", "Rules: " + ", ".join(f"{pack.id} {pack.version}" for pack in judgement.packs)]
    return "\n".join(lines)


def heading(answer: Answer, door: Door | None, due: date | None) -> str:
    """Return an answer with what to do, in one line."""
    if answer is Answer.REMOVE:
        return "DO NOT USE · remove: out of service now"
    if answer is Answer.HOLD:
        look = door is Door.LOOK_AGAIN
        doing = "make the missing or doubtful observation" if look else "have a competent person examine the cause"
        return f"DO NOT USE · hold, {door}: {doing}"
    by = f" by {due}" if due else ""
    if answer is Answer.WATCH:
        return f"watch: use it, look again{by}"
    return f"serviceable: use it; next inspection{by}"


def where(part: str) -> str:
    """Return a part as the beginning of a sentence: nothing for the item, `end A: ` for a termination."""
    return {"": "", "body": "body: "}.get(part, f"end {part}: ")


def _reason(ruling: Ruling) -> list[str]:
    word = str(ruling.answer)
    if ruling.scope is Scope.USE:
        word = "for this use" if ruling.answer is Answer.SERVICEABLE else "not for this use"
    lines = [f"  {word:<18}{where(ruling.part)}{ruling.title}", f"                          {ruling.sentence}"]
    if ruling.action:
        lines.append(f"                          {ruling.action}")
    if ruling.u is not None and ruling.u_source:
        lines.append(f"                          uncertainty: {ruling.u_source}")
    lines.append(f"                          {ruling.source}")
    return lines
