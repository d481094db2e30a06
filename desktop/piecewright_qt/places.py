"""The places of one open design, each with its own work. Importing this reads the engine in."""

from piecewright_qt.arrangements.strip import ArrangementStrip
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.materials.column import MaterialsColumn
from piecewright_qt.replan import Replan
from piecewright_qt.runner import Runner
from piecewright_qt.shelf.shelf import Shelf
from piecewright_qt.wall.view import WallView


class Places:
    """Wall, shelf, materials and arrangements, which know the document and not the window."""

    def __init__(self, document: Document, look: Look, runner: Runner) -> None:
        self.replan = Replan(document)
        self.wall = WallView(document, look)
        self.shelf = Shelf(document, look, self.wall)
        self.materials = MaterialsColumn(document, self.replan, look, runner)
        self.strip = ArrangementStrip(document, look)
