"""Time the register against bare sqlite3 in one run: `python tests/benchmarks/bench_register.py`.

Logging: one inspection with four photographs, given its judgement, against sqlite3 writing the same bytes into
two files with the same durability. The two take turns, so that both meet the same disk.
Finding: how the time grows from a thousand to ten thousand items.
"""

import hashlib
import random
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path

from app.photos import Photo
from app.register import Register, log, projections
from app.register.bodies import Inspected, ItemRevised, write
from inspection_rules.book import shipped
from inspection_rules.case import Case
from inspection_rules.item import Item, Part
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement
from inspection_rules.record import Inspection, Person, Reading
from inspection_rules.standing import Judged
from inspection_rules.words import (
    Answer,
    Competence,
    Construction,
    Duty,
    Fibre,
    InspectionKind,
    ItemKind,
    Method,
    Moisture,
    PartKind,
    SpliceKind,
    Tension,
)

EXAMINER = Person(name="yard examiner", competence=Competence.COMPETENT_PERSON)
START = datetime(2050, 3, 1, 8, 0, tzinfo=UTC)
PHOTO_BYTES, THUMBNAIL_BYTES = 450_000, 18_000
ITEMS, EARLIER, ROUNDS = 12, 12, 60
RNG = random.Random(20500301)


def pendant(item_id: str, tag: str, description: str = "towing pendant", place: str = "Sandpiper") -> Item:
    """An item with a buried eye at each end."""
    ends = [Part(id=end, kind=PartKind.TERMINATION, end=end, splice=SpliceKind.BURIED_EYE) for end in "AB"]
    return Item(
        id=item_id, tag=tag, description=description, place=place, kind=ItemKind.LINE, duty=Duty.TOWING,
        fibre=Fibre.HMPE, construction=Construction.HOLLOW_BRAID_12, diameter="24 mm",
        parts=(*ends, Part(id="body", kind=PartKind.BODY)),
    )  # fmt: skip


def photograph() -> Photo:
    """A photograph of a usual size as taken in."""
    jpeg, small = RNG.randbytes(PHOTO_BYTES), RNG.randbytes(THUMBNAIL_BYTES)
    return Photo(
        sha256=hashlib.sha256(jpeg).hexdigest(), original_sha256="0" * 64, jpeg=jpeg, thumbnail=small, width=2016,
        height=1512, taken_at=None, place=None, source_name="eye.jpg", source_format="JPEG",
    )  # fmt: skip


def inspection(number: int, pictures: tuple[str, ...]) -> Inspection:
    """A periodic examination with readings on both splices."""
    readings = tuple(
        Reading(
            observation=name,
            part=part,
            values=("240 mm", "240.5 mm", "239 mm"),
            method=Method.STEEL_RULE,
            tension=Tension.HAND_TAUT,
            moisture=Moisture.DRY,
        )
        for part in "AB"
        for name in ("mark_tail", "mark_standing")
    )
    return Inspection(
        id=f"n{number}", item=f"i{number % ITEMS}", at=START + timedelta(days=30 * (number // ITEMS)), by=EXAMINER,
        kind=InspectionKind.PERIODIC, readings=readings, pictures=pictures,
    )  # fmt: skip


def sound(judgement: Judgement) -> Judgement:
    """The same judgement of a sound item: as many rulings, nothing open."""
    rulings = [one.model_copy(update={"answer": Answer.SERVICEABLE, "door": None}) for one in judgement.rulings]
    return judgement.model_copy(update={"answer": Answer.SERVICEABLE, "door": None, "rulings": tuple(rulings)})


class Bare:
    """sqlite3 with two files, the same durability, the same page sizes, and nothing else."""

    def __init__(self, folder: Path) -> None:
        self.records = self._open(folder / "records.db", 4096)
        self.pictures = self._open(folder / "blobs.db", 16384)
        self.records.execute("CREATE TABLE record (id TEXT PRIMARY KEY, body TEXT)")
        self.pictures.execute("CREATE TABLE picture (id TEXT PRIMARY KEY, jpeg BLOB)")
        self.pictures.execute("CREATE TABLE thumbnail (id TEXT PRIMARY KEY, jpeg BLOB)")

    @staticmethod
    def _open(path: Path, page: int) -> sqlite3.Connection:
        connection = sqlite3.connect(path, isolation_level=None)
        for pragma in (f"page_size={page}", "journal_mode=WAL", "synchronous=FULL"):
            connection.execute(f"PRAGMA {pragma}").close()
        return connection

    def log(self, record_id: str, body: str, photos: list[Photo]) -> None:
        """Write the same bytes: pictures first, then the body."""
        self.pictures.execute("BEGIN IMMEDIATE")
        for one in photos:
            self.pictures.execute("INSERT INTO picture VALUES (?, ?)", (one.sha256, one.jpeg))
            self.pictures.execute("INSERT INTO thumbnail VALUES (?, ?)", (one.sha256, one.thumbnail))
        self.pictures.execute("COMMIT")
        self.records.execute("BEGIN IMMEDIATE")
        self.records.execute("INSERT INTO record VALUES (?, ?)", (record_id, body))
        self.records.execute("COMMIT")

    def close(self) -> None:
        """Close both files."""
        self.records.close()
        self.pictures.close()


def timed(work: Callable[[], object]) -> float:
    """Milliseconds a call takes."""
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def bench_logging(folder: Path) -> None:
    """Print what one logging costs here and on the floor."""
    ours: list[float] = []
    floor: list[float] = []
    body = ""
    with Register.create(folder / "register", "bench") as register, closing(Bare(folder)) as bare:
        for number in range(ITEMS):
            register.add_item(pendant(f"i{number}", f"SP-{number}"), EXAMINER, START)
        case = Case(on=START.date(), item=pendant("i0", "SP-0"), inspection=inspection(0, ()))
        # One judgement for all of them: judging is not what is measured here.
        judgement = sound(judge(case, shipped())).model_copy(update={"inspection_sha256": ""})
        for number in range(ITEMS * EARLIER):
            register.log_inspection(inspection(number, ()), judgement)
        for number in range(ITEMS * EARLIER, ITEMS * EARLIER + ROUNDS):
            photos = [photograph() for _ in range(4)]
            seen = inspection(number, tuple(one.sha256 for one in photos))
            body = write(Inspected(device="bench", judged=Judged(inspection=seen, judgement=judgement)))
            turns = [
                (ours, lambda seen=seen, photos=photos: register.log_inspection(seen, judgement, photos)),
                (floor, lambda seen=seen, body=body, photos=photos: bare.log(seen.id, body, photos)),
            ]
            for times, work in turns if number % 2 else reversed(turns):
                times.append(timed(work))
    mine, bottom = statistics.median(ours), statistics.median(floor)
    sys.stdout.write(
        f"log an inspection, 4 x {PHOTO_BYTES // 1000} kB photographs, body {len(body) / 1000:.0f} kB, {EARLIER} to "
        f"{EARLIER + ROUNDS // ITEMS} earlier ones of the item: {mine:.2f} ms; bare sqlite3 {bottom:.2f} ms; "
        f"ratio {mine / bottom:.2f} (goal 1.3)\n"
    )


def fill(register: Register, first: int, last: int) -> None:
    """Enter items in one go; how they are entered is not what is timed."""
    words = ["mooring", "tail", "pendant", "stern", "breast", "spring", "sling", "lanyard", "spare"]
    with register._engine.begin() as connection:
        for number in range(first, last):
            item = pendant(f"i{number}", f"SP-{number}", f"{RNG.choice(words)} {RNG.choice(words)} {number * 7919}")
            body = ItemRevised(id=f"r{number}", at=START, by=EXAMINER, device="bench", item=item)
            log.append(connection, body, {})
            projections.refresh(connection, item.id, {})


def bench_finding(folder: Path, sizes: tuple[int, ...]) -> None:
    """Print how finding grows with the register."""
    asks = ("", "sp", "sandpiper", "tail", "sp-77", "stern spare", "5543")
    seen: dict[str, list[float]] = {ask: [] for ask in asks}
    with Register.create(folder / "many", "bench") as register:
        before = 0
        for size in sizes:
            fill(register, before, size)
            before = size
            for ask in asks:
                times = [timed(lambda ask=ask: register.find(ask, limit=50)) for _ in range(15)]
                seen[ask].append(statistics.median(times))
    sys.stdout.write(f"find, first 50 rows, at {' / '.join(map(str, sizes))} items (growth for each tenfold):\n")
    for ask, times in seen.items():
        growth = [f"{late / early:.1f}" for early, late in pairwise(times)]
        sys.stdout.write(f"  {ask!r}: {' / '.join(f'{one:.2f}' for one in times)} ms, x {', '.join(growth)}\n")


def main() -> None:
    """Run both; a third size may be named: `bench_register.py 100000`."""
    sizes = (1_000, 10_000, *map(int, sys.argv[1:]))
    with tempfile.TemporaryDirectory() as folder:
        bench_logging(Path(folder))
        bench_finding(Path(folder), sizes)


if __name__ == "__main__":
    main()
