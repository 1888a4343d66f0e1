"""One screen a file. A screen asks the desk, shows the answer, and passes on what was typed."""
