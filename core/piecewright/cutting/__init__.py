"""Pieces to cloth: what to cut from what, with little waste, and the least that could do."""
