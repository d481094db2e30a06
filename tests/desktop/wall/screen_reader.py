"""What a screen reader is told of the wall: a window of its own is opened, and its AT-SPI tree is read over D-Bus.

`dbus-run-session -- python -m tests.desktop.wall.screen_reader` prints a line for each part: depth, role, name.
"""

import os
import re
import subprocess
import sys
from time import monotonic

_ROOT = "/org/a11y/atspi/accessible/root"
_ACCESSIBLE = "org.a11y.atspi.Accessible"
_PAIR = re.compile(r"\('([^']+)', (?:objectpath )?'([^']+)'\)")
_TEXT = re.compile(r"""['"](.*)['"]""")
_PATIENCE = 20.0
"""Seconds that the window may take to come up."""

Line = tuple[int, str, str]


def window() -> None:
    """A window with the mixed quilt, whose cursor goes from block to block and whose blocks come and go."""
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication, QMainWindow

    from piecewright.edit.registry import Cell, call
    from piecewright.files.settings import LoadedPreferences, Preferences
    from piecewright_qt.document import Document
    from piecewright_qt.look import Look
    from piecewright_qt.wall.view import WallView
    from tests.desktop.wall import quilts

    application = QApplication([])
    document = Document(quilts.mixed())
    wall = WallView(document, Look(LoadedPreferences(Preferences(theme="light"), (), ())))
    frame = QMainWindow()
    frame.setCentralWidget(wall)
    frame.resize(700, 600)
    frame.show()
    wall.setFocus()

    def live() -> None:
        item = wall.items[(wall.cursor_cell.column + 1) % len(wall.items)]
        wall.set_cursor_cell(item.id, by_key=True)
        wall.selection.select([item.id])
        document.perform(call("turn-blocks", cells=(Cell(16, 0),), by=90))
        document.undo()

    timer = QTimer()
    timer.timeout.connect(live)
    timer.start(30)
    application.exec()


def read(module: str = __spec__.name, deep: int = 8) -> list[Line]:
    """Open the window of a module and read its tree, so many levels deep, once its list of blocks is there.

    The window must live through it.
    """
    environment = os.environ | {"QT_LINUX_ACCESSIBILITY_ALWAYS_ON": "1", "QT_QPA_PLATFORM": "xcb"}
    shown = subprocess.Popen([sys.executable, "-m", module, "window"], env=environment)
    try:
        address = _TEXT.findall(
            _asked(["--session"], "org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus.GetAddress")
        )[0]
        until = monotonic() + _PATIENCE
        lines: list[Line] = []
        while not any(role == "list item" for _, role, _ in lines) and monotonic() < until:
            lines = _tree(["--address", address], "org.a11y.atspi.Registry", _ROOT, deep)
        if shown.poll() is not None:
            raise RuntimeError(f"the window has ended: {shown.returncode}")
        return lines
    finally:
        shown.terminate()
        shown.wait()


def _tree(bus: list[str], owner: str, path: str, deep: int, depth: int = 0) -> list[Line]:
    name = _asked(bus, owner, path, "org.freedesktop.DBus.Properties.Get", _ACCESSIBLE, "Name")
    role = _asked(bus, owner, path, f"{_ACCESSIBLE}.GetRoleName")
    lines = [(depth, _first(role), _first(name))]
    if depth < deep:
        for who, where in _PAIR.findall(_asked(bus, owner, path, f"{_ACCESSIBLE}.GetChildren")):
            lines += _tree(bus, who, where, deep, depth + 1)
    return lines


def _asked(bus: list[str], owner: str, path: str, method: str, *arguments: str) -> str:
    command = ["gdbus", "call", *bus, "--dest", owner, "--object-path", path, "--method", method, *arguments]
    return subprocess.run(command, capture_output=True, text=True, check=False, timeout=10).stdout.strip()


def _first(answer: str) -> str:
    found = _TEXT.findall(answer)
    return found[0] if found else ""


if __name__ == "__main__":
    if sys.argv[1:] == ["window"]:
        window()
    else:
        for depth, role, name in read():
            sys.stdout.write(f"{depth}\t{role}\t{name}\n")
