"""One border among the fields: its cloth and width, its corners, and what it is pieced of."""

from fractions import Fraction
from typing import TYPE_CHECKING, Literal, cast

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QLabel, QToolButton, QVBoxLayout, QWidget

from piecewright.edit.registry import call
from piecewright.model.quilt import Border, Turn
from piecewright.model.setting import Pieced
from piecewright.plan.borders import BorderPlan
from piecewright_qt.drawer import ChoiceField, FabricField
from piecewright_qt.materials.typesetting import kept_whole
from piecewright_qt.messages import words
from piecewright_qt.piece_fabrics import PieceFabrics
from piecewright_qt.sewing_table.numbers.wrap_button import WrapButton
from piecewright_qt.shelf.fields import Field, LengthField
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT

if TYPE_CHECKING:
    from piecewright_qt.around import AroundDrawer

_WIDTHS = tuple(Fraction(n, 2) for n in (1, 2, 3, 4, 5, 6, 8, 10, 12))
_LENGTHS = tuple(map(Fraction, (1, 2, 3, 4, 6)))
_SPARES = (Fraction(1), Fraction(2), Fraction(4))
_LARGE = 1.3
"""The scale of text from which no two fields stand side by side."""
_TURNS: tuple[Turn, ...] = (0, 90, 180, 270)
_CLOTH, _PIECES, _BLOCKS = "cloth", "pieces", "blocks"


class BorderRow(QWidget):
    """A border's fields; those that mean nothing for its kind are not shown."""

    def __init__(self, drawer: "AroundDrawer", index: int, count: int) -> None:
        super().__init__()
        self._drawer = drawer
        self._index = index
        self.name = _say("Border {n}").format(n=index + 1)
        document, measure = drawer.document, drawer.look.measure
        self.fabric = FabricField(self.name, document, name=self._called(_say("fabric")))
        self.width_field = LengthField(
            _say("Width, finished"), measure, _WIDTHS, self._called(_say("width, finished"))
        )
        self.made = ChoiceField(_say("Made of"), self._called(_say("made of")))
        self.length = LengthField(
            _say("Length of a piece, finished"), measure, _LENGTHS, self._called(_say("length of a piece"))
        )
        self.fabrics = PieceFabrics(drawer, self.name)
        self.block = ChoiceField(_say("Block"), self._called(_say("block")))
        self.turn = ChoiceField(_say("Turned in the top border"), self._called(_say("turned")))
        self.corners = ChoiceField(_say("Corners"), self._called(_say("corners")))
        self.corner = FabricField(
            _say("Squares"), document, name=self._called(_say("squares")), none=_say("The border's own")
        )
        self.spare = LengthField(
            _say("Cut longer by"), measure, _SPARES, self._called(_say("cut longer by")), may_be_zero=True
        )
        self.first = ChoiceField(_say("Sewn on first"), self._called(_say("sewn on first")))
        self.grain = ChoiceField(_say("Strips cut"), self._called(_say("strips cut")))
        self.note = QLabel()
        self.inside = WrapButton("")
        self._lay_out(count)
        for field in self._fields:
            field.edited.connect(lambda field=field: drawer.change_border(index, field))
        self.fabrics.edited.connect(lambda: drawer.change_border(index, None))
        self.inside.clicked.connect(self._put_inside)

    @property
    def _fields(self) -> tuple[Field, ...]:
        lengths = (self.width_field, self.length, self.spare)
        choices = (
            self.fabric,
            self.made,
            self.block,
            self.turn,
            self.corners,
            self.corner,
            self.first,
            self.grain,
        )
        return (*lengths, *choices)

    @property
    def is_whole(self) -> bool:
        """Whether all its lengths can be read."""
        return all(one.value is not None for one in (self.width_field, self.length, self.spare))

    def border(self) -> Border:
        """What the fields say. Raises BrokenRuleError for what can not be."""
        border = self._drawer.document.design.quilt.borders[self._index]
        corners = str(self.corners.value or border.corners)
        corner = self.corner.value
        return border.changed(
            fabric=str(self.fabric.value or border.fabric),
            width=self.width_field.value,
            first="top and bottom" if self.first.value == "top and bottom" else "sides",
            corners=cast("Literal['butted', 'mitered', 'squares']", corners),
            corner=None if corner is None else str(corner),
            spare=self.spare.value,
            grain="lengthwise" if self.grain.value == "lengthwise" else "crosswise",
            pieced=self._pieced(border),
        )

    def show_border(self, border: Border, plan: BorderPlan) -> None:
        """Show what the design has, and how it comes out."""
        pieced = border.pieced
        made = _CLOTH if pieced is None else _BLOCKS if pieced.block else _PIECES
        self.fabric.show_fabric(border.fabric)
        self.corner.show_fabric(border.corner)
        lengths = [(self.width_field, border.width), (self.spare, border.spare)]
        lengths.append((self.length, border.width if pieced is None else pieced.length))
        for field, value in lengths:
            if field.value != value:
                field.show_value(value)
        self._show_choices(border, made)
        self.fabrics.show_fabrics(pieced.fabrics if pieced else ())
        for widget, shown in (
            (self.length, made == _PIECES),
            (self.fabrics, made == _PIECES),
            (self.block, made == _BLOCKS),
            (self.turn, made == _BLOCKS),
            (self.corner, border.corners == "squares"),
            (self.spare, border.corners == "mitered"),
            (self.first, border.corners != "mitered"),
            (self.grain, made == _CLOTH),
        ):
            widget.setVisible(shown)
        self.width_field.setEnabled(made != _BLOCKS)
        self.width_field.setToolTip(_say("The block is as wide") if made == _BLOCKS else "")
        self._show_plan(plan)

    def _show_choices(self, border: Border, made: str) -> None:
        blocks = [(one.id, one.name) for one in self._drawer.document.design.blocks]
        ways = [(_CLOTH, _say("One cloth")), (_PIECES, _say("Pieces of cloth, in turn"))]
        pieced = border.pieced
        self.made.show_choices([*ways, *([(_BLOCKS, _say("Blocks"))] if blocks else [])], made)
        chosen = pieced.block if pieced and pieced.block else blocks[0][0] if blocks else None
        self.block.show_choices(list(blocks), chosen)
        self.turn.show_choices([(turn, f"{turn}°") for turn in _TURNS], pieced.turn if pieced else 0)
        corners = [
            ("butted", _say("Butted")),
            ("mitered", _say("Mitered")),
            ("squares", _say("Corner squares")),
        ]
        self.corners.show_choices(list(corners), border.corners)
        first = [("sides", _say("Sides")), ("top and bottom", _say("Top and bottom"))]
        self.first.show_choices(list(first), border.first)
        grains = [("crosswise", _say("Across the cloth, joined")), ("lengthwise", _say("Along the selvage"))]
        self.grain.show_choices(list(grains), border.grain)

    def _show_plan(self, plan: BorderPlan) -> None:
        """How many pieces, what coping strips make it come out, and what is wrong."""
        measure = self._drawer.look.measure
        told = [words(plan.why, measure)] if plan.side_run else []
        told += [words(finding, measure) for finding in plan.findings]
        if plan.side_run and not plan.findings:
            told.append(_say("Whole pieces fill all four sides."))
        self.note.setText(kept_whole("\n".join(told)))
        self.note.setVisible(bool(told))
        self.inside.setVisible(plan.inside is not None)
        if plan.inside is not None:
            self.inside.rename(
                _say("Put a border of {width} inside it").format(width=measure.length(plan.inside))
            )

    def _pieced(self, border: Border) -> Pieced | None:
        made, old = self.made.value, border.pieced
        if made == _PIECES:
            fabrics = self.fabrics.chosen or self._first_fabrics(border)
            return Pieced(self.length.value or border.width, fabrics)
        if made == _BLOCKS:
            turn: Turn = next((turn for turn in _TURNS if turn == self.turn.value), 0)
            length = old.length if old is not None else border.width
            return Pieced(length, (), str(self.block.value), turn)
        return None

    def _first_fabrics(self, border: Border) -> tuple[str, ...]:
        """Its own cloth, and another one in turn."""
        others = (one.id for one in self._drawer.document.design.fabrics if one.id != border.fabric)
        return (border.fabric, *list(others)[:1])

    def _put_inside(self) -> None:
        document = self._drawer.document
        plan = self._drawer.plan_of(self._index)
        if plan.inside is not None:
            border = Border(plan.fabric, plan.inside)
            document.perform(call("add-border", border=border, at=self._index))

    def _called(self, what: str) -> str:
        return _say("{name}: {what}").format(name=self.name, what=what)

    def _lay_out(self, count: int) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, SPACE)
        column.setSpacing(SPACE_TIGHT)
        top = self._pair()
        top.addWidget(self.fabric, 1)
        buttons = self._buttons(count)
        top.addLayout(buttons)
        top.setAlignment(buttons, Qt.AlignmentFlag.AlignBottom)
        column.addLayout(top)
        for pair in (
            (self.width_field, self.first),
            (self.made,),
            (self.length,),
            (self.fabrics,),
            (self.block, self.turn),
            (self.corners,),
            (self.corner, self.spare),
            (self.grain,),
        ):
            both = self._pair()
            for field in pair:
                both.addWidget(field, 1)
            column.addLayout(both)
        self.note.setProperty("type", "small")
        self.note.setWordWrap(True)
        column.addWidget(self.note)
        column.addWidget(self.inside)

    def _pair(self) -> QBoxLayout:
        """Side by side, or with large text one below the other."""
        large = self._drawer.look.scale.text > _LARGE
        return QBoxLayout(QBoxLayout.Direction.TopToBottom if large else QBoxLayout.Direction.LeftToRight)

    def _buttons(self, count: int) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(0)
        row.addStretch(1)
        for drawing, what, usable, run in (
            ("up", _say("farther in"), self._index > 0, self._inwards),
            ("down", _say("farther out"), self._index < count - 1, self._outwards),
            ("delete", _say("take it away"), True, self._remove),
        ):
            button = QToolButton()
            button.setIcon(icon(drawing, self._drawer.look.theme))
            button.setAccessibleName(self._called(what))
            button.setToolTip(self._called(what))
            button.setEnabled(usable)
            button.clicked.connect(run)
            row.addWidget(button)
        return row

    def _inwards(self) -> None:
        self._drawer.document.perform(call("move-border", index=self._index, to=self._index - 1))

    def _outwards(self) -> None:
        self._drawer.document.perform(call("move-border", index=self._index, to=self._index + 1))

    def _remove(self) -> None:
        self._drawer.document.perform(call("remove-border", index=self._index))


def _say(text: str) -> str:
    return QCoreApplication.translate("borders", text)
