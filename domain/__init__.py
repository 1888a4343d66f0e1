"""What is true of the trade without a screen, a clock, a file or a database.

Values are frozen; lengths are exact millimetres (``Fraction``), money is whole pence (``int``).
Today, ids and prices are passed in. Bad input raises :class:`domain.errors.Refused`.
"""
