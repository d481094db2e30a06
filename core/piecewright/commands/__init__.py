"""The command line, without Qt: one file for what is asked of a recipe, one for a design, one table of them all."""
