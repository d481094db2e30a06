"""Lengths, sizes and roundings: exact inches inside, any unit at the edge."""
