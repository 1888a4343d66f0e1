"""Programs killed at any moment, and the book looked at afterwards: run with more patience by hand.

``python -m tests.torture 200 7`` kills 200 times, by the seed 7; what fails keeps its book.
"""
