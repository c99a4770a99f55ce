"""One more item of each family of the invented harbour, for walks through all of them."""

from typing import Any

from inspection_rules.item import Item


def eyes(splice: str, **more: Any) -> list[dict[str, Any]]:
    return [{"id": end, "kind": "termination", "end": end, "splice": splice, **more} for end in "AB"]


def fittings(*kinds: str) -> list[dict[str, Any]]:
    return [{"id": f"F{number}", "kind": "fitting", "fitting": kind} for number, kind in enumerate(kinds, 1)]


def item(tag: str, description: str, kind: str, duty: str, fibre: str, **more: Any) -> Item:
    head = {"id": tag.lower(), "tag": tag, "description": description, "kind": kind, "duty": duty, "fibre": fibre}
    return Item.model_validate({**head, "made": "2050-01-10", "length": "4 m", **more})


BODY = [{"id": "body", "kind": "body"}]
WEB = item(
    "WS-01", "web sling", "web sling", "lifting", "polyester", construction="webbing", width="60 mm",
    thickness="6 mm", parts=[*eyes("sewn eye"), *BODY],
)  # fmt: skip
ROUND = item("RO-01", "roundsling", "roundsling", "lifting", "polyester", parts=BODY)
LANYARD = item(
    "LY-02", "positioning lanyard", "lanyard", "life support", "polyester", construction="kernmantle",
    diameter="12 mm", cover_load="shared",
    parts=[*eyes("sewn eye"), *BODY, *fittings("connector", "connector", "adjuster")],
)  # fmt: skip
CLIMBING = item(
    "CL-01", "climbing line", "line", "life support", "polyester", construction="kernmantle", diameter="12 mm",
    cover_load="shared",
    parts=[
        {"id": "A", "kind": "termination", "end": "A", "splice": "sewn eye"},
        {"id": "B", "kind": "termination", "end": "B", "splice": "plain end"},
        *BODY,
    ],
)  # fmt: skip
MOORING = item(
    "ML-01", "bow line", "line", "mooring", "HMPE", construction="hollow braid, twelve-strand", diameter="24 mm",
    parts=[*eyes("buried eye", lock_stitched=True, marks_at="48 mm"), *BODY, *fittings("shackle")],
)  # fmt: skip
GROMMET = item(
    "GR-01", "grommet", "grommet", "lifting", "polyester", construction="laid, three-strand", diameter="20 mm",
    parts=[*BODY, {"id": "J", "kind": "joint", "splice": "tucked short splice"}],
)  # fmt: skip
CONNECTOR = item("CN-01", "connector", "connector", "life support", "polyester", parts=fittings("connector"))
FLEET = (WEB, ROUND, LANYARD, CLIMBING, MOORING, GROMMET, CONNECTOR)
