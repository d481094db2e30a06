"""Pictures as drawing steps on a pen."""
