"""What was typed into a form as values of the domain, and values as they are typed: pure functions.

What will not do raises :class:`domain.errors.Refused` with the field's label, so that the form can
go to it.
"""
