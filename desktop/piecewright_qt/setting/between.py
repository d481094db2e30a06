"""Fields for what lies between and round the blocks: sashing, and the triangles of a setting on point."""

from fractions import Fraction
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from piecewright.edit.registry import call
from piecewright.model.design import Design
from piecewright.model.quilt import MOST_CELLS
from piecewright.model.setting import Sashing, Triangles
from piecewright_qt.count_field import CountField
from piecewright_qt.drawer import ChoiceField, Drawer, FabricField
from piecewright_qt.setting.ways import say
from piecewright_qt.shelf.fields import CheckField, Field, LengthField
from piecewright_qt.theme.tokens import SPACE

if TYPE_CHECKING:
    from collections.abc import Iterable

_WIDTHS = tuple(Fraction(n, 2) for n in (2, 3, 4, 5, 6))
_SPARE = tuple(Fraction(n, 4) for n in (0, 1, 2, 4))
_FLOATS = tuple(Fraction(n, 4) for n in (0, 1, 2, 4))
_STEPS = tuple(Fraction(1, n) for n in (8, 4, 2, 1))


class _Part(QWidget):
    """Fields below each other that set one thing through their drawer."""

    def __init__(self, drawer: Drawer) -> None:
        super().__init__()
        self.drawer = drawer
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(SPACE)

    def hold(self, fields: "Iterable[QWidget]") -> None:
        """Put fields in; each edit sets the whole thing anew."""
        for field in fields:
            self.column.addWidget(field)
            if isinstance(field, Field):
                field.edited.connect(lambda one=field: self.set_down(one))
            elif isinstance(field, CheckField):
                field.box.clicked.connect(lambda _on, one=field: self.set_down(one))

    def set_down(self, field: QWidget) -> None:
        """Do what the fields say."""
        raise NotImplementedError


class SashingPart(_Part):
    """Sashing: no fabric, none."""

    def __init__(self, drawer: Drawer) -> None:
        super().__init__(drawer)
        measure, document = drawer.look.measure, drawer.document
        self.fabric = FabricField(
            say("Fabric"), document, name=say("Sashing: fabric"), none=say("No sashing")
        )
        self.columns = LengthField(
            say("Width between columns, finished"),
            measure,
            _WIDTHS,
            say("Sashing: width between columns, finished"),
            may_be_zero=True,
        )
        self.rows = LengthField(
            say("Width between rows, finished"),
            measure,
            _WIDTHS,
            say("Sashing: width between rows, finished"),
            may_be_zero=True,
        )
        for width in (self.columns, self.rows):
            width.show_value(_WIDTHS[2])
        self.stones = FabricField(
            say("Cornerstones"), document, name=say("Cornerstones: fabric"), none=say("No cornerstones")
        )
        self.long = ChoiceField(
            say("Run through from edge to edge"), say("Sashing: which strips run through")
        )
        self.outside = CheckField(say("Round the outside too"), say("Sashing round the outermost blocks"))
        self.wide = CountField(say("Columns in a space"), 1, MOST_CELLS)
        self.high = CountField(say("Rows in a space"), 1, MOST_CELLS)
        self.hold(
            (
                self.fabric,
                self.columns,
                self.rows,
                self.stones,
                self.long,
                self.outside,
                self.wide,
                self.high,
            )
        )

    def show_design(self, design: Design) -> None:
        """What the arrangement in view has; fields that would change nothing are not there."""
        quilt = design.quilt
        sashing, on_point = quilt.sashing, quilt.lattice.kind == "on point"
        self.fabric.show_fabric(sashing.fabric if sashing else None)
        for field in (self.columns, self.stones, self.outside):
            field.setVisible(sashing is not None)
        self.rows.setVisible(sashing is not None and not on_point)
        for count in (self.wide, self.high):
            count.setVisible(sashing is not None and not on_point)
        self.long.setVisible(sashing is not None and sashing.cornerstones is None)
        self.columns.label.setText(
            say("Width, finished") if on_point else say("Width between columns, finished")
        )
        self.wide.show_value(quilt.lattice.space_columns)
        self.high.show_value(quilt.lattice.space_rows)
        if sashing is None:
            self.stones.show_fabric(None)
            return
        for length, value in ((self.columns, sashing.columns), (self.rows, sashing.rows)):
            if length.value != value:
                length.show_value(value)
        self.stones.show_fabric(sashing.cornerstones)
        self.long.show_choices(
            [("rows", say("Strips between rows")), ("columns", say("Strips between columns"))], sashing.long
        )
        self.outside.box.setChecked(sashing.outside)

    def set_down(self, field: QWidget) -> None:
        """Lay it so."""
        fabric, on_point = self.fabric.value, self.drawer.document.design.quilt.lattice.kind == "on point"
        told = field if isinstance(field, Field) else self.fabric
        if not isinstance(fabric, str):
            self.drawer.try_edit(told, lambda: call("set-sashing", sashing=None))
            return
        columns, rows = self.columns.value, self.columns.value if on_point else self.rows.value
        if columns is None or rows is None:
            return
        before = self.drawer.document.design.quilt.sashing
        stones = self.stones.value
        spaces = {self.wide: "space_columns", self.high: "space_rows"}
        more = {name: count.box.value() for count, name in spaces.items() if count is field}
        self.drawer.try_edit(
            told,
            lambda: call(
                "set-sashing",
                sashing=Sashing(
                    fabric,
                    columns,
                    rows,
                    stones if isinstance(stones, str) else None,
                    "columns" if self.long.value == "columns" else "rows",
                    before is None or self.outside.box.isChecked(),
                ),
                **more,
            ),
        )


class TrianglesPart(_Part):
    """Setting triangles."""

    def __init__(self, drawer: Drawer) -> None:
        super().__init__(drawer)
        measure = drawer.look.measure
        self.fabric = FabricField(
            say("Fabric"), drawer.document, may_be_none=True, name=say("Setting triangles: fabric")
        )
        self.floating = LengthField(
            say("Float: how far points stay inside the edge"),
            measure,
            _FLOATS,
            say("Setting triangles: float"),
            may_be_zero=True,
        )
        self.allowance = ChoiceField(say("Squares they are cut from"), say("Setting triangles: squares"))
        self.spare = LengthField(
            say("More to spare on each square"),
            measure,
            _SPARE,
            say("Setting triangles: spare"),
            may_be_zero=True,
        )
        self.step = LengthField(
            say("Squares rounded up to"), measure, _STEPS, say("Setting triangles: rounded up to")
        )
        self.hold((self.fabric, self.floating, self.allowance, self.spare, self.step))

    def show_design(self, design: Design) -> None:
        """What the arrangement in view has."""
        triangles = design.quilt.triangles
        self.fabric.show_fabric(triangles.fabric)
        self.allowance.show_choices(
            [("chart", say("As charts have them")), ("exact", say("As large as they must be"))],
            triangles.allowance,
        )
        for field, value in (
            (self.floating, triangles.float),
            (self.spare, triangles.spare),
            (self.step, triangles.step),
        ):
            if field.value != value:
                field.show_value(value)

    def set_down(self, field: QWidget) -> None:
        """Cut them so."""
        floating, spare, step = self.floating.value, self.spare.value, self.step.value
        fabric = self.fabric.value
        if floating is None or spare is None or step is None:
            return
        self.drawer.try_edit(
            field if isinstance(field, Field) else None,
            lambda: call(
                "set-triangles",
                triangles=Triangles(
                    fabric if isinstance(fabric, str) else None,
                    floating,
                    "exact" if self.allowance.value == "exact" else "chart",
                    spare,
                    step,
                ),
            ),
        )
