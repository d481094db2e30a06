"""Designs: new, open, save, and what leaves the program."""

from piecewright_qt.actions.row import QT_TRANSLATE_NOOP, ActionRow

FILE_ACTIONS: tuple[ActionRow, ...] = (
    ActionRow(
        "new",
        QT_TRANSLATE_NOOP("actions", "New design"),
        lambda w: w.workroom.new_design(),
        "File",
        ("Ctrl+N",),
        "new",
        needs="always",
    ),
    ActionRow(
        "open",
        QT_TRANSLATE_NOOP("actions", "Open…"),
        lambda w: w.workroom.choose_and_open(w),
        "File",
        ("Ctrl+O",),
        "open",
        needs="always",
    ),
    ActionRow(
        "start",
        QT_TRANSLATE_NOOP("actions", "Recent designs and samples"),
        lambda w: w.workroom.show_start(),
        "File",
        ("Ctrl+Shift+O",),
        "recent",
        needs="always",
    ),
    ActionRow(
        "save",
        QT_TRANSLATE_NOOP("actions", "Save"),
        lambda w: w.save(),
        "File",
        ("Ctrl+S",),
        "save",
        apart=True,
    ),
    ActionRow(
        "save-as", QT_TRANSLATE_NOOP("actions", "Save as…"), lambda w: w.save_as(), "File", ("Ctrl+Shift+S",)
    ),
    ActionRow(
        "picture",
        QT_TRANSLATE_NOOP("actions", "Save a picture…"),
        lambda w: w.save_picture(),
        "File",
        ("Ctrl+Shift+P",),
        apart=True,
    ),
    ActionRow(
        "materials-text",
        QT_TRANSLATE_NOOP("actions", "Copy the materials as text"),
        lambda w: w.copy_materials(),
        "File",
        ("Ctrl+Shift+M",),
    ),
    ActionRow(
        "close",
        QT_TRANSLATE_NOOP("actions", "Close"),
        lambda w: w.close(),
        "File",
        ("Ctrl+W",),
        "close",
        needs="always",
        apart=True,
    ),
    ActionRow(
        "quit",
        QT_TRANSLATE_NOOP("actions", "Quit"),
        lambda w: w.workroom.quit(),
        "File",
        ("Ctrl+Q",),
        needs="always",
    ),
)
