"""What the roof takes: strips, edges, underlay, nails, mastic; from measures or a survey file."""
