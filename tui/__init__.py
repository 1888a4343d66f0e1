"""Everything a person sees: the Textual interface, the command line, and papers drawn by rich."""
