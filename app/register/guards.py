"""Triggers that keep the log and the pictures insert-only, whoever opens the file.

`INSERT OR REPLACE` deletes the old row without firing a DELETE trigger unless the connection sets
recursive_triggers, which a stranger's does not; so the INSERT trigger refuses every key that is known,
the hidden rowid among them.
"""

INSERT_ONLY = {
    "record": "id = NEW.id OR (device = NEW.device AND seq = NEW.seq)",
    "pack_text": "sha256 = NEW.sha256",
    "picture": "sha256 = NEW.sha256",
    "thumbnail": "picture = NEW.picture",
    "original": "sha256 = NEW.sha256",
}


def guards(table: str) -> dict[str, str]:
    """Return the statements that create a table's triggers, by trigger name."""
    known = f"{INSERT_ONLY[table]} OR rowid = NEW.rowid"
    refuse = f"SELECT RAISE(ABORT, '{table} is insert-only')"
    statements = {
        "update": f"BEFORE UPDATE ON {table} BEGIN {refuse}; END",
        "delete": f"BEFORE DELETE ON {table} BEGIN {refuse}; END",
        "insert": f"BEFORE INSERT ON {table} WHEN EXISTS (SELECT 1 FROM {table} WHERE {known}) BEGIN {refuse}; END",
    }
    return {f"{table}_no_{what}": f"CREATE TRIGGER {table}_no_{what} {rest}" for what, rest in statements.items()}
