"""The roof drawn: to scale on the screen, small in lists and headings, as text, as SVG."""
