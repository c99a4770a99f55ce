from datetime import date

import pytest

from inspection_rules.due import after

from .building import baselines, buried_sling, case, inspection, judged, laid_sling


@pytest.mark.parametrize(
    ("start", "duration", "end"),
    [
        ("2026-01-31", "1 months", "2026-02-28"),
        ("2027-12-31", "2 months", "2028-02-29"),
        ("2028-02-29", "1 years", "2029-02-28"),
        ("2026-11-25", "12 months", "2027-11-25"),
        ("2026-12-15", "30 days", "2027-01-14"),
    ],
)
def test_months_clamp_at_the_months_end(start, duration, end):
    assert after(date.fromisoformat(start), duration) == date.fromisoformat(end)


def test_severe_service_is_due_sooner():
    item = laid_sling(service="severe")

    judgement = judged(case(item, inspection(item, "periodic", "2026-03-31")))

    assert judgement.next_due == date(2026, 6, 30)


def test_the_soonest_of_two_intervals_is_the_date_and_says_which():
    item = buried_sling()
    made = inspection(item, "as made", "2026-01-05")

    judgement = judged(case(item, made, past=[]))

    assert (judgement.next_due, judgement.next_due_why) == (date(2026, 2, 4), "Bedding in")


def test_bedding_in_is_asked_for_once():
    item = buried_sling()

    judgement = judged(case(item, inspection(item, "periodic", "2026-07-01"), past=baselines(item)))

    assert "bedding-in-due" not in {r.rule for r in judgement.rulings}


def test_an_examination_by_a_user_does_not_start_the_interval_anew():
    item = laid_sling()
    mate = {"name": "mate", "competence": "user"}
    earlier = [inspection(item, "periodic", "2026-12-01", mate)]

    judgement = judged(case(item, inspection(item, "before use", "2027-01-06", mate), earlier=earlier))

    assert judgement.examination_due == date(2027, 1, 5)


def test_the_local_date_counts_not_the_utc_one():
    item = laid_sling()
    look = inspection(item, "periodic", "2026-07-01", at="2026-07-01T23:30:00Z", utc_offset_minutes=60)

    judgement = judged(case(item, look, on="2026-07-02"))

    assert judgement.next_due == date(2027, 7, 2)
