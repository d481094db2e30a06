"""The numbers of the block in hand, in folded sections at the table's edge."""
