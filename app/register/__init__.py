"""The register: what is known of every item, only ever added to."""

from app.register.bodies import Correction, ItemRevised
from app.register.drafts import Draft
from app.register.errors import RegisterError
from app.register.keys import new_id
from app.register.lookups import OpenRow, Point, RuledRow
from app.register.past import Past
from app.register.register import Register
from app.register.rows import ItemRow, Today
from app.register.verify import ChainEnd, Fault

__all__ = [
    "ChainEnd",
    "Correction",
    "Draft",
    "Fault",
    "ItemRevised",
    "ItemRow",
    "OpenRow",
    "Past",
    "Point",
    "Register",
    "RegisterError",
    "RuledRow",
    "Today",
    "new_id",
]
