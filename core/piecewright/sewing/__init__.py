"""Where threads run and in what order: seams that meet, ways to press them, layers of cloth, straight-seam assembly."""
