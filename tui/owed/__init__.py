"""What is owed: every invoice by age, each with its next thing."""
