"""The book of an invented trader in an invented town, laid out afresh around today.

Every person, firm, place, price and figure here is invented; telephone numbers come from the range
kept for drama (01632 960000 to 960999). ``scenario.toml`` is the story, ``layout`` writes it into a
book through the same actions a user has.
"""
