"""The report of a signed round: ready or not, what stopped it, every item, who signed, on one page where it fits.

The first page says enough to be read alone: who signed, the seal of the record, and the cautions."""

import re
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from app.reports.saving import check_place, report_folder, save

if TYPE_CHECKING:
    from app.register import Register, SignedRound
    from app.reports.paper import Paper, Paragraph
    from inspection_rules.case import Use
    from inspection_rules.rounds import RoundLine

CAUTIONS = (
    "READY means that nothing on record stopped an item on that day and that each item here was looked at. It does not "
    "replace the maker's instructions, local law or a licensed examiner; where they ask for more, they govern.",
    "It speaks of the moment it was signed: what happens to an item after that is not in it. Look before each use.",
    "What lies ashore or is on loan was not looked at, and is not passed by this round.",
)
NOT_FOR_USE = "NOT FOR THIS USE"
_SIGN, _SMALL, _BESIDE = 16.0, 4.6, 8.0


def usual_place(register: "Register", round_id: str) -> Path:
    """Return where a round's report is kept: in the register's folder `reports`, which is made if need be.

    Raises:
        ReportError: the folder cannot be made.
        RegisterError: there is no such round.
    """
    made = register.round(round_id).made
    folder = report_folder(register.folder)
    place = re.sub(r"[^\w-]+", "-", made.place).strip("-")[:40] or "place"
    short = re.sub(r"[^\w]", "", made.id)[-8:]
    return folder / f"round-{made.on.isoformat()}-{place}-{short}.pdf"


def round_report(register: "Register", out: Path, round_id: str) -> Path:
    """Write the report of a signed round as a PDF and return where it is.

    The same register and round make the same bytes.

    Args:
        out: the file to write; it is replaced as a whole or left as it was.

    Raises:
        ReportError: the file cannot be written there; the message names the remedy.
        RegisterError: there is no such round, or it cannot be read.
    """
    check_place(out)
    save(round_page(register.round(round_id), register.folder.name), out)
    return out


def round_page(signed: "SignedRound", folder: str) -> bytes:
    """Return a signed round as a PDF."""
    # The PDF library takes a while to load: a phone that starts the app should not wait for it.
    from app.reports.paper import MARGIN, WIDTH, Paper, Paragraph

    made, summary = signed.made, signed.summary
    foot = f"Round of {made.place} · {_verdict(signed)} · {folder} · {made.on.isoformat()} · cautions and seal: page 1"
    paper = Paper(f"Round of {made.place}", foot, made.on)
    paper.add_page()
    _head(paper, signed)
    # On the first page, which is the one that is printed alone or looked at alone.
    cautions = [Paragraph(f"{number}.  {text}", 8.5, after=0.5) for number, text in enumerate(CAUTIONS, 1)]
    paper.write_at_bottom([Paragraph("Cautions", 10.5, "semibold", after=0.8), *cautions])
    if summary.stops:
        paper.write_paragraphs([Paragraph("What stops it", 12, "bold", after=1.2)], MARGIN, WIDTH)
        for line in summary.stops:
            _line(paper, signed, line)
        paper.set_y(paper.get_y() + 2)
    paper.write_paragraphs([Paragraph("All items in walking order", 12, "bold", after=1.2)], MARGIN, WIDTH)
    for line in summary.lines:
        _line(paper, signed, line, named_above=line.stops)
    return paper.bytes()


def one_line(signed: "SignedRound") -> str:
    """Return a round's answer in one line, for whoever asked: `NOT READY: 2 of 12 stop it: ML-04, TP-1`."""
    stops, count = signed.summary.stops, len(signed.summary.lines)
    if not stops:
        return f"READY: {count} item{'s' if count != 1 else ''}"
    verb = "stop" if len(stops) > 1 else "stops"
    return f"NOT READY: {len(stops)} of {count} {verb} it: {', '.join(line.tag for line in stops)}"


def _head(paper: "Paper", signed: "SignedRound") -> None:
    from app.figures import sign
    from app.reports.drawing import draw
    from app.reports.paper import FONT, MARGIN, WIDTH, Paragraph
    from app.reports.wording import person

    made, summary = signed.made, signed.summary
    local = made.at + timedelta(minutes=made.utc_offset_minutes)
    begun = made.begun + timedelta(minutes=made.utc_offset_minutes) if made.begun else None
    since = f", begun {begun:%Y-%m-%d %H:%M}" if begun else ""
    title = [Paragraph(f"Round of {made.place}", 16, "bold", after=0.5)]
    if made.purpose:
        title.append(Paragraph(made.purpose, 11, "semibold", after=1))
    paper.write_paragraphs(title, MARGIN, WIDTH)
    paper.bar()
    paper.set_y(paper.get_y() + 3)
    said = [
        Paragraph(_verdict(signed), 26, "bold", after=0.5),
        Paragraph(one_line(signed), 11.5, "semibold", after=0),
    ]
    top = paper.get_y()
    draw(paper, sign(summary.sign), MARGIN, top, _SIGN, FONT)
    paper.write_paragraphs(said, MARGIN + _SIGN + 5, WIDTH - _SIGN - 5)
    paper.set_y(max(paper.get_y(), top + _SIGN) + 3)
    word = Paragraph(_worst(signed), 8.5, after=2)
    paper.write_paragraphs([word], MARGIN, WIDTH)
    regimes = ", ".join(signed.regimes) or "none was chosen: common practice alone"
    about = [
        Paragraph(person(made.by), heading="Signed by", after=0.4),
        Paragraph(f"{local:%Y-%m-%d %H:%M} by the clock there{since}", heading="When", after=0.4),
        Paragraph(made.place, heading="Where", after=0.4),
        Paragraph(regimes, heading="Regimes", after=0.4),
        Paragraph(_use_told(made.use), heading="Use told", after=0.4),
        Paragraph(f"{made.id} of {signed.device}, seal {signed.seal}", heading="Record", after=3),
    ]
    paper.write_paragraphs(about, MARGIN, WIDTH)


def _verdict(signed: "SignedRound") -> str:
    return "READY" if signed.summary.ready else "NOT READY"


def _worst(signed: "SignedRound") -> str:
    """Say in words what the sign beside the answer says."""
    from inspection_rules.rounds import stops_by_use_alone

    summary = signed.summary
    if summary.ready:
        return f"The worst answer of an item here: {summary.sign.value}"
    if all(stops_by_use_alone(signed.made, line) for line in summary.stops):
        return f"What stops it is {NOT_FOR_USE}"
    return f"The worst of what stops it: DO NOT USE: {summary.sign.value}"


def _use_told(use: "Use | None") -> str:
    from app.use_words import NAMES, words_of

    if use is None:
        return "none, so none is judged"
    said = (f"{NAMES[field]}: {', '.join(words_of(use, field))}" for field in use.told)
    return f"{'; '.join(said)}. What is not told is not judged."


def _line(paper: "Paper", signed: "SignedRound", line: "RoundLine", *, named_above: bool = False) -> None:
    """Write an item with its sign; shorter where what stops it stands above already."""
    from app.figures import sign
    from app.reports.drawing import draw
    from app.reports.paper import FONT, MARGIN, WIDTH
    from inspection_rules.rounds import shown_answer

    lines = _said(signed, line, named_above)
    paper.keep(paper.measured(lines, WIDTH - _BESIDE))
    answer = shown_answer(signed.made, line)
    if answer is not None:
        draw(paper, sign(answer), MARGIN, paper.get_y(), _SMALL, FONT)
    paper.write_paragraphs(lines, MARGIN + _BESIDE, WIDTH - _BESIDE)


def _said(signed: "SignedRound", line: "RoundLine", named_above: bool) -> "list[Paragraph]":
    from app.reports.paper import Paragraph
    from app.whereabouts import line_words, plainly
    from inspection_rules.rounds import shown_answer, stops_by_use_alone
    from inspection_rules.words import Answer

    answer, entry = shown_answer(signed.made, line), signed.made.entry(line.item)
    word, sentence = answer.value if answer is not None else "", line.sentence
    if stops_by_use_alone(signed.made, line):  # the item's own answer stands as it is
        word, sentence = NOT_FOR_USE, sentence.removeprefix("Not for this use. ")
    elif answer in (Answer.HOLD, Answer.REMOVE):
        word = f"DO NOT USE: {word}"
    name = " · ".join(one for one in (line.tag, line.description) if one)
    if named_above:
        return [Paragraph(f"{name} · {word or 'stops the round'}, see above", 9, after=1)]
    met = "met here, belongs elsewhere" if line.item not in signed.made.expected else ""
    pieces = line_words(sentence, entry, str, plainly)
    said = " · ".join(one for one in (word, *pieces, met) if one)
    return [Paragraph(f"{name} · {said}", 9, "semibold" if line.stops else "regular", after=1)]
