"""Finding an action, keys, about."""

from piecewright_qt.actions.row import QT_TRANSLATE_NOOP, ActionRow

HELP_ACTIONS: tuple[ActionRow, ...] = (
    ActionRow(
        "find",
        QT_TRANSLATE_NOOP("actions", "Find an action…"),
        lambda w: w.find_action(),
        "Help",
        ("Ctrl+K",),
        "search",
        needs="always",
    ),
    ActionRow(
        "keys",
        QT_TRANSLATE_NOOP("actions", "Keys"),
        lambda w: w.show_keys(),
        "Help",
        ("F1",),
        "help",
        needs="always",
    ),
    ActionRow(
        "about",
        QT_TRANSLATE_NOOP("actions", "About Piecewright"),
        lambda w: w.show_about(),
        "Help",
        (),
        needs="always",
    ),
)
