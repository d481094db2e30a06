"""The design as frozen values that keep their own rules."""
