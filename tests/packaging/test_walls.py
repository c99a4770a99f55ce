"""The import walls must name every module, or a new one stands outside them."""

import pkgutil
import tomllib

import pytest

import app


@pytest.mark.parametrize(
    ("wall", "owner"),
    [
        ("only app.touch imports Kivy", "app.touch"),
        ("only app.device imports plyer", "app.device"),
        ("only app.register speaks SQL", "app.register"),
    ],
)
def test_every_module_of_the_app_stands_behind_the_wall_but_its_owner(checkout, wall, owner):
    contracts = tomllib.loads((checkout / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    (contract,) = [one for one in contracts if one["name"].startswith(wall)]
    modules = {f"app.{module.name}" for module in pkgutil.iter_modules(app.__path__)}

    assert set(contract["source_modules"]) == modules - {owner}
