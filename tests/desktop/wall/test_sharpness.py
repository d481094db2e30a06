"""Sharp on every screen: each picture is taken in a process of its own, at its own device pixel ratio."""

import os
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest
from PySide6.QtGui import QImage

ROOT = Path(__file__).resolve().parents[3]
_TAKE = """
import sys
from PySide6.QtWidgets import QApplication
application = QApplication([])
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.wall.view import WallView
from tests.desktop.wall import quilts
wall = WallView(Document(quilts.rails(3, 3)), Look(LoadedPreferences(Preferences(theme="light"), (), ())))
wall.resize(520, 520)
wall.show()
application.processEvents()
wall.settle()
application.processEvents()
wall.viewport().grab().save(sys.argv[1])
left, top, right, bottom = wall.camera.device(wall.scene.box(1, 0)).translated(-wall.camera.corner).getCoords()
print(wall.camera.ratio, left, top, right, bottom)
"""


@pytest.mark.parametrize("ratio", ["1", "1.5", "2", "3"])
def test_edges_of_cloth_are_one_device_pixel_sharp(ratio: str, tmp_path: Path) -> None:
    taken = tmp_path / "wall.png"
    environment = os.environ | {
        "QT_QPA_PLATFORM": "offscreen",
        "QT_SCALE_FACTOR": ratio,
        "PYTHONPATH": str(ROOT),
    }
    said = subprocess.run(
        [sys.executable, "-c", _TAKE, str(taken)], env=environment, capture_output=True, text=True, check=True
    ).stdout.split()
    image = QImage(str(taken))
    assert float(said[0]) == float(ratio)
    assert image.width() == round(520 * float(ratio))
    left, top, right, bottom = map(int, said[1:])
    # this block lies turned: its three strips run down, brick stripes, cream, blue dots from the left
    y = (top + bottom) // 2
    plain = "#f1ebdd"
    third = (right - left + 1) / 3
    inner = [
        image.pixelColor(x, y).name() for x in range(round(left + 1.3 * third), round(left + 1.7 * third))
    ]
    assert set(inner) == {plain}
    rows = [image.pixelColor(round(left + 1.5 * third), row).name() for row in range(top, bottom + 1)]
    assert rows.count(plain) > 0.8 * len(rows)
    dark = [image.pixelColor(x, y).lightness() for x in range(left, right + 1)]
    middle = image.pixelColor(round(left + 1.5 * third), y).lightness()
    steps = [abs(one - other) for one, other in pairwise(dark)]
    assert max(steps) > 40, "an edge from cloth to cloth happens from one device pixel to the next"
    assert middle > 220
