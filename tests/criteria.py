"""Print each published criterion with its rules and its tests; fail where a criterion has a rule and no test.

    python tests/criteria.py

Tests say which criterion they check with `@pytest.mark.criterion("<id>")`. They are collected, not run.
"""

import sys
from collections import Counter
from pathlib import Path

import pytest

from inspection_rules.book import shipped
from inspection_rules.coverage import coverage

HERE = Path(__file__).parent


class Collected:
    """Counts the tests that carry each criterion's marker, as pytest collects them."""

    def __init__(self) -> None:
        self.tests: Counter[str] = Counter()

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        for item in session.items:
            self.tests.update({str(mark.args[0]) for mark in item.iter_markers("criterion")})


def main() -> int:
    collected = Collected()
    places = [str(HERE / "inspection_rules"), str(HERE / "outside")]
    code = pytest.main(["--collect-only", "-qq", "--no-summary", "-c", str(HERE.parent / "pyproject.toml"), *places],
                       plugins=[collected])  # fmt: skip
    if code != pytest.ExitCode.OK:
        return int(code)
    found = coverage(shipped())
    unknown = set(collected.tests) - {one.criterion.id for one in found}
    untested = [one.criterion.id for one in found if one.rules and not collected.tests[one.criterion.id]]
    for one in found:
        rules = f"{len(one.rules)} rules" if one.rules else "left out"
        sys.stdout.write(f"{one.criterion.id:<28}{rules:<12}{collected.tests[one.criterion.id]:>4} tests\n")
    for name in sorted(unknown):
        sys.stdout.write(f"A test is marked with '{name}', which is no criterion.\n")
    for name in untested:
        sys.stdout.write(f"Criterion '{name}' has a rule and no test.\n")
    return int(bool(unknown or untested))


if __name__ == "__main__":
    raise SystemExit(main())
