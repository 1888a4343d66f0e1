"""The lists: jobs, prices, stock."""
