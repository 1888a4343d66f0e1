"""Everything outside the process: the book on disk, its migrations, copies and places.

``book`` is the only way anything is written: one method for one action of the user, one
transaction, journalled. ``week_and_jobs`` reads what the first screen and the list of jobs show,
with the standard library alone. Rows (``…Row``) never leave this package; what goes in and out are
values of the domain.
"""
