"""Signing off: the customer's word, a guarantee, snags."""
