"""Kill -9 at random points, while saving and while editing, and see what is on the disk afterwards."""

import itertools
import os
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random

from piecewright.edit.registry import EditCall
from piecewright.errors import FileError
from piecewright.files.design_file import load_design, save_design
from piecewright.files.journal import Journal
from piecewright.files.own_recipes import keep_recipe, own_recipes, rename_recipe
from piecewright.files.recovery import find_left_journals
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from tests.core.files.sample_design import noisy_picture, sample_design, sample_pictures
from tests.core.files.sample_edits import random_edits
from tests.faults.forking import Tell, killed_at_random

WALK_LENGTH = 400


def kill_while_saving(times: int, seed: int) -> dict[str, int]:
    """Kill a program that saves ever new designs, `times` times; count what the next start finds.

    `old` and `new` are whole files: that of the last save told as done, or of the one under way. `false_saved` are
    saves told as done that are not there; `strays_after` are part files that the next start leaves.
    """
    random = Random(seed)
    found = {
        "times": times,
        "old": 0,
        "new": 0,
        "damaged": 0,
        "false_saved": 0,
        "strays_before": 0,
        "strays_after": 0,
    }
    with _folder() as folder:
        place = folder / "quilt.piecewright"
        span = _seconds_of_a_save(place)
        for _ in range(times):
            told = killed_at_random(lambda tell: _save_for_ever(place, tell), random.uniform(0, 2 * span))
            found["strays_before"] += len(list(folder.iterdir())) - 1
            found[_what_is_there(place, told[-1])] += 1
            found["strays_after"] += len(list(folder.iterdir())) - 1
    return found


def kill_while_editing(times: int, seed: int) -> dict[str, int]:
    """Kill a program that edits and keeps a journal, `times` times; count what the next start offers back.

    An edit is acknowledged when the journal has returned. `lost` are kills after which an acknowledged state was not
    offered back exactly.
    """
    random = Random(seed)
    start = sample_design(3, 3)
    walk = random_edits(start, WALK_LENGTH, random)
    states = [start, *(after for _, after in walk)]
    found = {"times": times, "acknowledged": 0, "offered": 0, "lost": 0, "unacknowledged": 0, "left_over": 0}
    with _folder() as folder:
        for _ in range(times):
            told = killed_at_random(
                lambda tell: _edit_for_ever(folder, start, walk, tell), random.uniform(0, 0.02)
            )
            offered = _offered_back(folder, states)
            found["acknowledged"] += told[-1]
            found["offered"] += max(offered, 0)
            found["lost"] += offered not in (told[-1], told[-1] + 1)
            found["unacknowledged"] += offered == told[-1] + 1
            found["left_over"] += len(list(folder.iterdir()))
    return found


def kill_while_keeping(times: int, seed: int) -> dict[str, int]:
    """Kill a program that puts ever new recipes on the user's shelf and renames them; count what is found there.

    `whole` are recipes that read again, `missing` those told as kept that are not there, `twice` recipes found twice.
    """
    random = Random(seed)
    found = {"times": times, "kept": 0, "whole": 0, "damaged": 0, "missing": 0, "twice": 0, "strays_after": 0}
    for _ in range(times):
        with _folder() as folder:
            told = killed_at_random(
                lambda tell, folder=folder: _keep_for_ever(folder, tell),  # type: ignore[misc]
                random.uniform(0, 0.02),
            )
            kept = own_recipes(folder)
            numbers = [int(one.name.rpartition(" ")[2]) for one in kept if one.recipe is not None]
            found["kept"] += told[-1]
            found["whole"] += len(numbers)
            found["damaged"] += sum(one.recipe is None for one in kept)
            found["missing"] += len(set(range(1, told[-1] + 1)) - set(numbers))
            found["twice"] += len(numbers) - len(set(numbers))
            found["strays_after"] += len(list(folder.iterdir())) - len(kept)
    return found


def _keep_for_ever(folder: Path, tell: Tell) -> None:
    plain = next(iter(shipped_recipes().values())).plain
    for number in itertools.count(1):
        kept = keep_recipe(folder, Recipe.from_plain({**plain, "name": f"Made {number}"}))
        tell(number)
        rename_recipe(folder, kept, f"Made again {number}")


def numbered_design(number: int) -> Design:
    """A design that says which one it is."""
    return sample_design().changed(name=f"Quilt {number}")


def pictures() -> dict[str, bytes]:
    """Pictures large enough for a save to take many writes to the disk."""
    return {**sample_pictures(), "leaf.png": noisy_picture(400, 400)}


def _save_for_ever(place: Path, tell: Tell) -> None:
    carried = pictures()
    for number in itertools.count(1):
        save_design(place, numbered_design(number), carried)
        tell(number)


def _seconds_of_a_save(place: Path) -> float:
    save_design(place, numbered_design(0), pictures())
    began = time.perf_counter()
    save_design(place, numbered_design(0), pictures())
    return time.perf_counter() - began


def _what_is_there(place: Path, last_told: int) -> str:
    try:
        design = load_design(place).design
    except FileError:
        return "damaged"
    return {last_told: "old", last_told + 1: "new"}.get(
        int(design.name.removeprefix("Quilt ")), "false_saved"
    )


def _edit_for_ever(folder: Path, start: Design, walk: list[tuple[EditCall, Design]], tell: Tell) -> None:
    journal = Journal.begin(folder, start)
    for number, (call, after) in enumerate(walk, 1):
        journal.append(call, after)
        tell(number)
        if number % 50 == 0:
            journal.sync()
    while True:  # all is edited: wait for the end
        os.sched_yield()


def _offered_back(folder: Path, states: list[Design]) -> int:
    """How many edits come back, -1 if what comes back is not the state after so many."""
    (left,) = find_left_journals(folder).journals
    recovered = left.recover()
    left.settle(recovered)
    return recovered.edits if recovered.design == states[recovered.edits] and not recovered.notes else -1


@contextmanager
def _folder() -> Iterator[Path]:
    with tempfile.TemporaryDirectory(prefix="piecewright-") as folder:
        yield Path(folder)
