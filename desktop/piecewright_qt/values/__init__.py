"""Value: the wall in grays or seen with half-closed eyes, how light each cloth is, and what will read as one."""
