"""Stripping: what was found, the waste, the extras."""
