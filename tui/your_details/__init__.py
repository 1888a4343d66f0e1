"""The trader's own details."""
