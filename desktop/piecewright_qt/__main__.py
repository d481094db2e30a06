"""The program's entry: the engine's commands, and those that need a screen's library."""

import os
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import argparse

    from piecewright.commands.command import Arguments
    from piecewright.commands.pictures import Draw, Picture

OPEN = "open"


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; without any, open the window."""
    given = list(sys.argv[1:] if argv is None else argv) or [OPEN]
    if given[0] == OPEN and len(given) < 3 and not given[-1].startswith("-"):
        return _open_window(Path(given[1]) if len(given) == 2 else None)
    from piecewright.commands.command import Command
    from piecewright.commands.table import main as run_commands

    more = (Command(OPEN, "commands.open", _declare_open, _open),)
    return run_commands(given, more, DRAWS)


def _open_window(path: Path | None) -> int:
    """Straight to the window, which reads the engine in once it has been seen; the commands would read it in before."""
    from piecewright_qt.app import start

    return start(path)


def _declare_open(parser: "argparse.ArgumentParser") -> None:
    parser.add_argument("file", type=Path, nargs="?", metavar="FILE", help="a design to open")


def _open(chosen: "Arguments") -> int:
    return _open_window(chosen.file)


def _draw_png(picture: "Picture") -> bytes:
    """A PNG needs Qt, but no screen."""
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    from PySide6.QtGui import QGuiApplication

    from piecewright_qt.drawing.png import quilt_png, recipe_png

    application = QGuiApplication.instance() or QGuiApplication([])
    try:
        if picture.design is not None:
            return quilt_png(picture.design)
        assert picture.recipe is not None  # noqa: S101 - one of the two is there
        return recipe_png(picture.recipe, picture.given, measure=picture.measure)
    finally:
        del application


DRAWS: "Mapping[str, Draw]" = MappingProxyType({".png": _draw_png})

if __name__ == "__main__":
    sys.exit(main())
