"""Coverings compared for one roof: one is used, or several are offered."""
