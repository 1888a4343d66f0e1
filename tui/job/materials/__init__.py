"""Materials and hours: estimated, used, left over."""
