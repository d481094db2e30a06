"""The construction engine: a block is made, step by step, and what comes out follows."""
