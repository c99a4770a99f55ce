"""Original files: kept untouched with their photograph or not at all, checked, and added to older files of pictures."""

import hashlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from app.photos import Photo
from app.register import Register, RegisterError

from .making import inspection, judgement, photo

Sql = Callable[..., list[Any]]


def pictured(seed: int, size: int = 4_000) -> Photo:
    """A photograph with its original file."""
    made = photo(seed, size)
    return replace(made, original=made.jpeg[::-1])


def test_an_original_comes_back_byte_for_byte(register: Register) -> None:
    sha = register.keep_photo(pictured(1))
    assert register.original(sha) == pictured(1).original


def test_an_original_is_told_by_its_hash_name_and_size(register: Register) -> None:
    kept = register.kept_original(register.keep_photo(pictured(1)))
    assert kept is not None
    assert kept.sha256 == hashlib.sha256(pictured(1).original or b"").hexdigest()
    assert (kept.source_name, kept.source_format, kept.size) == ("1.jpg", "JPEG", 4_000)


def test_without_its_original_a_photograph_has_none(register: Register) -> None:
    sha = register.keep_photo(photo(1))
    register.keep_photo(pictured(2))
    assert (register.kept_original(sha), register.original(sha)) == (None, None)


def test_the_original_of_a_photograph_kept_before_is_added(register: Register) -> None:
    register.keep_photo(photo(1))
    sha = register.keep_photo(pictured(1))
    register.keep_photo(pictured(1))
    assert register.original(sha) == pictured(1).original
    assert register.verify() == []


def test_another_file_that_gives_the_same_photograph_is_kept_as_its_original(register: Register) -> None:
    first, other = photo(1), b"the same pixels with other remarks"
    register.keep_photo(first)
    register.keep_photo(replace(first, original_sha256=hashlib.sha256(other).hexdigest(), original=other))
    assert register.original(first.sha256) == other


def test_one_original_of_two_photographs_is_stored_once_and_found_from_both(
    register: Register, strangers_sql: Sql
) -> None:
    first = pictured(1)
    placed = photo(2)  # the same file with its place kept
    second = replace(placed, original_sha256=first.original_sha256, original=first.original)
    register.keep_photo(first)
    register.keep_photo(second)
    assert register.original(first.sha256) == register.original(second.sha256) == first.original
    assert strangers_sql("SELECT count(*) FROM original", file="pictures.db") == [(1,)]


def test_pictures_from_before_there_were_originals_are_read_checked_and_added_to(
    register: Register, folder: Path, strangers_sql: Sql
) -> None:
    old = register.keep_photo(photo(1))
    register.close()
    strangers_sql("DROP TABLE original", file="pictures.db")
    with Register.open(folder) as again:
        assert (again.kept_original(old), again.original(old)) == (None, None)
        assert again.verify() == []
        sha = again.keep_photo(pictured(2))
        assert again.original(sha) == pictured(2).original
        assert again.verify() == []
    with pytest.raises(Exception, match="original is insert-only"):
        strangers_sql("DELETE FROM original", file="pictures.db")


@pytest.mark.parametrize("sql", ["DELETE FROM original", "UPDATE original SET file = x'00'"])
def test_an_original_cannot_be_taken_away_or_changed(register: Register, strangers_sql: Sql, sql: str) -> None:
    register.keep_photo(pictured(1))
    with pytest.raises(Exception, match="original is insert-only"):
        strangers_sql(sql, file="pictures.db")


def test_a_changed_original_is_named_with_its_record(register: Register, unguarded_sql: Sql) -> None:
    kept = pictured(1)
    register.log_inspection(inspection("n1", 1, pictures=(kept.sha256,)), judgement(1), [kept])
    unguarded_sql("UPDATE original SET file = x'00'", file="pictures.db")
    (fault,) = register.verify()
    assert (fault.record_id, fault.kind) == ("n1", "original")
    assert kept.sha256 in fault.sentence


def test_a_changed_original_is_not_given_out(register: Register, unguarded_sql: Sql) -> None:
    sha = register.keep_photo(pictured(1))
    unguarded_sql("UPDATE original SET file = 12", file="pictures.db")
    with pytest.raises(RegisterError, match=r"was changed after it was stored\. It was not given out"):
        register.original(sha)


def test_where_the_disk_is_full_neither_photograph_nor_original_is_kept(register: Register) -> None:
    with register._pictures.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        connection.exec_driver_sql(f"PRAGMA max_page_count={pages + 12}")
    large = pictured(1, 300_000)
    with pytest.raises(RegisterError, match=r"the disk is full\. Nothing of this entry was kept"):
        register.keep_photo(large)
    assert not register.has_picture(large.sha256)
    assert register.verify() == []
