"""Columns of the window: stacks that show one widget at a time, and widgets above each other."""

from PySide6.QtWidgets import QLabel, QStackedWidget, QVBoxLayout, QWidget


def stack_of(place: str) -> QStackedWidget:
    """A column with nothing in it yet but the color of its place."""
    stack, blank = QStackedWidget(), QLabel()
    blank.setProperty("place", place)
    stack.addWidget(blank)
    return stack


def show_in(stack: QStackedWidget, widget: QWidget) -> None:
    """Put a widget in the place of what a column shows."""
    blank = stack.currentWidget()
    stack.addWidget(widget)
    stack.setCurrentWidget(widget)
    if blank is not None:
        stack.removeWidget(blank)
        blank.deleteLater()


def column_of(*widgets: QWidget, stretched: QWidget) -> QWidget:
    """Widgets above each other without gaps; one takes all the room there is."""
    holder = QWidget()
    column = QVBoxLayout(holder)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(0)
    for widget in widgets:
        column.addWidget(widget, 1 if widget is stretched else 0)
    return holder
