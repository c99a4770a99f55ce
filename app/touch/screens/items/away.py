"""What a list says of an item that is not here: where it is leads, and its answer is told as its last one."""

from app.language import say
from app.register import ItemRow
from app.touch.wording import answer_words, day
from app.whereabouts import where_words


def away(row: ItemRow) -> tuple[str, str]:
    """Say where an item is with its last answer, and until when that holds; empty where no date is set."""
    said = say(
        "{where} · its last answer: {answer}",
        where=where_words(row.whereabouts, ""), answer=answer_words(row.answer, row.door),
    )  # fmt: skip
    return said, say("examination by {day}", day=day(row.next_due)) if row.next_due is not None else ""
