"""What cannot be read is said, with what was kept and what to do."""

import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from app.register import Draft, Register, RegisterError
from app.register.errors import told

from .making import inspection, on

Sql = Callable[..., list[Any]]


def test_a_setting_that_cannot_be_read_is_named(register: Register, strangers_sql: Sql) -> None:
    strangers_sql("""INSERT INTO setting VALUES ('site', '{"colour": "red"}')""")
    with pytest.raises(RegisterError, match=r"the setting 'site' cannot be read.*All records were kept. Set it again"):
        register.case(inspection("n1"), on=on(0))


def test_a_draft_that_cannot_be_read_is_named_and_may_be_discarded(register: Register, strangers_sql: Sql) -> None:
    register.save_draft(Draft(inspection("n1"), ("A", "mark_tail")))
    strangers_sql("UPDATE draft SET body = replace(body, '\"version\":1', '\"version\":2')")
    with pytest.raises(RegisterError, match=r"unfinished inspection n1 of item pendant.*It was kept"):
        register.drafts()
    register.discard_draft("n1")
    assert register.drafts() == []


def test_what_sqlite_has_no_name_for_is_passed_on() -> None:
    error = told(sqlite3.OperationalError("no such thing"), Path("yard"))
    assert str(error) == "yard: the register could not be read or written (no such thing). This entry was not kept."
