"""The history of the book's schema, one file a step, named by what it does.

A step is never changed once a book has been through it; the schema changes by a new step, whose
``revision`` is the next number of four digits and becomes :data:`storage.bookfile.SCHEMA`.
"""
