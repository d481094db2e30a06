"""Every sentence the engine can say, and its words."""
