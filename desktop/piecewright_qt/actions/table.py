"""Every action of the window, in the order of the menus: what menus, keys, the finder and the list of keys show."""

from piecewright_qt.actions.blocks_menu import BLOCKS_ACTIONS
from piecewright_qt.actions.edit_menu import EDIT_ACTIONS
from piecewright_qt.actions.file_menu import FILE_ACTIONS
from piecewright_qt.actions.help_menu import HELP_ACTIONS
from piecewright_qt.actions.quilt_menu import QUILT_ACTIONS
from piecewright_qt.actions.row import ActionRow
from piecewright_qt.actions.view_menu import VIEW_ACTIONS

ACTIONS: tuple[ActionRow, ...] = (
    *FILE_ACTIONS,
    *EDIT_ACTIONS,
    *BLOCKS_ACTIONS,
    *QUILT_ACTIONS,
    *VIEW_ACTIONS,
    *HELP_ACTIONS,
)

ROWS = {row.name: row for row in ACTIONS}
"""By name."""
