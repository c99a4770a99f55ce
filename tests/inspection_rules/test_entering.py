"""An item described by names and texts: what applies to it, what is wrong, what is unlikely, what comes of it."""

from datetime import date

import pytest

from inspection_rules.entering import NAMES, applying, choices_of, item_of, said_of, sort_of
from inspection_rules.form import asked, copied, must_be_said, offered, pruned, respliced, same_as_a
from inspection_rules.item import Item
from inspection_rules.typical import typical_items
from inspection_rules.unlikely import unlikely
from inspection_rules.words import Construction, ItemKind

TODAY = date(2050, 10, 12)
SLING = {
    "tag": "RS-14",
    "kind": "rope sling",
    "duty": "lifting",
    "fibre": "HMPE",
    "construction": "hollow braid, twelve-strand",
    "diameter": "24 mm",
    "length": "6 m",
    **{
        f"end_{end}_{name}": text
        for end in "ab"
        for name, text in {
            "splice": "buried eye",
            "thimble": "none",
            "lock_stitched": "yes",
            "required_bury": "1728 mm",
            "required_by": "the splice's own instruction",
            "marks_at": "48 mm",
        }.items()
    },
}
WEB = {
    "tag": "WS-1",
    "kind": "web sling",
    "duty": "lifting",
    "fibre": "polyester",
    "width": "60 mm",
    "end_a_splice": "sewn eye",
    "end_b_splice": "sewn eye",
}


def built(said, **changed):
    found = item_of({**said, **changed}, "new")
    assert isinstance(found, Item), found
    return found


def faults(said, **changed):
    found = item_of({**said, **changed}, "new")
    assert not isinstance(found, Item)
    return {one.name: one.sentence for one in found}


def doubts(**changed):
    return {one.name: one.sentence for one in unlikely({**SLING, **changed}, TODAY)}


# --- the item that comes of it -----------------------------------------------------------------------------


def test_a_sling_has_its_two_ends_and_its_body():
    assert [part.id for part in built(SLING).parts] == ["A", "B", "body"]


def test_a_web_sling_is_of_webbing_without_saying_so():
    assert built(WEB).construction == "webbing"


@pytest.mark.parametrize("item", [one for one in typical_items() if one.kind is not ItemKind.CONNECTOR])
def test_an_item_described_again_is_the_same_item(item):
    found = item_of(said_of(item), item.id)

    assert isinstance(found, Item)
    assert found.model_dump(exclude={"parts"}) == item.model_dump(exclude={"parts"})
    assert {part.splice for part in found.parts} == {part.splice for part in item.parts}


def test_a_copy_has_neither_tag_nor_dates():
    said = copied({**SLING, "made": "2050-01-10", "first_used": "2050-02-01"})

    assert not {"tag", "made", "first_used"} & set(said)
    assert said["end_a_required_bury"] == "1728 mm"


# --- what is wrong -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("tag", "", "is empty"),
        ("kind", "rope", "write one of: line; rope sling"),
        ("diameter", "24", "has no unit"),
        ("diameter", "60 kN", "not a length"),
        ("diameter", "900 mm", "no rope has that size"),
        ("legs", "7", "no whole number from 1 to 4"),
        ("strands", "²", "no whole number"),
        ("made", "10/1/2050", "write it as 2050-01-10"),
        ("made", "1066-10-14", "the year 1066 is no year of this work"),
        ("first_used", "2049-01-01", "is before 'made'"),
        ("end_a_lock_stitched", "perhaps", "write yes or no"),
        ("end_a_splice", "", "'plain end' where it has no eye"),
        ("end_b_splice", "tucked short splice", "is not one of the words here"),
        ("end_a_required_by", "", "needs 'required_by'"),
        ("construction", "", "the rules go by it"),
        ("width", "60 mm", "does not apply"),
        ("tag", "T" * 121, "is too long"),
        ("description", "a\x07b", "type it again in plain letters"),
    ],
)
def test_what_is_wrong_is_said_under_its_name_with_the_remedy(name, text, says):
    found = faults({**SLING, "made": "2050-01-10"}, **{name: text})

    assert says in found["end_a_required_bury" if name == "end_a_required_by" else name]


def test_a_rope_of_a_size_of_another_one_is_refused():
    assert "not of one rope" in faults(SLING, circumference="40 mm")["diameter"]


def test_a_name_that_is_none_is_refused():
    assert "is not known here" in faults(SLING, colour="blue")["colour"]


def test_what_would_be_lost_is_refused():
    assert "does not apply" in faults(WEB, diameter="24 mm")["diameter"]


# --- what is unlikely --------------------------------------------------------------------------------------


def test_a_sound_description_is_not_doubted():
    assert not doubts(made="2050-01-10")


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("circumference", "60 mm", "72 mm by the trade table; 60 mm was given"),
        (
            "end_a_required_bury",
            "172 mm",
            "7.2 times the nominal diameter; an instruction seldom asks for less than",
        ),
        ("end_a_required_bury", "17 m", "seldom asks for more than 150"),
        ("length", "0 m", "is nothing at all"),
        ("length", "3 m", "longer than the item"),
        ("diameter", "240 mm", "check the unit"),
        ("diameter", "6 in", "inch sizes are mostly nominal circumferences"),
        ("made", "2050-10-13", "is still to come"),
        ("made", "1999-01-01", "more than 30 years ago"),
        ("fibre", "manila", "mostly laid"),
        ("construction", "laid, three-strand", "No rule speaks for a buried eye"),
        ("rated_basket", "200 kN", "more than 2 times"),
    ],
)
def test_what_is_unlikely_is_asked_about(name, text, says):
    found = doubts(working_load_limit="60 kN", **{name: text})

    assert any(says in sentence for sentence in found.values()), found


def test_twenty_diameters_are_asked_for_at_times():
    assert not doubts(end_a_required_bury="480 mm")


# --- the form ----------------------------------------------------------------------------------------------


def test_a_web_sling_is_asked_nothing_of_a_rope():
    names = (*asked(WEB), *offered(WEB))

    assert not [one for one in names if one in ("construction", "diameter", "circumference", "strands")]
    assert not [one for one in names if one.endswith(("thimble", "bury", "marks_at")) or one.startswith("joint_")]


def test_an_endless_item_is_asked_for_its_joint_and_not_for_ends():
    said = {"kind": "grommet", "construction": "laid, three-strand"}

    assert "joint_1_splice" in asked(said)
    assert not [one for one in applying(said) if one.startswith("end_")]


@pytest.mark.parametrize(
    ("duty", "name"),
    [("lifting", "working_load_limit"), ("mooring", "breaking_force"), ("life support", "maker_criteria")],
)
def test_a_duty_asks_for_what_its_rules_need(duty, name):
    assert name in asked({**SLING, "duty": duty})
    assert name not in asked({**SLING, "duty": "towing"})


def test_only_one_of_the_two_sizes_is_asked():
    assert "circumference" not in asked(SLING)
    assert "diameter" not in asked({**SLING, "diameter": "", "circumference": "3 in"})


def test_the_splices_offered_are_those_of_the_construction():
    assert "tucked eye" not in choices_of("end_a_splice", SLING)
    assert "buried eye" not in choices_of("end_a_splice", {**SLING, "construction": "laid, four-strand"})


def test_a_joint_that_no_rule_speaks_for_is_asked_about():
    said = {**SLING, "kind": "grommet", "construction": "kernmantle", "joint_1_splice": "end-to-end splice"}

    assert "joint_1_splice" in {one.name for one in unlikely(said, TODAY)}


def test_nothing_is_left_out_that_would_be_recorded_as_none():
    assert all(must_be_said(one, SLING) for one in ("end_a_thimble", "service", "construction", "end_b_splice"))


def test_another_construction_takes_its_splices_back_and_nothing_else():
    found = pruned({**SLING, "construction": "laid, three-strand"})

    assert not [one for one in found if one.startswith("end_")]
    assert found["length"] == "6 m"


def test_another_splice_takes_back_what_the_old_instruction_asked_for():
    found = respliced(SLING, "end_a_splice")

    assert not {"end_a_required_bury", "end_a_required_by", "end_a_marks_at"} & set(found)
    assert found["end_b_required_bury"] == "1728 mm"


def test_end_b_the_same_as_end_a_has_all_of_it():
    only_a = {name: text for name, text in SLING.items() if not name.startswith("end_b_")}

    assert same_as_a(only_a) == SLING


def test_whatever_is_asked_can_be_entered():
    for item in typical_items():
        said = said_of(item)
        assert set(applying(said)) <= set(NAMES)
        assert not set(asked(said)) & set(offered(said))


ANSWERS = {
    "text": "as the papers say", "length": "2 m", "force": "60 kN", "yes or no": "no", "date": "2050-01-10",
    "count": "3",
}  # fmt: skip


@pytest.mark.parametrize("kind", list(ItemKind))
@pytest.mark.parametrize("construction", list(Construction))
@pytest.mark.parametrize("last", [False, True])
def test_whoever_answers_what_is_asked_has_described_an_item(kind, construction, last):
    said = {"kind": kind.value}
    while name := next((one for one in asked(said) if not said.get(one)), None):
        choices = choices_of(name, said)
        if name == "construction" and construction in choices:
            said[name] = construction.value
        elif name in ("diameter", "throat_opening"):
            said[name] = "24 mm"
        else:
            said[name] = str(choices[-1 if last else 0]) if choices else ANSWERS[sort_of(name)]

    assert isinstance(item_of(said, "new"), Item), item_of(said, "new")
