"""Design files, their recovery after a crash, and what the program remembers between two starts."""
