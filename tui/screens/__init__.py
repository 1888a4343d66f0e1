"""One screen a file. A screen asks the desk, shows what comes back, and passes on what was typed."""
