"""Arranging what hangs on the wall, from a drawer: a way is chosen, the wall shows it, it is kept or put back."""
