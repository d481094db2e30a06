"""How the top is sewn, step by step: the list of steps, and each as a picture."""
