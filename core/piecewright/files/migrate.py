"""Older format versions become the present one, step by registered step, while still plain JSON."""

from collections.abc import Callable, Mapping
from typing import Any

from piecewright.errors import FileError
from piecewright.model.design import FORMAT
from piecewright.words.message import message

Plain = dict[str, Any]
Step = Callable[[Plain], Plain]

STEPS: dict[int, Step] = {}
"""For each older version the step that makes the next one of it. Version 1 is the first, so there is none
yet.
"""

VERSION_KEY = "piecewright"


def migration(version: int, steps: dict[int, Step] = STEPS) -> Callable[[Step], Step]:
    """Register a function that turns a plain design of `version` into one of `version + 1`.

    The number is set for it.
    """

    def register(step: Step) -> Step:
        if version in steps:
            raise ValueError(f"two steps lead on from version {version}")
        steps[version] = step
        return step

    return register


def migrate(plain: Plain, steps: Mapping[int, Step] = STEPS, target: int = FORMAT) -> Plain:
    """The design at version `target`, by every step from its own version on.

    FileError where a step is missing.
    """
    while (version := plain[VERSION_KEY]) < target:
        if version not in steps:
            raise FileError(
                message("files.unknown-version", version=version, newest=target),
                message("files.version-hint"),
            )
        plain = {**steps[version](plain), VERSION_KEY: version + 1}
    return plain
