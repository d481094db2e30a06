"""Writes pictures of the window in many states, to be opened and judged: sizes of quilt, names, text, themes, places.

Run as `python -m tests.tools.matrix [NAME ...]`; the pictures lie in `build/matrix`.
"""

import os
import sys
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Literal

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
_FOLDER = tempfile.mkdtemp()
os.environ["XDG_STATE_HOME"] = os.environ["XDG_CONFIG_HOME"] = _FOLDER

from PySide6.QtCore import QPoint  # noqa: E402 - the environment comes first
from PySide6.QtGui import QPainter, QPixmap  # noqa: E402
from PySide6.QtTest import QTest  # noqa: E402
from PySide6.QtWidgets import QMenu, QWidget  # noqa: E402

from piecewright.edit.registry import Cell, apply, call  # noqa: E402
from piecewright.files.design_file import load_design, save_design  # noqa: E402
from piecewright.model.design import Design  # noqa: E402
from piecewright.model.setting import Sashing  # noqa: E402
from piecewright_qt.app import make_application  # noqa: E402
from piecewright_qt.samples import empty_design, sample_files  # noqa: E402
from piecewright_qt.window import Window  # noqa: E402
from piecewright_qt.workroom import Workroom  # noqa: E402
from tests.desktop.shelf.designs import full_design  # noqa: E402
from tests.desktop.wall.quilts import mixed, rails, unlike  # noqa: E402

PLACE = Path(__file__).resolve().parents[2] / "build" / "matrix"
WIDE, SMALL = (1480, 920), (1366, 768)
_SETTLE = 2500
_MENU_STEP = 300
_SASH = Fraction(3, 2)
LONG = (
    "Rail fence for the long hall of the old ferry house, third try, with the lighter blues from the market"
)
Doing = Callable[[Window], object]


def sample() -> Design:
    """The large sample."""
    return load_design(sample_files()[0]).design


def long_names() -> Design:
    """The large sample with names that are far too long."""
    design = apply(sample(), call("set-name", name=LONG))
    for block in design.blocks:
        design = apply(design, call("change-block", block=block.changed(name=f"{block.name}, {LONG}")))
    for fabric in design.fabrics:
        design = apply(
            design, call("change-fabric", fabric=fabric.changed(name=f"{fabric.name} from {LONG}"))
        )
    return design


def bare() -> Design:
    """A wall and nothing else, not even cloth."""
    design = empty_design()
    for block in design.blocks:
        design = apply(design, call("remove-block", block=block.id))
    for fabric in design.fabrics:
        design = apply(design, call("remove-fabric", fabric=fabric.id))
    return design


def ten() -> Design:
    """What a newcomer has after some minutes: ten blocks hung in two rows."""
    design = empty_design()
    block = next(one for one in design.blocks if one.name == "Rail fence of three").id
    for number in range(10):
        cell = Cell(3 + number % 5 * 3, 3 + number // 5 * 3)
        design = apply(design, call("place-block", block=block, cell=cell, turn=number % 2 * 90))
    return design


def sashed() -> Design:
    """Ten blocks with sashing and cornerstones."""
    design = ten()
    first, second = design.fabrics[:2]
    return apply(design, call("set-sashing", sashing=Sashing(first.id, _SASH, _SASH, second.id)))


def on_point() -> Design:
    """The large sample on point."""
    return apply(sample(), call("change-setting", kind="on point"))


def act(name: str) -> Doing:
    """What an action of the window does."""
    return lambda window: window.actions_by_name[name].trigger()


def shop(window: Window) -> None:
    """The shopping list of the Cutting table."""
    window.open_cutting()
    window.cutting.show_page(1)


def select_some(window: Window) -> None:
    """Two blocks selected, one of them under the pointer."""
    window.wall.selection.select([Cell(3, 3), Cell(6, 3)])
    QTest.mouseMove(window.wall.viewport(), QPoint(220, 220))


@dataclass(frozen=True)
class State:
    """What is hung, how it is looked at, and what was done before the picture."""

    make: Callable[[], Design]
    percent: int = 100
    size: tuple[int, int] = WIDE
    do: Doing | None = None
    themes: tuple[Literal["light", "dark"], ...] = ("light", "dark")


_DRAWERS = ("setting", "around", "arrange", "shape", "values", "notes", "history", "settings", "my-recipes")
_PLACES: Mapping[str, Doing] = {
    "sewing-table": act("sewing-table"),
    "cutting-table": act("cutting-table"),
    "shopping": shop,
    "sewing-plan": act("sewing-plan"),
    "resize": act("resize"),
}


def _plain() -> dict[str, State]:
    """The wall as it opens."""
    return {
        "bare": State(bare),
        "empty": State(empty_design),
        "8-blocks": State(mixed),
        "ten": State(ten),
        "ten-selected": State(ten, do=select_some),
        "sashed": State(sashed),
        "110-blocks": State(lambda: rails(10, 11)),
        "2000-blocks": State(lambda: unlike(45, 45)),
        "60-fabrics": State(full_design),
        "long-names": State(long_names),
        "sample": State(sample),
        "on-point": State(on_point),
        "large-text": State(sample, 200),
        "small": State(sample, size=SMALL),
        "small-large-text": State(sample, 200, SMALL),
        "small-empty": State(empty_design, size=SMALL),
    }


def _worked() -> dict[str, State]:
    """Every drawer and place: on the sample, small, with large text, and with nothing there to show."""
    made = {}
    for name, do in {**{name: act(name) for name in _DRAWERS}, **_PLACES}.items():
        made[f"{name}"] = State(sample, do=do)
        made[f"{name}-small"] = State(sample, 100, SMALL, do, ("light",))
        made[f"{name}-large-text"] = State(sample, 200, SMALL, do, ("dark",))
        made[f"{name}-empty"] = State(empty_design, 100, WIDE, do, ("light",))
    return made


STATES: dict[str, State] = {**_plain(), **_worked()}


def take(name: str, state: State, theme: str) -> None:
    """One picture, in a window of its own."""
    workroom = Workroom()
    workroom.look.prefer(theme=theme, text_percent=state.percent)
    path = Path(_FOLDER) / f"{name}-{theme}.piecewright"
    save_design(path, state.make())
    workroom.open(path)
    window = workroom.windows[0]
    if not isinstance(window, Window):
        raise TypeError(window)
    window.resize(*state.size)
    QTest.qWait(_SETTLE)
    window.wall.fit()
    if state.do is not None:
        state.do(window)
    QTest.qWait(_SETTLE)
    window.grab().save(str(PLACE / f"{name}-{theme}.png"))
    window.close()
    workroom.runner.stop()


def take_menus(theme: str) -> None:
    """Every menu of the bar, side by side."""
    workroom = Workroom()
    workroom.look.prefer(theme=theme, text_percent=100)
    path = Path(_FOLDER) / f"menus-{theme}.piecewright"
    save_design(path, ten())
    workroom.open(path)
    window = workroom.windows[0]
    if not isinstance(window, Window):
        raise TypeError(window)
    window.resize(*WIDE)
    QTest.qWait(_SETTLE)
    window.wall.selection.select([Cell(3, 3)])
    menus = [action.menu() for action in window.bar.menus.actions()]
    shown = [_grabbed(menu) for menu in menus if isinstance(menu, QMenu)]
    sheet = QWidget()
    sheet.resize(sum(one.width() + 8 for one in shown), max(one.height() for one in shown))
    picture = sheet.grab()
    painter, left = QPainter(picture), 0
    for one in shown:
        painter.drawPixmap(left, 0, one)
        left += one.width() + 8
    painter.end()
    picture.save(str(PLACE / f"menus-{theme}.png"))
    window.close()
    workroom.runner.stop()


def _grabbed(menu: QMenu) -> QPixmap:
    menu.popup(QPoint(0, 0))
    QTest.qWait(_MENU_STEP)
    picture = menu.grab()
    menu.close()
    return picture


def main(names: list[str]) -> None:
    """All pictures, or those named."""
    application = make_application()
    PLACE.mkdir(parents=True, exist_ok=True)
    for name, state in STATES.items():
        if not names or name in names:
            for theme in state.themes:
                take(name, state, theme)
    if not names or "menus" in names:
        for theme in ("light", "dark"):
            take_menus(theme)
    application.processEvents()


if __name__ == "__main__":
    main(sys.argv[1:])
