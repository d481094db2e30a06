"""The verbs as the window calls them, and the keys that do them to the piece in hand."""

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, Qt

from piecewright.making.verbs import VERBS

Key = Qt.Key


@dataclass(frozen=True)
class VerbRow:
    """What a verb is called on its button and in menus, its key, and what it does to the piece in hand."""

    word: str
    text: str
    key: Qt.Key
    letter: str
    tip: str

    @property
    def name(self) -> str:
        """What it is called."""
        return _tr(self.text)

    @property
    def hint(self) -> str:
        """What it does, and its key."""
        return f"{_tr(self.tip)} ({self.letter})"


def _tr(text: str) -> str:
    return QCoreApplication.translate("verbs", text)


def QT_TRANSLATE_NOOP(_context: str, text: str) -> str:  # noqa: N802 - texts to translate are found by this name
    """The text as it is; it is translated where it is shown."""
    return text


_N = QT_TRANSLATE_NOOP
_ALL = (
    VerbRow("lay", _N("verbs", "Lay a strip"), Key.Key_L, "L", _N("verbs", "Lay one more strip of cloth")),
    VerbRow(
        "sew",
        _N("verbs", "Sew"),
        Key.Key_S,
        "S",
        _N("verbs", "Sew the marked pieces in a row, or take the piece in hand to the edge of another"),
    ),
    VerbRow(
        "cut",
        _N("verbs", "Cut"),
        Key.Key_C,
        "C",
        _N("verbs", "Lay the ruler on the piece in hand: arrows move it, numbers place it, Enter cuts"),
    ),
    VerbRow(
        "slice",
        _N("verbs", "Slice at a slant"),
        Key.Key_D,
        "D",
        _N("verbs", "Slice the piece in hand at a slant; then drag the two ends"),
    ),
    VerbRow("turn", _N("verbs", "Turn"), Key.Key_R, "R", _N("verbs", "Turn the piece in hand by 90 degrees")),
    VerbRow(
        "shuffle",
        _N("verbs", "Shuffle a pile"),
        Key.Key_H,
        "H",
        _N("verbs", "Move the top layer of the pile in hand to its bottom"),
    ),
    VerbRow(
        "square",
        _N("verbs", "Square up"),
        Key.Key_Q,
        "Q",
        _N("verbs", "Trim the piece in hand to a rectangle: arrows move its corner, Enter trims"),
    ),
    VerbRow(
        "press",
        _N("verbs", "Press"),
        Key.Key_P,
        "P",
        _N("verbs", "Say which way the seams sewn last are pressed"),
    ),
    VerbRow(
        "corner",
        _N("verbs", "Sew a square over a corner"),
        Key.Key_K,
        "K",
        _N("verbs", "Sew the square marked last over a corner of the piece marked before"),
    ),
    VerbRow(
        "face",
        _N("verbs", "Lay right sides together and sew"),
        Key.Key_F,
        "F",
        _N("verbs", "Lay the two pieces marked last right sides together, and sew them"),
    ),
    VerbRow("open", _N("verbs", "Open"), Key.Key_O, "O", _N("verbs", "Open the pair in hand along its seam")),
    VerbRow(
        "loop",
        _N("verbs", "Sew into a tube"),
        Key.Key_T,
        "T",
        _N("verbs", "Sew two ends of the piece in hand together"),
    ),
    VerbRow(
        "unpick",
        _N("verbs", "Unpick a seam"),
        Key.Key_U,
        "U",
        _N("verbs", "Unpick a seam of the tube in hand; a click on a seam does so too"),
    ),
    VerbRow(
        "use",
        _N("verbs", "Use another recipe"),
        Key.Key_M,
        "M",
        _N("verbs", "Make the block of another recipe as a piece of this one"),
    ),
    VerbRow(
        "finish",
        _N("verbs", "Finish a partial seam"),
        Key.Key_N,
        "N",
        _N("verbs", "Sew the rest of a seam that was left open"),
    ),
)
VERB_ROWS: dict[str, VerbRow] = {row.word: row for row in _ALL if row.word in VERBS}
VERB_OF_KEY: dict[Qt.Key, str] = {row.key: row.word for row in VERB_ROWS.values()}


def verb_name(word: str) -> str:
    """What a verb is called."""
    row = VERB_ROWS.get(word)
    return word.capitalize() if row is None else row.name
