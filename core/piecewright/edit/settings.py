"""The design's own name, author and notes, and the quilter's settings."""

from piecewright.edit.fitting import check_still_fits
from piecewright.edit.registry import edit, last_wins
from piecewright.model.design import Design
from piecewright.model.settings import Settings


@edit("change-settings", undo="edit.undo-settings", merge=last_wins())
def change_settings(design: Design, *, settings: Settings) -> Design:
    """Plan with these settings. Raises EditError where placed blocks would no longer fit the lattice."""
    return check_still_fits(design, design.changed(settings=settings))


@edit("set-name", undo="edit.undo-name", merge=last_wins())
def set_name(design: Design, *, name: str) -> Design:
    """Name the design."""
    return design.changed(name=name)


@edit("set-author", undo="edit.undo-author", merge=last_wins())
def set_author(design: Design, *, author: str) -> Design:
    """Say whose design it is."""
    return design.changed(author=author)


@edit("set-about", undo="edit.undo-about", merge=last_wins())
def set_about(design: Design, *, about: str) -> Design:
    """Say what the design is about."""
    return design.changed(about=about)
