"""Recipe files, and the shelf of the user's own recipes: a folder of such files beside the settings.

A file that can not be read, or that a newer program wrote, is listed with its sentence and never written to.
"""

import json
import re
from dataclasses import dataclass
from pathlib import Path

from piecewright.errors import FileError, PiecewrightError
from piecewright.files.atomic import read_file, remove_file, remove_strays, write_new, write_whole
from piecewright.files.faults import reading_refused, saving_refused, shown_name
from piecewright.files.folders import make_folder
from piecewright.files.limits import OWN_RECIPES
from piecewright.making.plain import MOST_BYTES
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.making.shipped import ENDING
from piecewright.model.naming import free_name
from piecewright.words.message import message

MOST_LETTERS = 200
"""Letters of a recipe's name, as the format has it."""

_NEWER = "making.recipe-newer"
_NO_LETTERS = re.compile(r"[\W_]+")
_DEVICES = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)")
_SLUG_LETTERS = 60


@dataclass(frozen=True)
class OwnRecipe:
    """A file of the shelf: its recipe, or the fault that tells why it could not be read."""

    path: Path
    recipe: Recipe | None
    fault: PiecewrightError | None = None

    @property
    def name(self) -> str:
        """What it is called; a file that can not be read goes by its own name."""
        return self.recipe.name if self.recipe is not None else shown_name(self.path)

    @property
    def newer(self) -> bool:
        """Whether a newer program wrote it."""
        return self.fault is not None and self.fault.message.code == _NEWER


def recipe_in(path: Path) -> Recipe:
    """The recipe in a file. Raises FileError and RecipeError, whose place begins with the file's name."""
    name = shown_name(path)
    try:
        return read_recipe(read_file(path, MOST_BYTES))
    except PiecewrightError as error:
        where = error.where if error.where.startswith(name) else f"{name} {error.where}".rstrip()
        raise type(error)(error.message, error.hint, where) from None


def recipe_bytes(recipe: Recipe) -> bytes:
    """A recipe as its file has it: JSON to read."""
    return f"{json.dumps(recipe.plain, indent=2, ensure_ascii=False)}\n".encode()


def save_recipe(path: Path, recipe: Recipe) -> None:
    """Save a recipe whole, in the place of what is there; what a newer program wrote is left. Raises FileError."""
    there = _read(path) if path.exists() else None
    if there is not None and there.newer:
        raise _not_changed(there)
    write_whole(path, recipe_bytes(recipe))


def own_recipes(folder: Path) -> tuple[OwnRecipe, ...]:
    """Every recipe file of the shelf, by name; none where the folder is not there yet.

    What a crash left is removed. Raises FileError where the folder can not be looked into.
    """
    remove_strays(folder)
    try:
        found = sorted(path for path in folder.iterdir() if path.name.endswith(ENDING))
    except FileNotFoundError:
        return ()
    except OSError as error:
        raise reading_refused(folder, error) from error
    read = (_read(path) for path in found[:OWN_RECIPES])
    return tuple(sorted(read, key=lambda one: (one.name.casefold(), one.path)))


def keep_recipe(folder: Path, recipe: Recipe) -> OwnRecipe:
    """Put a recipe on the shelf; one that is there already is not put there again.

    Another of the same name stays: the new one gets a number behind its name. Raises FileError.
    """
    kept = own_recipes(folder)
    there = next((one for one in kept if one.recipe == recipe), None)
    if there is not None:
        return there
    if len(kept) >= OWN_RECIPES:
        said = message("files.recipe-shelf-full", most=OWN_RECIPES)
        raise FileError(said, message("files.recipe-take-off"), recipe.name)
    named = _named(recipe, free_name(recipe.name, (one.name for one in kept)))
    try:
        make_folder(folder)
    except OSError as error:
        raise saving_refused(folder, error) from error
    data, number = recipe_bytes(named), 1
    while not write_new(path := folder / _file_name(named.name, number), data):
        number += 1
    return OwnRecipe(path, named)


def replace_recipe(folder: Path, own: OwnRecipe, recipe: Recipe) -> OwnRecipe:
    """Put a recipe in the place of one on the shelf, under that one's name. Raises FileError."""
    there = _read(own.path)
    if there.recipe is None:
        raise _not_changed(there)
    return _put(folder, there, _named(recipe, there.name))


def rename_recipe(folder: Path, own: OwnRecipe, name: str) -> OwnRecipe:
    """Give a recipe of the shelf another name, in its file too. Raises FileError where the name can not be."""
    there, name = _read(own.path), name.strip()
    if there.recipe is None:
        raise _not_changed(there)
    if not 0 < len(name) <= MOST_LETTERS or not name.isprintable():
        said = message("files.recipe-no-name", most=MOST_LETTERS)
        raise FileError(said, message("files.recipe-choose-name"), there.name)
    others = (one for one in own_recipes(folder) if one.path != own.path)
    if any(one.name.casefold() == name.casefold() for one in others):
        said = message("files.recipe-name-taken", name=name)
        raise FileError(said, message("files.recipe-choose-name"), there.name)
    return _put(folder, there, _named(there.recipe, name))


def remove_recipe(own: OwnRecipe) -> bytes:
    """Take a recipe off the shelf; its bytes, for `put_back`. Raises FileError."""
    data = read_file(own.path, MOST_BYTES)
    remove_file(own.path)
    return data


def put_back(own: OwnRecipe, data: bytes) -> OwnRecipe:
    """Put back what was taken off the shelf, byte for byte; beside whatever came to its place. Raises FileError."""
    path, number = own.path, 1
    while not write_new(path, data):
        number += 1
        path = own.path.with_name(f"{own.path.name.removesuffix(ENDING)}-{number}{ENDING}")
    return _read(path)


def _read(path: Path) -> OwnRecipe:
    try:
        return OwnRecipe(path, recipe_in(path))
    except PiecewrightError as error:
        return OwnRecipe(path, None, error.with_traceback(None))


def _put(folder: Path, own: OwnRecipe, recipe: Recipe) -> OwnRecipe:
    write_whole(folder / own.path.name, recipe_bytes(recipe))
    return OwnRecipe(own.path, recipe)


def _not_changed(own: OwnRecipe) -> FileError:
    code = "files.recipe-newer-kept" if own.newer else "files.recipe-not-changed"
    return FileError(message(code), message("files.recipe-copy-hint"), shown_name(own.path))


def _named(recipe: Recipe, name: str) -> Recipe:
    return recipe if name == recipe.name else Recipe.from_plain({**recipe.plain, "name": name})


def _file_name(name: str, number: int) -> str:
    """A name for the file that every system takes."""
    slug = _NO_LETTERS.sub("-", name.casefold()).strip("-")[:_SLUG_LETTERS] or "recipe"
    slug = f"recipe-{slug}" if _DEVICES.fullmatch(slug) else slug
    return f"{slug}{ENDING}" if number == 1 else f"{slug}-{number}{ENDING}"
