"""A process that writes into a register: run as a program, it forks one writer for each line it is sent.

For each line `FOLDER SEED` a child opens the register and logs inspections with four pictures each until it is
killed, one line on stdout for every answer the register has given; when the child is gone, `gone` is printed.
"""

import os
import sys
from itertools import count
from pathlib import Path

from making import inspection, judgement, photo, ruling

from app.register import Draft, Register
from inspection_rules.words import Answer


def say(line: str) -> None:
    """Print a line at once."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def write(folder: Path, seed: str, most: int | None = None) -> None:
    """Log inspections; say each id once the register has returned."""
    with Register.open(folder, f"device {seed}") as register:
        for number in count() if most is None else range(most):
            record_id = f"{seed}-{number}"
            photos = [photo(hash((seed, number, one)), 60_000) for one in range(4)]
            first = register.keep_photo(photos[0])
            named = tuple(one.sha256 for one in photos)
            seen = inspection(record_id, number % 300, item=f"item {number % 7}", pictures=named)
            register.save_draft(Draft(seen, ("A", "mark_tail"), (first,)))
            say(f"draft {record_id}")
            register.log_inspection(seen, judgement(number % 300, ruling(Answer.WATCH)), photos)
            say(f"logged {record_id}")


def main() -> None:
    """Fork a writer for each line."""
    for line in sys.stdin:
        folder, _, seed = line.strip().rpartition(" ")
        child = os.fork()
        if not child:
            write(Path(folder), seed)
        say(f"pid {child}")
        os.waitpid(child, 0)
        say("gone")


if __name__ == "__main__":
    main()
