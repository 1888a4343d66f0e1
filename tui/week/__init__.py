"""The week: the first screen, its days, its figures, and the forecast of a day."""
