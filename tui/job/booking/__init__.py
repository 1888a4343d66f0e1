"""The booking: the days, and what speaks for and against each."""
