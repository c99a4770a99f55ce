"""What the window says of the day a photograph was taken, by the camera's own clock."""

from datetime import date

from kivy.uix.widget import Widget

from app.language import say, say_many
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import day
from inspection_rules.picture_day import told_apart


def taken_text(taken: date | None) -> str:
    """Say the day a photograph was taken, or that its file does not."""
    return say("Taken {day}", day=day(taken)) if taken else say("No date in the file")


def apart_text(taken: date | None, on: date) -> str:
    """Say how a photograph lies to the inspection of that day; empty where there is nothing to be minded."""
    apart = told_apart(taken, on)
    if apart is None:
        return ""
    if apart == "after":
        return say("Dated after this inspection: the camera's clock, or not this picture.")
    if apart.unit == "day":
        return say_many(
            "Taken {count} day before this inspection.", "Taken {count} days before this inspection.", apart.count
        )
    if apart.unit == "month":
        return say_many(
            "Taken {count} month before this inspection.", "Taken {count} months before this inspection.", apart.count
        )
    return say_many(
        "Taken {count} year before this inspection.", "Taken {count} years before this inspection.", apart.count
    )


def taken_words(taken: date | None, on: date) -> list[Widget]:
    """Return both as they stand on a page: what is to be minded first."""
    apart = apart_text(taken, on)
    return [*([Words(text=apart, bold=True)] if apart else []), Quiet(text=taken_text(taken))]
