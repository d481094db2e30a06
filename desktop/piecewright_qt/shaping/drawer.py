"""The drawer of the shape to cover: one of six in its sizes, or drawn by hand; covered with a block of the shelf."""

from fractions import Fraction

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout

from piecewright.edit.registry import EditCall, call
from piecewright.model.design import Design
from piecewright.model.shape import Corner, Shape
from piecewright.model.usual_shapes import USUAL_SHAPES, UsualShape
from piecewright.model.value import Sizes
from piecewright_qt.document import Document
from piecewright_qt.drawer import ChoiceField, Drawer
from piecewright_qt.look import Look
from piecewright_qt.shaping.outline_field import OutlineField
from piecewright_qt.shelf.fields import Field, LengthField
from piecewright_qt.theme.tokens import SPACE

_DRAWN = "drawn by hand"
_MARGINS = (Fraction(0), Fraction(1, 2), Fraction(1), Fraction(2))
_FIRST = tuple(Corner(Fraction(x), Fraction(y)) for x, y in ((0, 0), (18, 0), (18, 12), (0, 12)))


def say(text: str) -> str:
    """A text of the drawer in the user's language."""
    return QCoreApplication.translate("shaping", text)


def words_of(name: str) -> str:
    """A shape or a size by its name, in the user's language."""
    return say(name[0].upper() + name[1:])


class ShapeDrawer(Drawer):
    """Every size is an edit at once: the wall veils what falls off, the materials follow."""

    def __init__(self, document: Document, look: Look) -> None:
        self.sizes: dict[str, LengthField] = {}
        self._sized = ""
        super().__init__(document, look, say("Shape to cover"))

    def build(self) -> None:
        """Which shape, its sizes, its margin; then the block that covers it."""
        self.add_note(say("Blocks cover the shape; once quilted, the shape is cut out of the cloth."))
        self.kind = ChoiceField(say("Shape"))
        self.kind.edited.connect(self._choose)
        self.body.addWidget(self.kind)
        self._sizes = QVBoxLayout()
        self._sizes.setSpacing(SPACE)
        self.body.addLayout(self._sizes)
        self.sizes, self._sized = {}, ""
        self.drawing = OutlineField(self.look)
        self.drawing.edited.connect(self._set)
        self.body.addWidget(self.drawing)
        self.margin = LengthField(
            say("Cloth beyond it, all round"),
            self.look.measure,
            _MARGINS,
            say("Shape: cloth beyond it"),
            may_be_zero=True,
        )
        self.margin.show_value(Fraction(1))
        self.margin.edited.connect(self._set)
        self.body.addWidget(self.margin)
        self.trouble = QLabel()
        self.trouble.setProperty("tone", "error")
        self.trouble.setWordWrap(True)
        self.trouble.setTextFormat(Qt.TextFormat.PlainText)
        self.body.addWidget(self.trouble)
        self.cover_heading = self.add_heading(say("Cover it"))
        self.block = ChoiceField(say("With the block"), say("Shape: block to cover it with"))
        self.body.addWidget(self.block)
        self.cover = QPushButton(say("Lay it over every free place"))
        self.cover.setToolTip(say("Lay the block over every free place that the shape needs, side by side"))
        self.cover.clicked.connect(self._cover)
        self.body.addWidget(self.cover)

    def show_values(self, design: Design) -> None:
        """Show the shape of the arrangement in view."""
        shape = design.quilt.shape
        kind = _kind_of(shape)
        choices: list[tuple[object, str]] = [("", say("None: a whole quilt"))]
        choices += [(name, words_of(name)) for name in USUAL_SHAPES]
        self.kind.show_choices([*choices, (_DRAWN, say("Drawn by hand"))], kind)
        self._show_sizes(kind, shape)
        self.drawing.setVisible(kind == _DRAWN)
        if shape is not None and kind == _DRAWN and self.drawing.home() != shape.corners:
            self.drawing.show_corners(shape.corners)
        for widget in (self.margin, self.cover_heading, self.block, self.cover):
            widget.setVisible(shape is not None)
        if shape is not None and self.margin.value != shape.margin:
            self.margin.show_value(shape.margin)
        blocks: list[tuple[object, str]] = [(block.id, block.name) for block in design.blocks]
        here = self.block.value
        known = {value for value, _ in blocks}
        self.block.show_choices(blocks, here if here in known else next(iter(dict(blocks)), None))
        self.cover.setEnabled(bool(blocks))
        self.trouble.setText("")
        self.trouble.setVisible(False)

    def _show_sizes(self, kind: str, shape: Shape | None) -> None:
        if kind != self._sized:
            for field in self.sizes.values():
                self._sizes.removeWidget(field)
                field.hide()
                field.deleteLater()
            self.sizes, self._sized = {}, kind
            usual_shape = _usual_shape(kind)
            for name, usual in usual_shape.usual.items() if usual_shape else ():
                self.sizes[name] = self._size_field(name, usual)
        for name, size in shape.sized.items() if shape else ():
            if name in self.sizes and self.sizes[name].value != size:
                self.sizes[name].show_value(size)

    def _size_field(self, name: str, usual: Fraction) -> LengthField:
        field = LengthField(
            words_of(name),
            self.look.measure,
            (usual,),
            say("Shape: {size}").format(size=words_of(name)),
            may_be_zero=True,
        )
        field.show_value(usual)
        field.edited.connect(lambda: self._set(field))
        self._sizes.addWidget(field)
        return field

    def _choose(self) -> None:
        kind = str(self.kind.value or "")
        if kind != self._sized:
            self._show_sizes(kind, None)
        if kind == _DRAWN:
            shape = self.document.design.quilt.shape
            self.drawing.show_corners(shape.outline if shape else _FIRST)
        self._set(self.kind)

    def _wanted(self) -> EditCall:
        """The edit that the fields ask for. Raises a DesignError where they make no shape."""
        kind = str(self.kind.value or "")
        margin = Fraction(1) if self.margin.value is None else self.margin.value
        if not kind:
            return call("set-shape", shape=None)
        usual_shape = _usual_shape(kind)
        if usual_shape is None:
            return call("set-shape", shape=Shape(corners=self.drawing.home(), margin=margin))
        sizes = {
            name: field.value
            for name, field in self.sizes.items()
            if field.value is not None and field.value != usual_shape.usual[name]
        }
        return call("set-shape", shape=Shape(usual_shape.name, Sizes(sizes), margin=margin))

    def _set(self, field: Field | None = None) -> None:
        self.trouble.setVisible(False)
        self.try_edit(field if field is not None else self.margin, self._wanted)

    def _cover(self) -> None:
        block = self.block.value
        if isinstance(block, str):
            self.try_edit(self.block, lambda: call("cover-shape", block=block))


def _usual_shape(kind: str) -> UsualShape | None:
    return next((one for name, one in USUAL_SHAPES.items() if name == kind), None)


def _kind_of(shape: Shape | None) -> str:
    return "" if shape is None else shape.kind or _DRAWN
