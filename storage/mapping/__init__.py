"""Between values of the domain and what stands in the tables, as pure functions.

``codec`` turns one value into the cells of one row and back; ``job`` puts a whole job together.
"""
