"""Papers as a person sees them: on the screen, as plain text, as PDF on A4."""
