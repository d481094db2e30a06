"""Shipped recipes for properties that try a recipe many times over: each basic way of making once."""

SAMPLE_RECIPES = (
    *("cut-turn-sew", "framed-four-patch", "middle-end-for-end", "rail-fence-of-four"),
    *("rail-fence-of-three", "rail-fence-of-two", "slanted-exchange", "two-halves-from-thirds"),
)
