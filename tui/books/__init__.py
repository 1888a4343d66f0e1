"""The year's books on screen: the quarter with its items, a purchase, a trip."""
