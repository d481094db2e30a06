"""The window of Piecewright: everything that needs a screen."""
