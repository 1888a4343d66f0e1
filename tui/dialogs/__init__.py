"""Typed dialogs. A dialog keeps what was typed until the save is confirmed."""
