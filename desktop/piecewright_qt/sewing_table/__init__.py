"""The Sewing table: one block, its making as a row of steps, each changed by hand, by field or by key."""
