"""Named functions from a design to a design; importing the package registers them all."""

from piecewright.edit import (
    arrangements,
    blocks,
    borders,
    fabrics,
    filling,
    pasting,
    placing,
    recoloring,
    resizing,
    settings,
    turning,
    versions,
)

MODULES = (
    placing,
    turning,
    versions,
    filling,
    recoloring,
    fabrics,
    blocks,
    resizing,
    borders,
    arrangements,
    settings,
    pasting,
)
"""Every module of edits."""
