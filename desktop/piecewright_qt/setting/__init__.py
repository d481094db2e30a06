"""The setting of the quilt: its ways as pictures, what lies between the blocks, and what fills the gaps."""
