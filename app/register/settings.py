"""What is set for this folder and is no record: regimes, site, people, the device, the projection's version."""

import json

from pydantic import TypeAdapter
from sqlalchemy import Connection, delete, insert, select

from app.register.tables import table
from inspection_rules.case import Site
from inspection_rules.fields import Name
from inspection_rules.record import Person

DEVICE, PROJECTION, REGIMES, SITE, PEOPLE = "device", "projection version", "regimes", "site", "people"

AS_REGIMES: TypeAdapter[tuple[Name, ...]] = TypeAdapter(tuple[Name, ...])
AS_PEOPLE: TypeAdapter[list[Person]] = TypeAdapter(list[Person])
AS_SITE: TypeAdapter[Site] = TypeAdapter(Site)


def get(connection: Connection, key: str) -> object:
    """Return a setting's JSON value; None when it was never set."""
    setting = table("setting").c
    value = connection.scalar(select(setting.value).where(setting.key == key))
    return None if value is None else json.loads(value)


def put(connection: Connection, key: str, value: object) -> None:
    """Set a setting, in the caller's transaction."""
    setting = table("setting")
    connection.execute(delete(setting).where(setting.c.key == key))
    connection.execute(insert(setting), {"key": key, "value": json.dumps(value, ensure_ascii=False)})
