"""Named functions from a design to a design; importing the package registers them all."""

from piecewright.edit import (
    arrangements,
    arranging,
    blocks,
    borders,
    draws,
    fabrics,
    filling,
    pasting,
    placing,
    recoloring,
    resize_quilt,
    resizing,
    setting,
    settings,
    turning,
    versions,
)

MODULES = (
    placing,
    turning,
    arranging,
    versions,
    filling,
    recoloring,
    fabrics,
    blocks,
    draws,
    resizing,
    resize_quilt,
    borders,
    setting,
    arrangements,
    settings,
    pasting,
)
"""Every module of edits."""
