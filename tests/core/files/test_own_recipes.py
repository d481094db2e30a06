"""The user's own shelf of recipes: what is kept stays whole, and what can not be read stays as it is."""

import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import FileError, PiecewrightError
from piecewright.files.folders import config_folder, recipes_folder
from piecewright.files.own_recipes import (
    OwnRecipe,
    keep_recipe,
    own_recipes,
    put_back,
    recipe_bytes,
    recipe_in,
    remove_recipe,
    rename_recipe,
    replace_recipe,
    save_recipe,
)
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.making.shipped import shipped_recipes

NEWER = b'{"recipe": 7, "name": "From tomorrow", "folds": ["origami"]}'
names = st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=200)


def rails(name: str = "Rails", **keys: object) -> Recipe:
    """A recipe of one strip, told apart by its name and whatever is given."""
    step = {"make": "block", "lay": {"fabric": "A", "width": "2 1/2", "length": "2 1/2"}}
    return Recipe.from_plain({"recipe": 1, "name": name, **keys, "steps": [step], "block": ["block"]})


def listed(folder: Path) -> list[str]:
    return [one.name for one in own_recipes(folder)]


def test_the_shelf_lies_beside_the_settings() -> None:
    assert recipes_folder({"XDG_CONFIG_HOME": "/home/quilter/set"}) == config_folder(
        {"XDG_CONFIG_HOME": "/home/quilter/set"}
    ).joinpath("recipes")


def test_a_shelf_that_is_not_there_is_empty(tmp_path: Path) -> None:
    assert own_recipes(tmp_path / "recipes") == ()


@pytest.mark.parametrize("name", sorted(shipped_recipes()))
def test_what_is_kept_comes_back_equal_with_its_notes(tmp_path: Path, name: str) -> None:
    recipe = shipped_recipes()[name]
    keep_recipe(tmp_path / "recipes", recipe)
    (kept,) = own_recipes(tmp_path / "recipes")
    assert kept.recipe == recipe
    assert kept.recipe.plain == recipe.plain
    assert recipe_in(kept.path) == recipe
    assert (tmp_path / "recipes").stat().st_mode & 0o077 == 0 or os.name == "nt"


@given(st.lists(names, min_size=1, max_size=5))
def test_any_name_gets_a_file_of_its_own(tmp_path_factory: pytest.TempPathFactory, called: list[str]) -> None:
    folder = tmp_path_factory.mktemp("shelf")
    kept = [keep_recipe(folder, rails(name, note=str(number))) for number, name in enumerate(called)]
    assert len({one.path for one in kept}) == len(called)
    assert {one.path.parent for one in kept} == {folder}
    assert sorted(one.name for one in own_recipes(folder)) == sorted(one.name for one in kept)
    assert len({one.name.casefold() for one in kept}) == len(called)
    assert [one.recipe.note for one in kept if one.recipe] == [str(number) for number in range(len(called))]


def test_the_same_recipe_is_kept_once_and_another_of_its_name_beside_it(tmp_path: Path) -> None:
    first = keep_recipe(tmp_path, rails())
    assert keep_recipe(tmp_path, rails()) == first
    second = keep_recipe(tmp_path, rails(about="wider"))
    assert second.name == "Rails (2)"
    assert keep_recipe(tmp_path, rails("RAILS", about="wider still")).name == "RAILS (3)"
    assert listed(tmp_path) == ["Rails", "Rails (2)", "RAILS (3)"]


def test_a_kept_recipe_is_replaced_under_its_own_name(tmp_path: Path) -> None:
    kept = keep_recipe(tmp_path, rails())
    replaced = replace_recipe(tmp_path, kept, rails("Other rails", about="wider"))
    (found,) = own_recipes(tmp_path)
    assert found == replaced
    assert (found.name, found.path) == ("Rails", kept.path)
    assert found.recipe is not None
    assert found.recipe.about == "wider"


def test_a_name_is_changed_in_the_file_and_clashes_are_refused(tmp_path: Path) -> None:
    kept, other = keep_recipe(tmp_path, rails()), keep_recipe(tmp_path, rails("Coins"))
    renamed = rename_recipe(tmp_path, kept, "  Fence ")
    assert listed(tmp_path) == ["Coins", "Fence"]
    assert recipe_in(renamed.path).name == "Fence"
    refused = {
        "coins": "files.recipe-name-taken",
        " ": "files.recipe-no-name",
        "x" * 201: "files.recipe-no-name",
    }
    for name, code in refused.items():
        with pytest.raises(FileError) as refusal:
            rename_recipe(tmp_path, renamed, name)
        assert refusal.value.message.code == code
    assert rename_recipe(tmp_path, other, "COINS").name == "COINS"


def test_what_is_taken_off_can_be_put_back_byte_for_byte(tmp_path: Path) -> None:
    kept = keep_recipe(tmp_path, rails())
    kept.path.write_bytes(b"  " + kept.path.read_bytes())
    before = kept.path.read_bytes()
    data = remove_recipe(kept)
    assert listed(tmp_path) == []
    meanwhile = keep_recipe(tmp_path, rails(about="meanwhile"))
    back = put_back(kept, data)
    assert back.path.read_bytes() == before
    assert meanwhile.path.exists()
    assert back.recipe == kept.recipe


def newer(folder: Path) -> OwnRecipe:
    (folder / "tomorrow.recipe.json").write_bytes(NEWER)
    return own_recipes(folder)[0]


def damaged(folder: Path) -> OwnRecipe:
    (folder / "torn.recipe.json").write_bytes(recipe_bytes(rails())[:-40])
    return own_recipes(folder)[0]


@pytest.mark.parametrize("make", [newer, damaged])
def test_what_can_not_be_read_is_listed_with_a_sentence_and_left_byte_for_byte(
    tmp_path: Path, make: Callable[[Path], OwnRecipe]
) -> None:
    found = make(tmp_path)
    before = found.path.read_bytes()
    assert found.recipe is None
    assert found.newer == (make is newer)
    assert found.fault is not None
    assert found.fault.sentence().startswith(found.path.name)
    changes: tuple[Callable[[], object], ...] = (
        lambda: rename_recipe(tmp_path, found, "Mine"),
        lambda: replace_recipe(tmp_path, found, rails()),
    )
    for change in changes:
        with pytest.raises(FileError) as refusal:
            change()
        assert refusal.value.message.code.startswith("files.recipe-n")
    keep_recipe(tmp_path, rails("Tomorrow"))
    keep_recipe(tmp_path, rails("Torn"))
    assert found.path.read_bytes() == before
    assert len(own_recipes(tmp_path)) == 3


def test_a_file_of_a_newer_program_is_not_saved_over(tmp_path: Path) -> None:
    place = newer(tmp_path).path
    with pytest.raises(FileError) as refusal:
        save_recipe(place, rails())
    assert refusal.value.message.code == "files.recipe-newer-kept"
    assert place.read_bytes() == NEWER


def test_a_recipe_file_is_saved_whole_over_what_the_user_chose(tmp_path: Path) -> None:
    place = tmp_path / "mine.recipe.json"
    place.write_bytes(b"torn")
    save_recipe(place, rails())
    assert recipe_in(place) == rails()
    assert json.loads(place.read_text("utf-8"))["name"] == "Rails"
    assert [path.name for path in tmp_path.iterdir()] == [place.name]


def test_what_a_crash_left_is_swept_and_other_files_are_none_of_ours(tmp_path: Path) -> None:
    stray = tmp_path / ".piecewright-0123456789abcdef.part"
    stray.write_bytes(b"half")
    (tmp_path / "letter.txt").write_bytes(b"dear")
    keep_recipe(tmp_path, rails())
    assert listed(tmp_path) == ["Rails"]
    assert not stray.exists()
    assert (tmp_path / "letter.txt").read_bytes() == b"dear"


def test_a_folder_that_takes_no_file_is_said(tmp_path: Path) -> None:
    (tmp_path / "recipes").write_bytes(b"a file in the way")
    for use in (
        lambda: own_recipes(tmp_path / "recipes"),
        lambda: keep_recipe(tmp_path / "recipes", rails()),
    ):
        with pytest.raises(FileError) as refusal:
            use()
        assert refusal.value.sentence().startswith("recipes: ")


@given(st.binary(max_size=200))
def test_of_any_bytes_on_the_shelf_only_a_sentence_comes(
    tmp_path_factory: pytest.TempPathFactory, data: bytes
) -> None:
    folder = tmp_path_factory.mktemp("shelf")
    (folder / "x.recipe.json").write_bytes(data)
    (found,) = own_recipes(folder)
    assert (found.recipe is None) == (found.fault is not None)
    assert found.path.read_bytes() == data
    if found.recipe is not None:
        assert read_recipe(recipe_bytes(found.recipe)) == found.recipe


def test_a_fault_of_a_recipe_file_names_the_file_and_the_place(tmp_path: Path) -> None:
    place = tmp_path / "mine.recipe.json"
    place.write_text(json.dumps({**rails().plain, "block": ["blok"]}))
    with pytest.raises(PiecewrightError) as refusal:
        recipe_in(place)
    assert refusal.value.sentence() == (
        'mine.recipe.json block[0]: No step before this one makes a piece "blok". Did you mean "block"?'
    )
