"""Writes beside the shipped fonts how far each of their characters advances: run after a font changes."""

import json
from pathlib import Path

from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

FONTS = Path(__file__).parents[2] / "resources" / "piecewright_data" / "fonts"
WEIGHTS = {"400": "Inter-Regular.otf", "500": "Inter-Medium.otf", "600": "Inter-SemiBold.otf"}
LAST = 0x2600  # letters, punctuation, fractions, arrows; nothing that no sentence uses


def advances(name: str) -> dict[str, object]:
    """Units to the em, and for each advance width the characters that have it."""
    with TTFont(FONTS / name) as font:
        widths = font["hmtx"].metrics
        by_width: dict[int, str] = {}
        for code, glyph in sorted(font.getBestCmap().items()):
            if code < LAST and chr(code).isprintable():
                by_width[widths[glyph][0]] = by_width.get(widths[glyph][0], "") + chr(code)
        by_text = {str(width): by_width[width] for width in sorted(by_width)}
        return {"em": font["head"].unitsPerEm, "widths": by_text}


def all_advances() -> dict[str, dict[str, object]]:
    """By weight."""
    return {weight: advances(name) for weight, name in WEIGHTS.items()}


if __name__ == "__main__":
    text = json.dumps(all_advances(), ensure_ascii=False, indent=1)
    (FONTS / "advances.json").write_text(text + "\n", encoding="utf-8")
