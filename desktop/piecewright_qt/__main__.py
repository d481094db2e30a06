"""The program's entry: the engine's commands, and those that need a screen's library."""

import argparse
import os
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import MappingProxyType

from piecewright.commands import Arguments, Command, Draw, Picture
from piecewright.commands import main as run_commands


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; without any, open the window."""
    given = list(sys.argv[1:] if argv is None else argv)
    return run_commands(given or ["open"], MORE, DRAWS)


def _declare_open(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, nargs="?", metavar="FILE", help="a design to open")


def _open(chosen: Arguments) -> int:
    from piecewright_qt.app import start

    return start(chosen.file)


def _draw_png(picture: Picture) -> bytes:
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


MORE: tuple[Command, ...] = (Command("open", "commands.open", _declare_open, _open),)
DRAWS: Mapping[str, Draw] = MappingProxyType({".png": _draw_png})

if __name__ == "__main__":
    sys.exit(main())
