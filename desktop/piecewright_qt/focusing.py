"""What Tab stops at inside a widget, in its order."""

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget


def stops(within: QWidget) -> Iterator[QWidget]:
    """The visible widgets inside that Tab stops at."""
    one = within.nextInFocusChain()
    while one is not None and one is not within:
        if (
            one.focusPolicy() & Qt.FocusPolicy.TabFocus
            and within.isAncestorOf(one)
            and one.isVisibleTo(within)
            and one.isEnabledTo(within)
        ):
            yield one
        one = one.nextInFocusChain()


def focus_first(within: QWidget) -> None:
    """Take the keys to the first of them."""
    first = next(stops(within), None)
    if first is not None:
        first.setFocus(Qt.FocusReason.TabFocusReason)


def follow(before: QWidget, after: QWidget) -> None:
    """Let Tab go from the last stop of one widget to the first of another."""
    last, first = list(stops(before))[-1:], next(stops(after), None)
    if last and first is not None:
        QWidget.setTabOrder(last[0], first)
