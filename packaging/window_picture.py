"""Take the picture of the window that the README shows: the sample on the wall, off-screen, twice as sharp."""

import os
import sys
import tempfile
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["QT_SCALE_FACTOR"] = "2"
_FOLDER = tempfile.mkdtemp()
os.environ["XDG_STATE_HOME"] = os.environ["XDG_CONFIG_HOME"] = _FOLDER

from PySide6.QtTest import QTest  # noqa: E402 - the environment comes first

from piecewright_qt.app import make_application  # noqa: E402
from piecewright_qt.samples import sample_files  # noqa: E402
from piecewright_qt.window import Window  # noqa: E402
from piecewright_qt.workroom import Workroom  # noqa: E402

PLACE = Path(__file__).parent / "pictures" / "window.png"
SIZE = (1400, 880)
_SETTLE = 1500


def main(place: Path, theme: str = "light") -> None:
    """Open the sample, let it settle, and keep what the window shows."""
    application = make_application()
    workroom = Workroom()
    workroom.look.prefer(theme=theme)
    workroom.open(sample_files()[0])
    window = workroom.windows[0]
    if not isinstance(window, Window):
        raise TypeError(window)
    window.resize(*SIZE)
    QTest.qWait(_SETTLE)
    window.wall.fit()
    window.wall.setFocus()
    QTest.qWait(_SETTLE)
    place.parent.mkdir(parents=True, exist_ok=True)
    window.grab().save(str(place))
    workroom.quit()
    application.processEvents()


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else PLACE, sys.argv[2] if len(sys.argv) > 2 else "light")
