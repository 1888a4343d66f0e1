"""The survey: the roof measured and looked at, and the take-off that follows."""
