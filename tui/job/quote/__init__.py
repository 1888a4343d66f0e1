"""The quote: priced, marked as sent, accepted."""
