"""One customer: who, their jobs, papers and money."""
