"""What was told of a use in words, in English: for the screens, which say each, and for the report."""

from app.language import mark
from inspection_rules.case import Use

NAMES = {
    "pin_diameter": mark("What the eye bears on"),
    "eye_length": mark("Inside length of the eye"),
    "load": mark("Whole load"),
    "legs": mark("Legs that carry it"),
    "leg_angle": mark("Angle of the legs"),
    "hitch": mark("Hitch"),
    "persons": mark("Persons"),
    "hottest": mark("Greatest heat"),
    "coldest": mark("Greatest cold"),
    "chemicals": mark("Chemicals"),
    "moisture": mark("Wet or dry"),
}
"""What each field of `Use` is called."""
PERSON = mark("A person is raised, lowered or held by it")


def words_of(use: Use, field: str) -> tuple[str, ...]:
    """Return what was told under a name, in words, one for each thing; empty where nothing was."""
    value = getattr(use, field)
    if field not in use.told:
        return ()
    if field == "persons":
        return (PERSON,)
    return tuple(str(one) for one in value) if isinstance(value, tuple) else (str(value),)
