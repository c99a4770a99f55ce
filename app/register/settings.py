"""What is set for this folder and is no record: regimes, site, people, the device, the projection's version."""

import json
from typing import TypeVar

from pydantic import TypeAdapter, ValidationError
from sqlalchemy import Connection, delete, insert, select

from app.register.errors import RegisterError
from app.register.tables import table
from inspection_rules.case import Site
from inspection_rules.fields import Name
from inspection_rules.record import Person

DEVICE, PROJECTION, REGIMES, SITE, PEOPLE = "device", "projection version", "regimes", "site", "people"
WALKING_ORDER = "walking order of "  # and the place

T = TypeVar("T")
_REGIMES: TypeAdapter[tuple[Name, ...]] = TypeAdapter(tuple[Name, ...])
_PEOPLE: TypeAdapter[list[Person]] = TypeAdapter(list[Person])
_ORDER: TypeAdapter[tuple[Name, ...]] = TypeAdapter(tuple[Name, ...])
_SITE: TypeAdapter[Site] = TypeAdapter(Site)


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


def regimes(connection: Connection) -> tuple[str, ...]:
    """Return the regimes chosen; none before anyone chose."""
    return checked(_REGIMES, get(connection, REGIMES) or (), REGIMES)


def site(connection: Connection) -> Site:
    """Return what the organisation has set for itself; nothing before anyone did."""
    return checked(_SITE, get(connection, SITE) or {}, SITE)


def people(connection: Connection) -> list[Person]:
    """Return who inspects; nobody before anyone was entered."""
    return checked(_PEOPLE, get(connection, PEOPLE) or [], PEOPLE)


def walking_order(connection: Connection, place: str) -> tuple[str, ...]:
    """Return the ids of a place's items in the order a person set; nothing before anyone did."""
    key = WALKING_ORDER + place
    return checked(_ORDER, get(connection, key) or (), key)


def checked(adapter: TypeAdapter[T], value: object, key: str) -> T:
    """Return a setting as what it stands for.

    Raises:
        RegisterError: it cannot be read.
    """
    try:
        return adapter.validate_python(value)
    except ValidationError as error:
        raise RegisterError(
            f"the setting '{key}' cannot be read ({error.errors()[0]['msg']}). All records were kept. Set it again."
        ) from None
