"""The fewest strips that cover the roof, proven, and the list they are cut by."""
