"""Hashes and the chain of seals: each entry of a device is bound to the one before it.

seal = SHA-256(previous seal, then body hash), both as lower-case hexadecimal text; before a device's first
entry stands `GENESIS`. Anyone can recompute it with `sha256sum`.
"""

import hashlib

GENESIS = "first entry of this device"


def sha256(data: bytes) -> str:
    """Return the SHA-256 of some bytes in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def seal(previous: str, body_hash: str) -> str:
    """Return the seal of an entry, from the seal before it (`GENESIS` for a first entry) and its body's hash."""
    return sha256((previous + body_hash).encode())
