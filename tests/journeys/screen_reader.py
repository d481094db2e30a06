"""What a screen reader is told of the whole window with the sample on its wall.

`dbus-run-session -- python -m tests.journeys.screen_reader` prints a line for each part: depth, role, name.
"""

import os
import sys
import tempfile

from tests.desktop.wall.screen_reader import read

DEEP = 16


def window() -> None:
    """The program, opened on the large sample."""
    folder = tempfile.mkdtemp()
    os.environ["XDG_STATE_HOME"] = os.environ["XDG_CONFIG_HOME"] = folder
    from piecewright_qt.app import start
    from piecewright_qt.samples import sample_files

    start(sample_files()[0])


if __name__ == "__main__":
    if sys.argv[1:] == ["window"]:
        window()
    else:
        for depth, role, name in read("tests.journeys.screen_reader", DEEP):
            sys.stdout.write(f"{depth}\t{role}\t{name}\n")
