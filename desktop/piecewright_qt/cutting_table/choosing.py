"""Which plan is cut by: plain, at once, the best found, or straight cuts in any order, each with its difference."""

from PySide6.QtWidgets import QComboBox, QSizePolicy

from piecewright.cutting.table import CHOICES, Choice
from piecewright_qt.cutting_table.saying import amount_said, less_said
from piecewright_qt.cutting_table.work import SEARCHED, CuttingWork
from piecewright_qt.look import Look
from piecewright_qt.shelf.fields import shrink


class ChoiceBox(QComboBox):
    """The choices for the fabric in view, with what each takes; what is chosen holds for all fabrics."""

    def __init__(self, work: CuttingWork, look: Look) -> None:
        super().__init__()
        self._work = work
        self._look = look
        self.setAccessibleName(self.tr("Cut by"))
        self.setToolTip(self.tr("Which plan to cut by, for all fabrics"))
        shrink(self)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        for choice in CHOICES:
            self.addItem("", choice)
        self.activated.connect(lambda place: work.choose(self.itemData(place)))

    def refresh(self) -> None:
        """Every choice with its amount and its difference, as far as they are known."""
        for place, choice in enumerate(CHOICES):
            self.setItemText(place, self._words(choice))
        self.setCurrentIndex(CHOICES.index(self._work.choice))

    def _words(self, choice: Choice) -> str:
        names: dict[Choice, str] = {
            "plain": self.tr("Plain cutting"),
            "level": self.tr("Strips shared"),
            "best": self.tr("Best plan"),
            "any-order": self.tr("Straight cuts in any order"),
        }
        told = self._told(choice)
        return f"{names[choice]}: {told}" if told else names[choice]

    def _told(self, choice: Choice) -> str:
        work = self._work
        level = work.level.of(work.fabric)
        if level is None:
            return ""
        if choice == "plain":
            return amount_said(level.plain, work.level.rounding, self._look.measure)
        if choice in SEARCHED and not work.is_searched:
            return self.tr("looking for it…") if work.is_searching else self.tr("not looked for")
        table = work.level if choice == "level" else work.found
        each = None if table is None else table.of(work.fabric)
        if table is None or each is None:
            return ""
        if choice == "any-order" and each.second is None:
            return self.tr("takes no less here")
        plan = each.second if choice == "any-order" and each.second is not None else each.plan
        amount = amount_said(plan, table.rounding, self._look.measure)
        return f"{amount}, {less_said(plan, level.plain, self._look.measure)}"
