"""The user's defaults for new designs, kept among the preferences as JSON and read when they are needed."""

import msgspec

from piecewright.errors import DesignError
from piecewright.files.settings import Preferences
from piecewright.model.beginning import Beginning
from piecewright.model.codec import from_plain, to_plain
from piecewright.words.message import Message, message


def load_beginning(preferences: Preferences) -> tuple[Beginning, tuple[Message, ...]]:
    """What new designs begin with; where what is kept means nothing, the program's own defaults and a note."""
    try:
        return from_plain(preferences.new_design, Beginning), ()
    except DesignError:
        return Beginning(), (message("files.preference-reset", name="new_design"),)


def with_beginning(preferences: Preferences, beginning: Beginning) -> Preferences:
    """Preferences by which new designs begin so."""
    return msgspec.structs.replace(preferences, new_design=to_plain(beginning))
