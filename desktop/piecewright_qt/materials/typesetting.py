"""Sets one row of the list in type: which words go on which line, and how high the row becomes."""

import re
from collections.abc import Iterator
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetricsF

from piecewright_qt.materials.rows import Row
from piecewright_qt.theme.tokens import SPACE, SPACE_HAIR, SPACE_TIGHT, SPACE_WIDE, Scale

Face = Literal["body", "strong", "small"]
Ink = Literal["text", "text_soft", "warn", "error", "accent"]
_INSIDE_A_LENGTH = re.compile(r"(?<=\d) (?=\d|(?:in|cm|mm|yd|m)\b)")
_UNBROKEN = "\N{NO-BREAK SPACE}"
_MOST_LABEL = 4
_MOST_SENTENCE = 40
_MOST_VALUE = 0.6
"""The part of a line that a number may take; a longer one goes on a line of its own."""
_DOT = " · "
_MOST_KNOWN = 20_000


class Piece(Struct, frozen=True):
    """Words on a line, by their left end and base line.

    `ink` names a color of the theme; `note` is the part of the small print they belong to; `caution` has the sign
    of that name hung before them.
    """

    x: float
    y: float
    text: str
    face: Face
    ink: Ink = "text"
    note: int | None = None
    caution: bool = False


class Setting(Struct, frozen=True):
    """A row set in type for one width. `value` starts at `value_left` on the first line."""

    pieces: tuple[Piece, ...]
    why: tuple[Piece, ...]
    value_left: float
    base: float
    height: int


class Type:
    """The faces of the list at a text scale, and how wide words are in them."""

    def __init__(self, scale: Scale) -> None:
        self.scale = scale
        self.fonts: dict[Face, QFont] = {
            "body": _font(scale.body, QFont.Weight.Normal),
            "strong": _font(scale.body, QFont.Weight.DemiBold),
            "small": _font(scale.small, QFont.Weight.Normal),
        }
        self.metrics = {face: QFontMetricsF(font) for face, font in self.fonts.items()}
        self.swatch = round(15 * scale.text)
        """How high a swatch is; it is twice as wide."""
        self.indent = SPACE_WIDE + 2 * self.swatch + SPACE
        self.sign = scale.small
        """How wide and high a sign of caution is."""
        self._known: dict[tuple[str, Face], float] = {}
        self._dot = self.width(_DOT, "small")

    def width(self, text: str, face: Face) -> float:
        """Pixels from end to end."""
        found = self._known.get((text, face))
        if found is None:
            if len(self._known) > _MOST_KNOWN:
                self._known.clear()
            found = self._known[text, face] = self.metrics[face].horizontalAdvance(text)
        return found

    def line(self, face: Face) -> float:
        """Pixels from one line to the next."""
        return self.metrics[face].height()

    def set_row(self, row: Row, width: int, reason: str = "") -> Setting:
        """Set a row for a list so wide, a reason below it where there is one to show."""
        if row.kind == "heading":
            return self._heading(row, width)
        if row.kind == "term":
            return self._term(row, width)
        left = SPACE_WIDE if row.kind in ("group", "finding") else self.indent
        warns = row.kind == "finding" and bool(row.tone)
        indented = left + (self.sign + SPACE_TIGHT if warns else 0)
        right = width - SPACE_WIDE
        value_width = self.width(row.value, "strong") if row.value else 0.0
        below = value_width > _MOST_VALUE * (right - indented)
        room = right - indented - (value_width + SPACE if row.value and not below else 0)
        face: Face = "strong" if row.kind == "group" else "body"
        base = SPACE_TIGHT * (2 if row.kind == "group" else 1) + self.metrics[face].ascent()
        ink: Ink = "text_soft" if row.gone else row.tone or "text"
        most = _MOST_SENTENCE if row.kind == "finding" else _MOST_LABEL
        pieces, y = self._paragraph(Piece(indented, base, row.label, face, ink, caution=warns), room, most)
        if below:
            base, y = y, y + self.line("strong")
        top = y - self.metrics[face].ascent()
        notes, bottom = self._notes(row, indented, right - indented, top)
        why: list[Piece] = []
        if reason:
            first = Piece(
                indented + SPACE, bottom + SPACE_TIGHT + self.metrics["small"].ascent(), reason, "small"
            )
            why, y = self._paragraph(first, right - indented - SPACE, _MOST_SENTENCE)
            bottom = y - self.metrics["small"].ascent() + SPACE_TIGHT
        return Setting((*pieces, *notes), tuple(why), right - value_width, base, round(bottom) + SPACE_TIGHT)

    def _term(self, row: Row, width: int) -> Setting:
        """A term of a sum: a link, as far in as it is deep."""
        left = self.indent + SPACE + (row.level - 1) * SPACE_WIDE
        base = SPACE_TIGHT + self.metrics["small"].ascent()
        first = Piece(left, base, row.label, "small", "accent")
        pieces, y = self._paragraph(first, width - SPACE_WIDE - left, _MOST_SENTENCE)
        height = round(y - self.metrics["small"].ascent()) + SPACE_TIGHT
        return Setting(tuple(pieces), (), width - SPACE_WIDE, base, height)

    def _heading(self, row: Row, width: int) -> Setting:
        right = width - SPACE_WIDE
        value = self.width(row.value, "strong")
        base = SPACE_WIDE + self.metrics["strong"].ascent()
        room = right - SPACE_WIDE - value - SPACE
        pieces, y = self._paragraph(Piece(SPACE_WIDE, base, row.label, "strong"), room, _MOST_LABEL)
        height = round(y - self.metrics["strong"].ascent()) + SPACE_TIGHT + 1
        return Setting(tuple(pieces), (), right - value, base, height)

    def _paragraph(self, first: Piece, room: float, most: int) -> tuple[list[Piece], float]:
        """A text from its first line down over as many as it takes, and the base line below them."""
        pieces, base = list[Piece](), first.y
        for line in self.lines(first.text, first.face, room, most):
            pieces.append(replace(first, y=base, text=line, caution=first.caution and not pieces))
            base += self.line(first.face)
        return pieces, base

    def _notes(self, row: Row, left: float, room: float, top: float) -> tuple[list[Piece], float]:
        """The small print from a top down, parts side by side with a dot between while they fit; and where it ends."""
        if not row.notes:
            return [], top
        base, x, pieces = top + self.metrics["small"].ascent(), left, list[Piece]()
        for place, note in enumerate(row.notes):
            sign = self.sign + SPACE_HAIR if note.tone else 0
            lines = self.lines(note.text, "small", room - sign, _MOST_SENTENCE)
            if x > left and (
                len(lines) > 1 or x + self._dot + sign + self.width(lines[0], "small") > left + room
            ):
                base, x = base + self.line("small"), left
            elif x > left:
                pieces.append(Piece(x, base, _DOT, "small", "text_soft"))
                x += self._dot
            for number, text in enumerate(lines):
                base, x = (base + self.line("small"), left) if number else (base, x)
                pieces.append(
                    Piece(
                        x + sign,
                        base,
                        text,
                        "small",
                        note.tone or "text_soft",
                        place,
                        bool(sign) and not number,
                    )
                )
                x += sign + self.width(text, "small")
        return pieces, base - self.metrics["small"].ascent() + self.line("small")

    def lines(self, text: str, face: Face, room: float, most: int) -> list[str]:
        """A text as lines no wider than `room`, lengths kept whole; what is over the last one's end is cut short."""
        whole = kept_whole(text)
        if self.width(whole, face) <= room:
            return [whole] if whole else []
        found, line, gap = list[str](), "", ""
        for word, after in self._words(whole, face, room):
            longer = f"{line}{gap}{word}"
            if line and self.width(longer, face) > room:
                found.append(line)
                line = word
            else:
                line = longer
            gap = after
        found.append(line)
        if len(found) <= most:
            return found
        return [*found[: most - 1], self.elided(" ".join(found[most - 1 :]), face, room)]

    def elided(self, text: str, face: Face, room: float) -> str:
        """A text cut short with an ellipsis where it is wider than `room`."""
        return self.metrics[face].elidedText(text, Qt.TextElideMode.ElideRight, max(room, 0.0))

    def _words(self, text: str, face: Face, room: float) -> Iterator[tuple[str, str]]:
        """Words, each with what stands behind it; names between dots stay whole, and what is too wide is broken."""
        names = text.split(_DOT)
        for name in (*(f"{name}{_UNBROKEN}·" for name in names[:-1]), names[-1]):
            for word in [name] if self.width(name, face) <= room else name.split(" "):
                *parts, last = self._broken(word, face, room)
                yield from ((part, "") for part in parts)
                yield last, " "

    def _broken(self, word: str, face: Face, room: float) -> Iterator[str]:
        """A word in parts no wider than the room, as long as they can be."""
        while len(word) > 1 and self.width(word, face) > room:
            lengths = range(len(word) - 1, 1, -1)
            fits = next((n for n in lengths if self.metrics[face].horizontalAdvance(word[:n]) <= room), 1)
            yield word[:fits]
            word = word[fits:]
        yield word


def kept_whole(text: str) -> str:
    """The same text, in which no line breaks inside a number or between a number and its unit."""
    return _INSIDE_A_LENGTH.sub(_UNBROKEN, text)


def _font(pixels: int, weight: QFont.Weight) -> QFont:
    font = QFont("Inter")
    font.setPixelSize(pixels)
    font.setWeight(weight)
    return font
