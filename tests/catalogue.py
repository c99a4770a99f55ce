"""The catalogues of the further languages: what they must say, what they lack, and bringing them up to date.

    python tests/catalogue.py           say what is missing or not up to date; fail where anything is
    python tests/catalogue.py update    take new messages in, and compile; no translation is ever lost

A message that no longer occurs is kept at the end of the file as obsolete, and comes back with its translation.
"""

import re
import sys
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.catalog import Message as Entry
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

HERE = Path(__file__).parent
FOLDER = HERE.parent / "assets" / "language"
sys.path.insert(0, str(HERE / "language"))
from messages import Message, messages  # noqa: E402

MADE = datetime(2026, 1, 1, tzinfo=UTC)  # the same input gives the same bytes


def read(language: str) -> Catalog:
    """Return the catalogue of a language, with what is obsolete."""
    with (FOLDER / f"{language}.po").open("rb") as file:
        return read_po(file, locale=language)


def updated(old: Catalog, wanted: dict[str, Message]) -> Catalog:
    """Return a catalogue of exactly the wanted messages with the old translations; what is left over is obsolete."""
    new = Catalog(
        locale=old.locale,
        project="throatmark",
        version="1",
        copyright_holder="The Throatmark contributors",
        header_comment=old.header_comment,
        creation_date=MADE,
        revision_date=MADE,
        last_translator="The Throatmark contributors",
        language_team="The Throatmark contributors",
        fuzzy=False,
    )
    said = {_key(one): one.string for one in (*old.obsolete.values(), *old) if one.id}
    for message in wanted.values():
        plural = (message.id, message.plural) if message.plural else message.id
        string = said.pop(f"{message.context}\x04{message.id}" if message.context else message.id, "")
        if message.plural and isinstance(string, str):
            string = (string, string)
        elif not message.plural and not isinstance(string, str):
            string = string[0]
        places = [(place, None) for place in message.places[:4]]
        added = new.add(plural, string, locations=places, context=message.context or None)
        added.flags.clear()
    for text, string in said.items():
        if any(string if not isinstance(string, str) else [string]):
            context, _, alone = text.rpartition("\x04")
            new.obsolete[text] = Entry(alone, string if isinstance(string, str) else string[0], context=context or None)
            new.obsolete[text].flags.clear()
    return new


def missing(catalogue: Catalog) -> list[str]:
    """Return the messages that have no translation."""
    return [_key(one) for one in catalogue if one.id and not _whole(one.string)]


def text_of(catalogue: Catalog) -> bytes:
    """Return a catalogue as the text that is kept."""
    out = BytesIO()
    write_po(out, catalogue, width=118, include_lineno=False)
    return re.sub(rb'"Generated-By: .*\n', b"", out.getvalue())  # another version of Babel is no change


def compiled(language: str) -> bytes:
    """Return a catalogue as the program reads it, made from what is kept."""
    out = BytesIO()
    catalogue = read(language)
    for message in list(catalogue):
        if not message.id:
            message.string = "Content-Type: text/plain; charset=utf-8\n"
            message.string += "Plural-Forms: nplurals=2; plural=(n != 1);\n"
    write_mo(out, catalogue)
    return out.getvalue()


def languages() -> list[str]:
    """Return the further languages, by their catalogues."""
    return sorted(path.stem for path in FOLDER.glob("*.po"))


def main(arguments: list[str]) -> int:
    wanted = messages()
    failed = False
    for language in languages():
        old = read(language)
        new = updated(old, wanted)
        if arguments == ["update"]:
            (FOLDER / f"{language}.po").write_bytes(text_of(new))
            (FOLDER / f"{language}.mo").write_bytes(compiled(language))
        lacks = missing(new)
        for text in lacks:
            sys.stdout.write(f"{language}: not translated: {text!r}\n")
        stale = (FOLDER / f"{language}.mo").read_bytes() != compiled(language)
        if stale:
            sys.stdout.write(f"{language}: the compiled catalogue is not made from this one; update it\n")
        sys.stdout.write(f"{language}: {len(wanted)} messages, {len(lacks)} not translated\n")
        failed = failed or stale or bool(lacks)
    return int(failed)


def _key(message: Entry) -> str:
    text = message.id[0] if isinstance(message.id, tuple) else message.id
    return f"{message.context}\x04{text}" if message.context else str(text)


def _whole(string: object) -> bool:
    return all(string) if isinstance(string, tuple) else bool(string)


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
