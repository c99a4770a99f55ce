"""The demo from end to end: a real register, real pictures, a real report."""

import shutil
import sqlite3
from contextlib import closing
from datetime import date

import pytest
from pypdf import PdfReader

from app.command import main
from app.demo import MARK, REPORT, demo
from app.photos import Photo
from app.register import Register, RegisterError
from inspection_rules.words import Answer, ItemKind

TODAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    folder = tmp_path_factory.mktemp("harbour") / "demo"
    said: list[str] = []
    assert demo(folder, said.append, TODAY) == folder
    return folder, "\n".join(said)


@pytest.fixture
def register(made):
    with Register.open(made[0]) as opened:
        yield opened


def row(register, tag):
    (found,) = [r for r in register.find(tag, on=TODAY) if r.tag == tag]
    return found


@pytest.mark.parametrize(
    ("tag", "answer"),
    [
        ("ML-05", Answer.SERVICEABLE),  # made exactly to its specification, two years of rounds, not moved
        ("ML-12", Answer.WATCH),        # new, settling
        ("RS-08", Answer.WATCH),        # came without papers
        ("ML-04", Answer.HOLD),         # stitching under frozen gear
        ("TP-01", Answer.HOLD),         # creeps a little every month
        ("CL-01", Answer.HOLD),         # shock
        ("LY-01", Answer.HOLD),         # overdue
        ("MT-03", Answer.HOLD),         # due by age
        ("RS-03", Answer.REMOVE),       # cut strand
        ("RS-05", Answer.REMOVE),       # strand tail short of the law
        ("RS-07", Answer.REMOVE),       # tag unreadable
        ("WS-02", Answer.REMOVE),       # edge cut
    ],
)  # fmt: skip
def test_each_story_of_the_harbour_ends_as_it_should(register, tag, answer):
    assert row(register, tag).answer is answer


def test_all_other_items_are_serviceable(register):
    rows = register.find(limit=1000, on=TODAY)

    assert len(rows) == 35
    assert sum(r.answer is Answer.SERVICEABLE for r in rows) == 24


def test_the_pendant_never_shows_a_step_and_is_caught_all_the_same(register):
    answers = [one.judgement.answer for one in register.judged(row(register, "TP-01").id)]

    assert Answer.HOLD not in answers[:-1]
    assert answers[-1] is Answer.HOLD


@pytest.mark.parametrize("tag", ["RS-03", "RS-05", "RS-07", "WS-02", "TP-01", "CL-01", "LY-01", "ML-04"])
def test_nothing_stops_an_item_before_the_round_of_today(register, tag):
    opened = register.standing(row(register, tag).id, TODAY).open

    assert {one.on for one in opened} == {TODAY}


def test_every_family_of_the_harbour_is_there(register):
    kinds = {register.item(r.id).kind for r in register.find(limit=1000, on=TODAY)}

    assert kinds == {
        ItemKind.LINE, ItemKind.MOORING_TAIL, ItemKind.ROPE_SLING, ItemKind.WEB_SLING, ItemKind.ROUNDSLING,
        ItemKind.LANYARD, ItemKind.CONNECTOR,
    }  # fmt: skip


def test_the_tail_was_in_service_until_its_age_ran_out(register):
    judged = register.judged(row(register, "MT-03").id)

    assert all(one.judgement.answer is Answer.SERVICEABLE for one in judged[:-1])
    assert "18 months" in register.standing(row(register, "MT-03").id, TODAY).open[0].ruling.sentence


def test_the_edge_cut_names_the_clause_that_leaves_no_milder_way(register):
    sources = [str(one.ruling.source) for one in register.standing(row(register, "WS-02").id, TODAY).open]

    assert any("29 CFR 1910.184(i)(9)(iii)" in source for source in sources)


def test_the_register_verifies(register):
    assert register.verify() == []


def test_the_account_names_the_place_of_the_register_and_every_stopped_item(made):
    folder, said = made

    assert str(folder / "register.db") in said
    for tag in ("TP-01", "RS-03", "RS-05", "RS-07", "WS-02", "LY-01", "CL-01", "MT-03", "ML-04"):
        assert f"{tag}  " in said
    assert "licensed examiner" in said


def test_the_report_lists_what_is_stopped_and_shows_pictures(made):
    reader = PdfReader(made[0] / REPORT)
    text = "\n".join(page.extract_text() for page in reader.pages)

    assert "4 to remove, 5 on hold, of 35 items" in text
    assert any(page.images for page in reader.pages)


def test_a_second_demo_in_the_same_place_adds_nothing(made):
    folder, _ = made
    before = (folder / "register.db").read_bytes()

    demo(folder, lambda line: None, TODAY)

    assert (folder / "register.db").read_bytes() == before


def test_the_demo_refuses_a_folder_with_somebodys_register(tmp_path):
    Register.create(tmp_path / "mine", "phone").close()

    with pytest.raises(RegisterError, match="not a demo"):
        demo(tmp_path / "mine", lambda line: None, TODAY)
    assert not (tmp_path / "mine" / MARK).exists()


def test_a_demo_cut_short_leaves_nothing_that_looks_whole(tmp_path, monkeypatch):
    def unplugged(*_: object) -> Photo:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("app.demo.intake", unplugged)

    with pytest.raises(RegisterError, match="No space left on device"):
        demo(tmp_path / "demo", lambda line: None, TODAY)
    assert not (tmp_path / "demo").exists()


def test_report_and_verify_work_on_the_demo_from_the_command_line(made, tmp_path, capsys):
    folder, _ = made

    assert main(["report", "retirement", "--register", str(folder), "--out", str(tmp_path / "r.pdf")]) == 0
    assert (tmp_path / "r.pdf").read_bytes().startswith(b"%PDF")
    assert main(["verify", "--register", str(folder)]) == 0
    assert "every seal and every projection fits" in capsys.readouterr().out


def test_a_report_that_cannot_be_written_says_why(made, tmp_path, capsys):
    out = tmp_path / "nowhere" / "r.pdf"

    assert main(["report", "retirement", "--register", str(made[0]), "--out", str(out)]) == 2
    assert str(tmp_path / "nowhere") in capsys.readouterr().err


def test_without_a_register_the_commands_say_so_and_make_none(tmp_path, capsys):
    assert main(["verify", "--register", str(tmp_path / "none")]) == 2
    assert str(tmp_path / "none") in capsys.readouterr().err
    assert not (tmp_path / "none").exists()


def test_verify_exits_1_and_names_the_first_record_that_does_not_fit(made, tmp_path, capsys):
    folder = shutil.copytree(made[0], tmp_path / "copy")
    first = "SELECT id FROM record WHERE kind = 'inspection' ORDER BY seq LIMIT 1"
    with closing(sqlite3.connect(folder / "register.db")) as connection, connection:
        guards = connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in guards:
            connection.execute(f'DROP TRIGGER "{name}"')
        (victim,) = connection.execute(first).fetchone()
        connection.execute("UPDATE record SET body = replace(body, 'as made', 'periodic') WHERE id = ?", (victim,))
        for _, sql in guards:
            connection.execute(sql)

    assert main(["verify", "--register", str(folder)]) == 1
    assert victim in capsys.readouterr().out
