"""The register: what is known of every item, only ever added to."""

from app.register.board import Board, Group
from app.register.bodies import Correction, ItemRevised
from app.register.drafts import Draft
from app.register.errors import RegisterError
from app.register.keys import new_id
from app.register.lookups import OpenRow, Point, RuledRow
from app.register.own_packs import OwnPack
from app.register.past import Past
from app.register.people import PinEvent, Tried
from app.register.pictures import KeptOriginal
from app.register.register import Register
from app.register.rounds import PlaceRow, RoundDraft, SignedRound
from app.register.rows import Choices, ItemRow, Only, Stance, Today
from app.register.verify import ChainEnd, Fault

__all__ = [
    "Board",
    "ChainEnd",
    "Choices",
    "Correction",
    "Draft",
    "Fault",
    "Group",
    "ItemRevised",
    "ItemRow",
    "KeptOriginal",
    "Only",
    "OpenRow",
    "OwnPack",
    "Past",
    "PinEvent",
    "PlaceRow",
    "Point",
    "Register",
    "RegisterError",
    "RoundDraft",
    "RuledRow",
    "SignedRound",
    "Stance",
    "Today",
    "Tried",
    "new_id",
]
