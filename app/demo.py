"""The demo register: the main job done once, on invented items, without a screen.

Registers the harbour's items, goes through two years of inspections and today's round with its pictures,
judges every one of them, writes the retirement report, and tells in plain words what was decided and why.
"""

import shutil
from collections import Counter
from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from random import Random

from app.account import heading, where
from app.device.abilities import Unavailable
from app.device.folders import data_folder
from app.harbour import PEOPLE, SEED, SPLICER, Clock, Visit, stories
from app.harbour.sound import sound_values
from app.photos import Photo, intake
from app.photos.render import render_scene
from app.register import Register, RegisterError
from app.reports import retirement_report
from inspection_rules.book import RuleBook, shipped
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.record import Finding, Inspection, Reading
from inspection_rules.walk import Step, walk
from inspection_rules.words import Answer, Moisture, Seen, Tension

REGIMES = ("Mooring", "Tree work", "US fall protection", "US lifting")
MARK = "this-is-the-demo.txt"
DEVICE = "demo"
REPORT = "retirement.pdf"
TITLE = "Retirement report · DEMO, all data invented"

Say = Callable[[str], None]


def demo(folder: Path | None, say: Say, today: date | None = None) -> Path:
    """Make the demo register if it is not there yet, tell what was decided, and return its folder.

    Args:
        folder: where; without one, `demo` in the person's data folder.
        say: takes each line of the account.
        today: the local date of the round; the day's own without it.

    Raises:
        RegisterError: the folder holds a register that is not a demo, or cannot be written.
    """
    home = folder or _default_folder()
    if (home / "register.db").exists():
        if not (home / MARK).exists():
            raise RegisterError(
                f"{home}: there is a register here already, and it is not a demo. It was not touched. "
                f"Name another folder with --register."
            )
        say(f"The demo register is in {home} already; what was decided in it stands.")
    else:
        say(f"Making the demo register in {home}: invented items, invented readings.")
        _make(home, today or date.today())
    with Register.open(home, DEVICE) as register:
        if not (home / REPORT).exists():
            retirement_report(register, home / REPORT, today or date.today(), title=TITLE)
        _tell(register, home, today or date.today(), say)
    return home


def _default_folder() -> Path:
    folder = data_folder()
    if isinstance(folder, Unavailable):
        raise RegisterError(f"{folder.reason} Or name a folder with --register.")
    return folder / "demo"


def _make(home: Path, today: date) -> None:
    """Build beside the final place and move there: a demo cut short leaves nothing that looks whole."""
    part = home.with_name(home.name + ".part")
    try:
        shutil.rmtree(part, ignore_errors=True)
        part.mkdir(parents=True)
        with Register.create(part, DEVICE) as register:
            _fill(register, today)
        (part / MARK).write_text(f"Everything in this register is invented. Its round is of {today}.\n")
        if home.exists():
            home.rmdir()
        part.rename(home)
    except OSError as error:
        raise RegisterError(
            f"{home}: the demo cannot be made here ({error.strerror}). Name an empty or new folder with --register."
        ) from error


def _fill(register: Register, today: date) -> None:
    book = shipped()
    register.set_regimes(REGIMES)
    register.set_people(PEOPLE)
    rng = Random(SEED)
    clock = Clock(rng)
    told = list(stories(today))
    for story in told:
        register.add_item(story.item, SPLICER, clock.at(story.visits[0].on))
    for story in told:
        for visit in story.visits[:-1]:
            _log(register, book, story.item, visit, clock, rng)
    for story in told:
        _log(register, book, story.item, story.visits[-1], clock, rng)


def _log(register: Register, book: RuleBook, item: Item, visit: Visit, clock: Clock, rng: Random) -> None:
    at = clock.at(visit.on)
    photos = {key: _photo(scene, rng, at, key) for key, scene in visit.scenes.items()}
    inspection = inspect(item, visit, clock, rng, book, at, {key: photo.sha256 for key, photo in photos.items()})
    judgement = judge(register.case(inspection, on=visit.on), book)
    register.log_inspection(inspection, judgement, tuple(photos.values()))


def inspect(
    item: Item,
    visit: Visit,
    clock: Clock,
    rng: Random,
    book: RuleBook,
    at: datetime,
    pictures: dict[tuple[str, str], str],
) -> Inspection:
    """Walk the rope as the story tells: what it does not mention is sound."""
    readings, findings = [], []
    for step in _steps(item, visit, book):
        observation, key = step.observation, step.key
        taken = (pictures[key],) if key in pictures else ()
        head = {"observation": observation.id, "part": step.part, "pictures": taken}
        if observation.kind == "reading":
            values = visit.readings.get(key) or sound_values(item, observation, rng)
            state = {"tension": Tension.HAND_TAUT, "moisture": Moisture.DRY} if observation.state else {}
            read = {**head, **state, "values": values, "method": observation.methods[0]}
            readings.append(Reading.model_validate(read))
        elif key in visit.not_examined:
            reason = visit.not_examined[key]
            findings.append(Finding.model_validate({**head, "seen": Seen.NOT_EXAMINED, "reason": reason}))
        elif key in visit.seen:
            seen = {"seen": Seen.PRESENT, "conditions": (visit.seen[key],)}
            findings.append(Finding.model_validate({**head, **seen}))
        else:
            findings.append(Finding.model_validate({**head, "seen": Seen.ABSENT}))
    return Inspection(
        id=clock.new_id(visit.on),
        item=item.id,
        kind=visit.kind,
        at=at,
        by=visit.by,
        readings=tuple(readings),
        findings=tuple(findings),
    )


def _steps(item: Item, visit: Visit, book: RuleBook) -> tuple[Step, ...]:
    """What is needed, and what the story read beyond that."""
    needed = walk(item, visit.kind, REGIMES, book)
    had = {step.key for step in needed}
    more = tuple(Step(part, book.observations[name]) for part, name in visit.readings if (part, name) not in had)
    return (*needed, *more)


def _photo(scene: object, rng: Random, at: datetime, key: tuple[str, str]) -> Photo:
    name = "-".join(part for part in key if part) + ".jpg"
    return intake(render_scene(scene, rng.getrandbits(32), at.replace(tzinfo=None)), name)  # type: ignore[arg-type]


def _tell(register: Register, home: Path, today: date, say: Say) -> None:
    """The short account: how many of each answer, and every item that is not simply serviceable."""
    rows = register.find(limit=1000, on=today)
    counts = Counter(row.answer for row in rows)
    inspections = sum(len(register.judged(row.id)) for row in rows)
    say("")
    say(f"{len(rows)} items, {inspections} inspections. " + ", ".join(f"{counts[a]} {a}" for a in Answer) + ".")
    for answer in reversed(Answer):
        for row in rows:
            if row.answer is not answer or answer is Answer.SERVICEABLE:
                continue
            say("")
            say(f"{row.tag}  {row.description}")
            say(f"    {heading(row.answer, row.door, row.next_due)}")
            for line in _why(register, row.id, row.answer, today):
                say(f"    {line}")
    say("")
    say(f"Register  {home / 'register.db'}")
    say(f"Report    {home / REPORT}")
    say("It helps a trained person. The maker's instructions, local law and a licensed examiner come first.")


def _why(register: Register, item_id: str, answer: Answer, today: date) -> list[str]:
    """What stops the item, whenever it was seen; for a watch, what the latest inspection watches."""
    standing = register.standing(item_id, today)
    rulings = [one.ruling for one in standing.open]
    if answer is Answer.WATCH:
        rulings = list(register.judged(item_id)[-1].judgement.rulings)
    shown: dict[str, str] = {}
    for ruling in rulings:
        if ruling.answer is answer:
            shown.setdefault(f"{where(ruling.part)}{ruling.title}: {ruling.sentence}", str(ruling.source))
    return [line for sentence, source in shown.items() for line in (sentence, f"    [{source}]")]
