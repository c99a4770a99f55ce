"""How each thing about a new item is asked, and what it is called in a list."""

from typing import NamedTuple

from app.language import mark, say
from inspection_rules.entering import field_of


class Question(NamedTuple):
    """Texts in English, said where they are shown: what is asked, what it is called, what helps to answer."""

    ask: str
    name: str
    why: str = ""


QUESTIONS: dict[str, Question] = {
    "tag": Question(mark("What stands on its tag?"), mark("Tag"), mark("The mark it is told apart by.")),
    "description": Question(mark("What is it called?"), mark("Description"), mark("As people here call it.")),
    "place": Question(mark("Where does it belong?"), mark("Place")),
    "kind": Question(mark("What is it?"), mark("Kind")),
    "duty": Question(mark("What does it do?"), mark("Duty")),
    "fibre": Question(
        mark("Which fibre is it of?"),
        mark("Fibre"),
        mark("As its papers or its tag say. Where it is not known, the item is on hold until somebody finds it out."),
    ),
    "construction": Question(
        mark("How is the rope made?"),
        mark("Construction"),
        mark("All that is asked of it later rests on this. If you cannot tell, ask a splicer before you enter it."),
    ),
    "diameter": Question(
        mark("Nominal diameter"),
        mark("Nominal diameter"),
        mark(
            "As named, not as measured. Without papers or tag: lay a strip once round a sound place, hand-taut, "
            "and divide its length by 3.14."
        ),
    ),
    "circumference": Question(
        mark("Nominal circumference"),
        mark("Nominal circumference"),
        mark("As named, not as measured: about 3 × the nominal diameter, never π times. Not named: give the diameter."),
    ),
    "width": Question(mark("How wide is the web?"), mark("Width"), mark("As new.")),
    "thickness": Question(mark("How thick is it?"), mark("Thickness"), mark("All plies together, as new.")),
    "length": Question(mark("How long is it?"), mark("Length"), mark("From end to end, over all.")),
    "strands": Question(mark("How many strands carry load?"), mark("Load-bearing strands")),
    "cover_load": Question(mark("How much does its cover carry?"), mark("Load carried by the cover")),
    "continuous": Question(mark("Is it under tension all the time?"), mark("Under tension all the time")),
    "legs": Question(mark("How many legs has it?"), mark("Legs")),
    "working_load_limit": Question(
        mark("What may one leg carry straight?"),
        mark("Working load limit of one leg"),
        mark("The working load limit that its tag names."),
    ),
    "rated_choker": Question(mark("What does its tag say for a choker hitch?"), mark("In a choker hitch")),
    "rated_basket": Question(mark("What does its tag say for a basket hitch?"), mark("In a basket hitch")),
    "breaking_force": Question(
        mark("At which force does it break?"), mark("Breaking force"), mark("The least one, as its certificate says.")
    ),
    "breaking_spliced": Question(mark("Was it tested spliced?"), mark("Tested spliced")),
    "ship_design_force": Question(
        mark("What is the ship's design force?"),
        mark("Ship design force"),
        mark("The breaking force the ship's mooring is designed for."),
    ),
    "service": Question(
        mark("How hard is its service?"),
        mark("Service"),
        mark(
            "Normal: within its rating and out of harm's way. Severe: near heat, grit, edges, chemicals or shock. "
            "Special: as a qualified person has laid down. In doubt: severe."
        ),
    ),
    "made": Question(mark("When was it made?"), mark("Made")),
    "first_used": Question(
        mark("When was it first used?"),
        mark("First used"),
        mark("Where a rule limits its age, a day that is not on record holds the item."),
    ),
    "maker_criteria": Question(
        mark("Where are the maker's criteria for retirement?"),
        mark("Maker's criteria"),
        mark("Title and edition, so that they can be found again."),
    ),
    "maker_pack": Question(mark("Which pack holds the maker's rules?"), mark("Maker's rules")),
    "splice": Question(mark("How is it made?"), mark("Splice")),
    "thimble": Question(mark("Which thimble has it?"), mark("Thimble")),
    "lock_stitched": Question(mark("Is it lock-stitched?"), mark("Lock-stitched")),
    "chafe_gear": Question(mark("Is there chafe gear on the eye?"), mark("Chafe gear")),
    "required_bury": Question(
        mark("Which bury must it have?"),
        mark("Required bury"),
        mark("What its own instruction asks for, not what was measured."),
    ),
    "required_core_bury": Question(
        mark("Which bury must its core's tail have?"),
        mark("Required bury of the core's tail"),
        mark("The bury given before is its cover's."),
    ),
    "required_by": Question(
        mark("By which instruction?"),
        mark("By the instruction"),
        mark("Title, edition and page, so that it can be found again."),
    ),
    "marks_at": Question(
        mark("How far from the throat are its marks?"),
        mark("Marks from the throat"),
        mark("One on the tail leg, one on the standing leg, at the same distance."),
    ),
    "tails_buried": Question(
        mark("Are its strand tails tapered and buried?"),
        mark("Strand tails buried"),
        mark("No strand's end is seen or felt standing out behind the last tuck."),
    ),
    "layout": Question(mark("By which layout was it made?"), mark("Layout")),
    "from_a": Question(mark("How far from end A does it lie?"), mark("From end A")),
    "fitting": Question(mark("Which fitting hangs on it?"), mark("Fitting")),
    "throat_opening": Question(mark("How wide is its throat when new?"), mark("Throat opening when new")),
    "fitting_thickness": Question(
        mark("How thick is it when new?"), mark("Thickness when new"), mark("Where it wears.")
    ),
}
NOT_KNOWN = mark("Not known")
NONE_OF = {
    "required_bury": mark("Its instruction gives none"),
    "required_core_bury": mark("Its instruction gives none"),
    "marks_at": mark("It has no marks"),
    "layout": mark("By another one, or not known"),
    "splice": mark("It has no joint"),
    "fitting": mark("Nothing hangs on it"),
    "first_used": mark("Not used yet, or not known"),
    "description": mark("No name of its own"),
    "place": mark("No place of its own"),
}


def question_of(name: str) -> Question:
    """Return how the thing under a name is asked."""
    return QUESTIONS[_key(name)]


def without(name: str) -> str:
    """Say what the button says that leaves a thing out."""
    if _key(name) == "fitting" and name != "fitting_1_kind":
        return say("Nothing else hangs on it")
    return say(NONE_OF.get(_key(name), NOT_KNOWN))


def part_of(name: str) -> str:
    """Name the part that a name belongs to; empty for the item as a whole."""
    if name == field_of(name):
        return ""
    sort, number = name.split("_")[:2]
    if sort == "end":
        return say("End {end}", end=number.upper())
    return say("Joint {number}", number=number) if sort == "joint" else say("Fitting {number}", number=number)


def name_of(name: str) -> str:
    """Say what a thing is called, with its part."""
    own = say(question_of(name).name)
    part = part_of(name)
    return f"{part} · {own}" if part else own


def _key(name: str) -> str:
    field = field_of(name)
    if name.startswith("fitting_"):
        return {"kind": "fitting", "thickness": "fitting_thickness"}.get(field, field)
    return field
