"""What a sound rope reads in the stories, where they do not tell otherwise."""

from random import Random

from inspection_rules.item import Item
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.observation import Observation


def sound_values(item: Item, observation: Observation, rng: Random) -> tuple[str, ...]:
    """Return the values of a needed reading on a sound item, one for each repeat.

    Raises:
        KeyError: the stories do not know what a sound item reads there.
    """
    diameter = nominal_diameter(item)
    d = round(diameter) if diameter is not None else 0
    base, spread, unit = {
        "mark_offset": (0, 2, "mm"),
        "bury": (1776, 1, "mm"),
        "tucks": (5, 1, ""),
        "tail": (max(7 * d, 160 if d > 25 else 0), 3, "mm"),
        "clear_length": (1800, 40, "mm"),
        "eye_perimeter": (50 * d, 3, "mm"),
        "gauge_length": (2000, 2, "mm"),
        "girth_worst": (31 * d // 10, 2, "mm"),
        "girth_sound": (31 * d // 10 + 1, 2, "mm"),
    }[observation.id]
    return tuple(f"{base + rng.randrange(spread)} {unit}".strip() for _ in range(observation.repeats))
