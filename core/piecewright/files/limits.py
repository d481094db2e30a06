"""The only limits on what a file may hold: generous to a quilter, closed to a bomb."""

MEGABYTE = 1024 * 1024

FILE_BYTES = 128 * MEGABYTE
"""The whole design file as it lies on the disk."""

DESIGN_BYTES = 16 * MEGABYTE
"""`design.json`, unpacked; forty thousand patches need about four."""

DESIGN_PARTS = 300_000
"""Lists and objects in `design.json`; a placement with a fabric for each of six letters has eight."""

RECIPES_BYTES = 256 * 1024
"""All recipes of a design; one has about a thousand bytes, and each is checked as a whole."""

MOST_OF_A_KIND = 5000
"""Fabrics; blocks; arrangements; and borders, block sizes and drawn values, all together."""

PICTURE_COUNT = 400
PICTURE_BYTES = 8 * MEGABYTE
PICTURES_BYTES = 96 * MEGABYTE
"""All pictures of a design together."""

PICTURE_PIXELS = 40_000_000
PICTURE_SIDE = 20_000
"""A picture's pixels, and its longer side; a camera's photo fits, and is shrunk when it comes in."""

ENTRIES = PICTURE_COUNT + 3
"""Entries of the zip: the pictures, their folder, `mimetype` and `design.json`."""

DIRECTORY_BYTES = ENTRIES * 512
"""The zip's own list of entries."""

OWN_RECIPES = 500
"""Recipes on the user's own shelf; each may have as many bytes as any recipe."""

JOURNAL_BYTES = 256 * MEGABYTE
STATE_BYTES = 16 * MEGABYTE
"""Preferences, and the list of recent designs."""
RECENT_COUNT = 12
RECENT_PICTURE_BYTES = 256 * 1024
LOCK_BYTES = 4096
