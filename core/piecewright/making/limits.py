"""The limits on what a recipe may hold and on the work of making it: far beyond any sewing, closed to a trap.

Work is counted, never timed, so that the same recipe is refused at the same step on every machine.
"""

MOST_STEPS = 1000
MOST_LETTERS = 60
"""Letters of a name: of a piece, a length, a fabric."""
MOST_NAMES = 200
"""Lengths with a name: under `sizes`, `vary` and `let` together."""
MOST_VARIED = 40
"""Names under `vary`."""
MOST_NESTED = 8
"""How deep recipes use recipes that use recipes."""
MOST_PATCHES = 10_000
"""Patches that one step may have on the table, all layers told; so many may the blocks of one batch show."""
MOST_WORK = 100_000
"""Work of a whole making: about one for each patch that a step handles, more where it is no rectangle."""
STEP_WORK = 10
"""What every step takes, however little cloth it handles."""
EDGE_WORK = 8
"""What an edge takes each time that a size is tried between edges that are not square."""
PIECES_TO_A_WORK = 100
"""Pieces that lie on the table untouched, for one work of a step."""
SIGNS_TO_A_WORK = 10
"""Letters and signs of a length, for one work of working it out."""
SLANTED_WORK = 16
"""What a patch that is no rectangle takes: its outline is clipped corner by corner."""
MOST_FINE_BITS = 512
"""Binary digits of the common denominator of all lengths: finer than any ruler by far."""
