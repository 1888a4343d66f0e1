"""The days work can be done on: holidays, daylight, weather, the period to cancel in."""
