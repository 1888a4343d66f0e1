"""From measures to slopes and courses: where each row lies and each line is struck."""
