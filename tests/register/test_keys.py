"""New ids are UUIDs of version 7."""

import time
import uuid

from app.register import new_id


def test_an_id_has_the_version_variant_and_time_of_rfc_9562() -> None:
    before = time.time_ns() // 1_000_000
    made = uuid.UUID(new_id())
    after = time.time_ns() // 1_000_000
    # RFC 9562, 5.7: 48 bits of milliseconds since 1970, version 7, variant 10.
    assert (made.version, made.variant) == (7, uuid.RFC_4122)
    assert before <= made.int >> 80 <= after


def test_ids_are_never_the_same() -> None:
    assert len({new_id() for _ in range(10_000)}) == 10_000
