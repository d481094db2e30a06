"""The shelf: the blocks and the fabrics of the design, to take from, to add to and to change."""
