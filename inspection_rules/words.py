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
    MOORING_TAIL = "mooring tail"
    SOFT_SHACKLE = "soft shackle"
    HITCH_CORD = "hitch cord"


ENDLESS = frozenset({ItemKind.GROMMET, ItemKind.ROUNDSLING, ItemKind.CONNECTOR, ItemKind.SOFT_SHACKLE})
"""Items that have no ends: nothing is asked of a termination."""
WEB_KINDS = frozenset({ItemKind.WEB_SLING, ItemKind.ROUNDSLING})
"""Items that no rope's construction describes."""


class Duty(StrEnum):
    """What the item does."""

    LIFTING = "lifting"
    LIFE_SUPPORT = "life support"
    TREE_RIGGING = "tree rigging"
    MOORING = "mooring"
    TOWING = "towing"


class Fibre(StrEnum):
    """Generic fibre names; what is not known is held until somebody competent finds it out."""

    HMPE = "HMPE"
    ARAMID = "aramid"
    LCP = "LCP"
    POLYESTER = "polyester"
    NYLON = "nylon"
    POLYPROPYLENE = "polypropylene"
    MANILA = "manila"
    SISAL = "sisal"
    HEMP = "hemp"
    NOT_KNOWN = "not known"


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
    WEBBING = "webbing"


class CoverLoad(StrEnum):
    """How much of the load a rope's cover carries."""

    ALL = "all"
    SHARED = "shared"
    NONE = "none"


class SpliceKind(StrEnum):
    """How a termination, or a joint between two lengths, is made.

    A plain end is sealed or whipped and has no eye. An adjustable eye slides by design.
    """

    BURIED_EYE = "buried eye"
    TUCK_AND_BURY_EYE = "tuck-and-bury eye"
    LOCKED_EYE = "locked eye"
    TUCKED_EYE = "tucked eye"
    TUCKED_SHORT_SPLICE = "tucked short splice"
    DOUBLE_BRAID_EYE = "double-braid eye"
    END_TO_END = "end-to-end splice"
    SEWN_EYE = "sewn eye"
    ADJUSTABLE_EYE = "adjustable eye"
    PLAIN_END = "plain end"


JOINTS = frozenset({SpliceKind.TUCKED_SHORT_SPLICE, SpliceKind.END_TO_END})
"""Splices that join two lengths; all others end one."""
UNSPLICED = frozenset({SpliceKind.SEWN_EYE, SpliceKind.PLAIN_END})


class Layout(StrEnum):
    """A method of laying out a splice that an as-made record can say it was made by."""

    THREE_FID = "three-fid tuck-and-bury"


class PartKind(StrEnum):
    """What is inspected on an item."""

    TERMINATION = "termination"
    JOINT = "joint"
    BODY = "body"
    FITTING = "fitting"


SPLICED = (PartKind.TERMINATION, PartKind.JOINT)


class FittingKind(StrEnum):
    """What hardware or part of its own hangs on an item."""

    HOOK = "hook"
    SHACKLE = "shackle"
    MASTER_LINK = "master link"
    SWIVEL = "swivel"
    CONNECTOR = "connector"
    PULLEY = "pulley"
    THIMBLE = "thimble"
    FRICTION_SAVER = "friction saver"
    ADJUSTER = "adjuster"
    ABSORBER = "energy absorber"


class Hitch(StrEnum):
    """How a sling goes round the load."""

    STRAIGHT = "straight"
    CHOKER = "choker"
    BASKET = "basket"


class Chemical(StrEnum):
    """What a rope may meet in use, by what it does to fibres."""

    ACID = "acid"
    PHENOLIC = "phenolic"
    CAUSTIC = "caustic"
    OXIDISER = "bleach or another oxidiser"
    SOLVENT = "solvent"


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
    BREAK_TEST = "break test"


class View(StrEnum):
    """What a photograph is taken of: pictures of one part and view are a series."""

    THROAT = "throat with both marks"
    TIP = "tip mark"
    ENTRY = "entry of the tail"
    LOCK = "lock stitching"
    EYE_BACK = "back of the eye"
    WORST = "worst wear"
    TAG = "tag"


class MarkingKind(StrEnum):
    """What is laid over a photograph."""

    ARROW = "arrow"
    RING = "ring"
    FREEHAND = "line by hand"
    LENGTH = "length"
    TEXT = "text"


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


class Work(StrEnum):
    """What was done to an item between inspections."""

    RE_STITCHED = "lock stitching renewed"
    CLEANED = "cleaned"
    ENDS_TURNED = "turned end for end"
    CUT_BACK = "cut back"
    RE_SPLICED = "re-spliced"
    CHAFE_GEAR = "chafe gear changed"
    MOORING_TAIL = "mooring tail changed"
    FITTING = "fitting replaced"
    RE_TAGGED = "re-identified and re-tagged"
    REPAIRED = "repaired and proof loaded"


class Where(StrEnum):
    """Where an item is between inspections; it changes no answer and no date."""

    HERE = "here"
    ASHORE = "ashore"
    ON_LOAN = "on loan"
    NOT_FOUND = "not found"


class DecisionKind(StrEnum):
    """What a competent person decides."""

    RELEASE = "release"
    CONDEMN = "condemn"


def worst(answers: "list[Answer] | tuple[Answer, ...]") -> Answer:
    """Return the worst answer; serviceable when there is none."""
    return max(answers, key=lambda answer: answer.severity, default=Answer.SERVICEABLE)
