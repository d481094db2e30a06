"""Writes pictures of the window in many states, to be opened and judged: sizes of quilt, names, text, themes.

Run as `python -m tests.tools.matrix`; the pictures lie in `build/matrix`.
"""

import os
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
_FOLDER = tempfile.mkdtemp()
os.environ["XDG_STATE_HOME"] = os.environ["XDG_CONFIG_HOME"] = _FOLDER

from PySide6.QtTest import QTest  # noqa: E402 - the environment comes first

from piecewright.edit.registry import apply, call  # noqa: E402
from piecewright.files.design_file import load_design, save_design  # noqa: E402
from piecewright.model.design import Design  # noqa: E402
from piecewright_qt.app import make_application  # noqa: E402
from piecewright_qt.samples import empty_design, sample_files  # noqa: E402
from piecewright_qt.workroom import Workroom  # noqa: E402
from tests.desktop.shelf.designs import full_design  # noqa: E402
from tests.desktop.wall.quilts import mixed, rails, unlike  # noqa: E402

PLACE = Path(__file__).resolve().parents[2] / "build" / "matrix"
SIZE = (1480, 920)
_SETTLE = 2500
LONG = (
    "Rail fence for the long hall of the old ferry house, third try, with the lighter blues from the market"
)


def long_names() -> Design:
    """The large sample with names that are far too long."""
    design = load_design(sample_files()[0]).design
    design = apply(design, call("set-name", name=LONG))
    for block in design.blocks:
        design = apply(design, call("change-block", block=block.changed(name=f"{block.name}, {LONG}")))
    for fabric in design.fabrics:
        design = apply(
            design, call("change-fabric", fabric=fabric.changed(name=f"{fabric.name} from {LONG}"))
        )
    return design


STATES: dict[str, tuple[Callable[[], Design], int]] = {
    "empty": (empty_design, 100),
    "8-blocks": (mixed, 100),
    "110-blocks": (lambda: rails(10, 11), 100),
    "2000-blocks": (lambda: unlike(45, 45), 100),
    "60-fabrics": (full_design, 100),
    "long-names": (long_names, 100),
    "sample": (lambda: load_design(sample_files()[0]).design, 100),
    "large-text": (lambda: load_design(sample_files()[0]).design, 200),
}


def take(name: str, design: Design, theme: str, percent: int) -> None:
    """One picture, in a window of its own."""
    workroom = Workroom()
    workroom.look.prefer(theme=theme, text_percent=percent)
    path = Path(_FOLDER) / f"{name}-{theme}.piecewright"
    save_design(path, design)
    workroom.open(path)
    window = workroom.windows[0]
    window.resize(*SIZE)
    QTest.qWait(_SETTLE)
    window.wall.fit()
    QTest.qWait(_SETTLE)
    window.grab().save(str(PLACE / f"{name}-{theme}.png"))
    window.close()
    workroom.runner.stop()


def main(names: list[str]) -> None:
    """All pictures, or those named."""
    application = make_application()
    PLACE.mkdir(parents=True, exist_ok=True)
    for name, (make, percent) in STATES.items():
        if not names or name in names:
            for theme in ("light", "dark"):
                take(name, make(), theme, percent)
    application.processEvents()


if __name__ == "__main__":
    main(sys.argv[1:])
