"""What can be done with the book, by area: one method for one action, one transaction."""
