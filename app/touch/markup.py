"""Loading the kv file that lies beside a module, once per process."""

from pathlib import Path

from kivy.lang import Builder


def load_markup(module_file: str) -> None:
    """Load the kv file with the module's own name; loading it twice would apply every rule twice."""
    path = str(Path(module_file).with_suffix(".kv"))
    if path not in Builder.files:
        Builder.load_file(path, encoding="utf-8")
