"""The books of a sole trader on the cash basis: what came in, was paid and was driven in a year.

A record for the quarterly updates and for the accountant, not advice, and nothing is filed. What is
received and paid back is read from the payments of the jobs (:mod:`domain.books.money_in`).
"""
