"""Where the words of a picture stand: each as the polygon that its signs fill, for overlaps to be found."""

from itertools import combinations

from shapely import Polygon  # type: ignore[import-untyped]  # it ships without types

from piecewright.render.affine import UNMOVED, Affine
from piecewright.render.layout import Draw
from piecewright.render.recording_pen import Restored, Saved, Transformed, Written, record
from piecewright.render.typeface import text_width

_CAP, _DESCENT = 0.70, 0.12  # of the em: what signs rise above the baseline, and hang below it
_SHARE = {"start": 0.0, "middle": 0.5, "end": 1.0}


def labels(draw: Draw) -> list[tuple[str, Polygon]]:
    """Every line of text with its outline, inches of paper."""
    frame, kept, found = UNMOVED, list[Affine](), list[tuple[str, Polygon]]()
    for step in record(draw):
        match step:
            case Saved():
                kept.append(frame)
            case Restored():
                frame = kept.pop()
            case Transformed(by):
                frame = frame.after(Affine.of(by))
            case Written(at, words, style):
                wide = text_width(words, style)
                left = float(at[0]) - wide * _SHARE[style.anchor]
                top, bottom = float(at[1]) - style.size * _CAP, float(at[1]) + style.size * _DESCENT
                corners = ((left, top), (left + wide, top), (left + wide, bottom), (left, bottom))
                found.append((words, Polygon([frame.apply(corner) for corner in corners])))
            case _:
                pass
    return found


def overlapping(draw: Draw) -> list[tuple[str, str]]:
    """Pairs of words that lie on each other."""
    found = labels(draw)
    return [(one, other) for (one, a), (other, b) in combinations(found, 2) if a.intersection(b).area > 1e-6]
