"""The drawer of values: gray and squint, the shares of light, medium and dark, every cloth, and what reads as one."""

from PySide6.QtCore import QCoreApplication, QSize
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from piecewright.edit.registry import EditCall, call
from piecewright.model.design import Design
from piecewright.plan.values import VALUES, FabricValue, ValueReport, value_report
from piecewright.render.gray import gray_cloth
from piecewright_qt.document import Document
from piecewright_qt.drawer import ChoiceField, Drawer
from piecewright_qt.look import Look
from piecewright_qt.shelf.fields import CheckField
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT
from piecewright_qt.values.shares import ShareBar
from piecewright_qt.wall.view import WallView

_CHIP = QSize(28, 28)


def say(text: str) -> str:
    """A text of the drawer in the user's language."""
    return QCoreApplication.translate("values", text)


def value_word(value: str) -> str:
    """Light, medium or dark."""
    return {"light": say("light"), "medium": say("medium"), "dark": say("dark")}[value]


class ValuesDrawer(Drawer):
    """What the wall shows in grays is only shown; a value set by hand is an edit of the fabric."""

    def __init__(self, document: Document, look: Look, wall: WallView) -> None:
        self._wall = wall
        self._fields: dict[str, ChoiceField] = {}
        self._report: ValueReport | None = None
        super().__init__(document, look, say("Values"))

    def build(self) -> None:
        """How the wall is seen; then the sums; then the fabrics."""
        self._pictures = Pictures(self)
        self.gray = CheckField(say("In grays"), say("Every cloth in the gray that is just as light"))
        self.squint = CheckField(
            say("Squint, with half-closed eyes"), say("Blurred: what is alike runs together")
        )
        for field in (self.gray, self.squint):
            field.box.clicked.connect(self._show_on_wall)
            self.body.addWidget(field)
        self.gray.box.setChecked(self._wall.is_gray)
        self.squint.box.setChecked(self._wall.squints)
        self.add_heading(say("In this quilt"))
        self.bar = ShareBar(self.look)
        self.body.addWidget(self.bar)
        self.shares = self.add_note("")
        self.warning_heading = self.add_heading(say("These will read as one"))
        self.warnings = QLabel()
        self.warnings.setWordWrap(True)
        self.body.addWidget(self.warnings)
        self.add_heading(say("Fabrics, from light to dark"))
        self.none = self.add_note(say("Hang blocks on the wall; their fabrics stand here."))
        self._list = QVBoxLayout()
        self._list.setSpacing(SPACE)
        self.body.addLayout(self._list)
        self._fields = {}
        self._report = None

    def show_values(self, design: Design) -> None:
        """The values of the arrangement in view."""
        report = value_report(design)
        if report == self._report:
            return
        self._report = report
        measure, names = self.look.measure, {fabric.id: fabric.name for fabric in design.fabrics}
        parts = [f"{value_word(value)} {measure.percent(round(report.shares[value], 2))}" for value in VALUES]
        text = ", ".join(parts) if report.fabrics else say("Nothing hangs yet.")
        self.shares.setText(text)
        self.bar.show_shares(report.shares, text)
        as_one = report.as_one
        self.warning_heading.setVisible(bool(as_one))
        self.warnings.setVisible(bool(as_one))
        line = say("{first} and {second}, beside each other along {inches}")
        self.warnings.setText(
            "\n".join(
                line.format(
                    first=names[pair.first],
                    second=names[pair.second],
                    inches=measure.length(round(pair.inches)),
                )
                for pair in as_one
            )
        )
        self.none.setVisible(not report.fabrics)
        self._list_fabrics(design, report)

    def _show_on_wall(self) -> None:
        self._wall.show_values(gray=self.gray.box.isChecked(), squint=self.squint.box.isChecked())

    def _list_fabrics(self, design: Design, report: ValueReport) -> None:
        """One row for each cloth, lightest first; the rows are made anew only where the cloths are others."""
        ordered = sorted(report.fabrics, key=lambda each: -each.lightness)
        if list(self._fields) != [each.fabric for each in ordered]:
            self._make_rows(design, ordered)
        for each in ordered:
            by_hand = each.value if each.by_hand else None
            measured = say("as measured") if each.by_hand else value_word(each.value)
            choices: list[tuple[object, str]] = [(None, measured)]
            choices += [(value, say("{value}, by hand").format(value=value_word(value))) for value in VALUES]
            self._fields[each.fabric].show_choices(choices, by_hand)

    def _make_rows(self, design: Design, ordered: list[FabricValue]) -> None:
        while (item := self._list.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self._fields = {}
        for each in ordered:
            fabric = design.shelf.fabrics[each.fabric]
            label = say("{name} · L* {light}").format(name=fabric.name, light=round(each.lightness))
            field = ChoiceField(label, say("Value of {name}").format(name=fabric.name))
            field.edited.connect(lambda field=field, key=each.fabric: self._set(field, key))
            self._fields[each.fabric] = field
            row = QWidget()
            line = QHBoxLayout(row)
            line.setContentsMargins(0, 0, 0, 0)
            line.setSpacing(SPACE_TIGHT)
            photo = self.document.pictures.get(fabric.picture) if fabric.picture else None
            for cloth, picture in ((fabric, photo), (gray_cloth(fabric), None)):
                chip = QLabel()
                chip.setPixmap(
                    self._pictures.swatch(cloth, picture, _CHIP, self.devicePixelRatioF(), pinked=False)
                )
                line.addWidget(chip)
            line.addSpacing(SPACE_TIGHT)
            line.addWidget(field, 1)
            self._list.addWidget(row)

    def _set(self, field: ChoiceField, key: str) -> None:
        def wanted() -> EditCall:
            fabric = self.document.design.shelf.fabrics[key]
            return call("change-fabric", fabric=fabric.changed(value=field.value))

        self.try_edit(field, wanted)
