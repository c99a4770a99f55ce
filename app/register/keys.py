"""Keys that two devices never make twice and that sort by the time they were made."""

import secrets
import time
import uuid


def new_id() -> str:
    """Return a UUID version 7 (RFC 9562) as text: the key for any new record or item."""
    milliseconds = time.time_ns() // 1_000_000
    value = (milliseconds & (1 << 48) - 1) << 80 | 7 << 76 | secrets.randbits(12) << 64
    return str(uuid.UUID(int=value | 0b10 << 62 | secrets.randbits(62)))
