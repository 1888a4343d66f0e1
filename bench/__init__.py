"""What is measured: start-up against a bare program, the cut plan, and reading a long history.

Measured as a person meets it, from outside, on books made for the purpose; no part of the program.
"""
