"""Everything that can befall a book, over and over, and the book looked at afterwards.

``python -m tests.torture 200 7`` kills 200 times in mid-action and does all else in
proportion, by the seed 7; what fails keeps its book. A kind is a function that gives an
``Outcome``.
"""
