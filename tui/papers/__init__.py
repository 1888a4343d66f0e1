"""Papers as a person sees them: drawn for the screen, and as plain text for a file or a pipe."""
