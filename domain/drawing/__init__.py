"""The roof to scale: every piece where it lies, as plane figures in millimetres."""
