"""Laying: the checks and the weather on the day."""
