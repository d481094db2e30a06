"""Named functions from a design to a design; importing the package registers them all."""

from piecewright.edit import (
    alternating,
    arrangements,
    arranging,
    blocks,
    borders,
    draws,
    fabrics,
    filling,
    gaps,
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
    alternating,
    gaps,
    arrangements,
    settings,
    pasting,
)
"""Every module of edits."""
