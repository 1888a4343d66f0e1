"""The trader's details."""
