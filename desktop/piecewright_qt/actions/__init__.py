"""What the window can be asked to do: a file for each menu, one table of them all."""
