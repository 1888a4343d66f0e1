"""Papers as data: built here, drawn by the interface (on screen, as plain text, later as A4)."""
