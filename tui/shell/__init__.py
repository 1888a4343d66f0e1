"""The program as a whole: the app, the command line, the palette, the help and the demo."""
