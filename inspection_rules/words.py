"""The trade's words: the closed lists that records, rules, screens and reports share.

The values are what is stored and shown; nothing else in the program spells these words again.
"""

from enum import StrEnum


class ItemKind(StrEnum):
    """What is tagged."""

    LINE = "line"
    ROPE_SLING = "rope sling"
    GROMMET = "grommet"
    WEB_SLING = "web sling"
    ROUNDSLING = "roundsling"
    LANYARD = "lanyard"
    CONNECTOR = "connector"


class Duty(StrEnum):
    """What the item does."""

    LIFTING = "lifting"
    LIFE_SUPPORT = "life support"
    TREE_RIGGING = "tree rigging"
    MOORING = "mooring"
    TOWING = "towing"


class Fibre(StrEnum):
    """Generic fibre names."""

    HMPE = "HMPE"
    ARAMID = "aramid"
    LCP = "LCP"
    POLYESTER = "polyester"
    NYLON = "nylon"
    POLYPROPYLENE = "polypropylene"
    MANILA = "manila"
    SISAL = "sisal"
    HEMP = "hemp"


class Construction(StrEnum):
    """How the rope is made."""

    LAID_3 = "laid, three-strand"
    LAID_4 = "laid, four-strand"
    PLAITED_8 = "plaited, eight-strand"
    HOLLOW_BRAID_8 = "hollow braid, eight-strand"
    HOLLOW_BRAID_12 = "hollow braid, twelve-strand"
    DOUBLE_BRAID = "double braid"
    KERNMANTLE = "kernmantle"
    PARALLEL_CORE = "parallel core"


class SpliceKind(StrEnum):
    """How a termination is made."""

    BURIED_EYE = "buried eye"
    TUCK_AND_BURY_EYE = "tuck-and-bury eye"
    LOCKED_EYE = "locked eye"
    TUCKED_EYE = "tucked eye"
    TUCKED_SHORT_SPLICE = "tucked short splice"
    DOUBLE_BRAID_EYE = "double-braid eye"
    END_TO_END = "end-to-end splice"
    SEWN_EYE = "sewn eye"


class PartKind(StrEnum):
    """What is inspected on an item."""

    TERMINATION = "termination"
    BODY = "body"
    FITTING = "fitting"


class Thimble(StrEnum):
    """What lies in the eye."""

    NONE = "none"
    REMOVABLE = "removable"
    CAPTIVE = "captive"


class Service(StrEnum):
    """How hard the service is."""

    NORMAL = "normal"
    SEVERE = "severe"
    SPECIAL = "special"


class InspectionKind(StrEnum):
    """Why an inspection is made."""

    AS_MADE = "as made"
    BEDDED_IN = "bedded in"
    AS_FOUND = "as found"
    BEFORE_USE = "before use"
    PERIODIC = "periodic"
    AFTER_INCIDENT = "after an incident"


BASELINE_KINDS = frozenset({InspectionKind.AS_MADE, InspectionKind.BEDDED_IN, InspectionKind.AS_FOUND})


class Competence(StrEnum):
    """Who inspects, as the regime defines it; in rising order."""

    USER = "user"
    DESIGNATED_PERSON = "designated person"
    COMPETENT_PERSON = "competent person"
    QUALIFIED_PERSON = "qualified person"


COMPETENT = frozenset({Competence.COMPETENT_PERSON, Competence.QUALIFIED_PERSON})


class Method(StrEnum):
    """How a reading was taken."""

    STEEL_RULE = "steel rule"
    TAPE = "tape"
    LAID_OUT_TAPE = "tape on the laid-out tail"
    GIRTH_TAPE = "girth tape"
    CALIPER = "caliper"
    FELT = "felt by hand"
    COUNTED = "counted"
    BY_EYE = "by eye"
    PHOTOGRAPH = "photograph"


class Tension(StrEnum):
    """The tension state a reading was taken in."""

    SLACK = "slack"
    HAND_TAUT = "hand-taut"
    BODY_WEIGHT = "body weight hung"
    REFERENCE = "reference tension"
    IN_PLACE = "in place"


class Moisture(StrEnum):
    """The moisture state a reading was taken in."""

    DRY = "dry"
    WET = "wet"
    FROZEN = "frozen"


class Seen(StrEnum):
    """The answer to a condition question."""

    ABSENT = "absent"
    PRESENT = "present"
    HIDDEN = "hidden by design"
    NOT_EXAMINED = "could not be examined"


class Answer(StrEnum):
    """The four answers, from best to worst."""

    SERVICEABLE = "serviceable"
    WATCH = "watch"
    HOLD = "hold"
    REMOVE = "remove"

    @property
    def severity(self) -> int:
        """0 for serviceable up to 3 for remove; the worst of several is the largest."""
        return list(Answer).index(self)


class Door(StrEnum):
    """How a hold is left."""

    LOOK_AGAIN = "look again"
    REFER = "refer"


class Scope(StrEnum):
    """Whether a ruling speaks of the item or of this use of it."""

    ITEM = "item"
    USE = "use"


class State(StrEnum):
    """Where an item stands in its life."""

    IN_SERVICE = "in service"
    QUARANTINED = "quarantined"
    CONDEMNED = "condemned"
    DISPOSED = "disposed of"


class Mend(StrEnum):
    """What may bring an item back after a rule has stopped it."""

    NOTHING = "nothing"
    LOOK = "a competent look"
    RE_IDENTIFY = "re-identify and re-tag"
    RE_SPLICE = "re-splice as a new part"
    RE_STITCH = "renew the lock stitching"
    REPLACE_FITTING = "replace the fitting"
    REPAIR_AND_PROOF = "repair and proof load"
    EXAMINE = "the examination that is due"


class DecisionKind(StrEnum):
    """What a competent person decides."""

    RELEASE = "release"
    CONDEMN = "condemn"


def worst(answers: "list[Answer] | tuple[Answer, ...]") -> Answer:
    """Return the worst answer; serviceable when there is none."""
    return max(answers, key=lambda answer: answer.severity, default=Answer.SERVICEABLE)
