"""Recipes of the user's own on the command line: made by name, looked over, refused in a sentence."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from piecewright.commands.table import main
from piecewright.files.folders import recipes_folder
from piecewright.files.own_recipes import keep_recipe, recipe_bytes
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from tests.core.commands.test_command_line import refused
from tests.core.making.hostile import HOSTILE

Plain = dict[str, object]


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    return tmp_path


def written(folder: Path, name: str = "rail-fence-of-three", change: Callable[[Plain], object] = len) -> str:
    """A shipped recipe, changed, in a file of its own."""
    plain: Plain = shipped_recipes()[name].plain
    change(plain)
    place = folder / "stranger.recipe.json"
    place.write_text(json.dumps(plain), encoding="utf-8")
    return str(place)


@pytest.mark.parametrize("name", ["My own rails", "my-own-rails"])
def test_a_recipe_of_the_own_shelf_goes_by_its_name_and_by_its_files(
    home: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    mine = Recipe.from_plain({**shipped_recipes()["rail-fence-of-three"].plain, "name": "My own rails"})
    keep_recipe(recipes_folder(), mine)
    assert main(["block", name]) == 0
    assert capsys.readouterr().out.startswith("My own rails")
    assert home in recipes_folder().parents


def test_a_recipe_in_order_is_said_to_be(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", written(home)]) == 0
    assert capsys.readouterr().out == '"Rail fence of three" is in order.\n'


def test_a_size_that_can_not_be_made_is_a_warning_with_its_size(
    home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = written(home, change=lambda plain: plain.update(sizes={"F": ["6", "20000"]}))
    assert main(["check", path]) == 0
    assert "With F at 20000 in: " in capsys.readouterr().out


def test_a_recipe_that_can_not_be_made_is_an_error(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = written(home, change=lambda plain: plain.update(let={"w": "F - 6", "long": "F"}))
    assert main(["check", path, "--json"]) == 2
    (finding,) = json.loads(capsys.readouterr().out)
    assert finding["severity"] == "error"


@pytest.mark.parametrize("trap", sorted(set(HOSTILE) - {"a thousand steps", "long sums"}))
def test_a_trap_is_one_sentence(home: Path, capsys: pytest.CaptureFixture[str], trap: str) -> None:
    place = home / "trap.recipe.json"
    place.write_text(json.dumps(HOSTILE[trap]), encoding="utf-8")
    said = refused(["block", str(place)], capsys)
    assert len(said.splitlines()) == 1


def test_a_newer_recipe_is_said_to_be_newer_and_left(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    place = home / "new.recipe.json"
    place.write_bytes(
        recipe_bytes(shipped_recipes()["slanted-exchange"]).replace(b'"recipe": 1', b'"recipe": 9')
    )
    before = place.read_bytes()
    assert "of version 9; this program knows up to 1" in refused(["check", str(place)], capsys)
    assert place.read_bytes() == before
