"""The rows of the Materials panel as a Qt list, for keys and screen readers; sections can be folded away."""

from collections.abc import Callable, Hashable, Iterable, Iterator
from html import escape

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt

from piecewright_qt.look import Look
from piecewright_qt.materials.rows import Comparison, Mark, Row

Index = QModelIndex | QPersistentModelIndex
_READ = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole)
_REASON = (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole)


class MaterialsModel(QAbstractListModel):
    """The rows that can be seen: those of folded sections are left out, their headings stay."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.comparison = Comparison((), {})
        self.rows: tuple[Row, ...] = ()
        self.folded: set[str] = set()
        self.opened: set[Hashable] = set()
        self.terms: Callable[[Row], tuple[Row, ...]] = no_terms
        """Gives the terms of a row's sum."""
        self._places: dict[Hashable, int] = {}

    def show(self, comparison: Comparison) -> bool:
        """Show these rows. True where they are other rows than before, not only other words in them."""
        self.comparison = comparison
        rows = comparison.rows
        if self.folded:
            rows = tuple(row for row in rows if row.kind == "heading" or row.section not in self.folded)
        if self.opened:
            rows = tuple(self._with_terms(rows))
        if len(rows) == len(self.rows) and all(
            new is old or new.key == old.key for new, old in zip(rows, self.rows, strict=True)
        ):
            self.rows = rows
            if rows:
                self.dataChanged.emit(self.index(0), self.index(len(rows) - 1))
            return False
        self.beginResetModel()
        self.rows = rows
        self._places = {row.key: place for place, row in enumerate(rows)}
        self.endResetModel()
        return True

    def _with_terms(self, rows: Iterable[Row]) -> Iterator[Row]:
        """Rows, those that are open with the terms of their sums below them."""
        for row in rows:
            yield row
            if row.key in self.opened and not row.gone:
                yield from self._with_terms(self.terms(row))

    def place(self, key: Hashable) -> int | None:
        """Where the row of a key stands; None where it can not be seen."""
        return self._places.get(key)

    def mark(self, row: Row) -> Mark | None:
        """What is marked in a row."""
        return self.comparison.marks.get(row.key)

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: N802, B008 - Qt's name and default
        """How many rows can be seen."""
        return 0 if parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """A row in words, and its reason."""
        if not index.isValid():
            return None
        row = self.rows[index.row()]
        if role in _READ:
            return self.spoken(row)
        if role in _REASON and row.why is not None:
            said = self.reason(row)
            return f"<p>{escape(said)}</p>" if role == Qt.ItemDataRole.ToolTipRole else said
        return None

    def reason(self, row: Row) -> str:
        """The sum behind a row; "" where there is none."""
        return "" if row.why is None else row.why.text(self._look.measure)

    def spoken(self, row: Row) -> str:
        """A row as a screen reader says it, with what changed and whether its section is folded."""
        said = [row.spoken]
        mark = self.mark(row)
        if row.gone:
            said.append(self.tr("no longer needed"))
        elif mark is not None:
            said.append(
                self.tr("changed by {delta}").format(delta=mark.delta) if mark.delta else self.tr("changed")
            )
        if row.kind == "term":
            said.append(self.tr("Enter shows it on the wall"))
        if row.kind == "heading":
            said.append(self.tr("folded") if row.section in self.folded else self.tr("unfolded"))
        return ", ".join(said)

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Every row can be walked to."""
        return (
            Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
            if index.isValid()
            else Qt.ItemFlag.NoItemFlags
        )


def no_terms(_row: Row) -> tuple[Row, ...]:
    """For lists whose sums are told as a whole."""
    return ()
