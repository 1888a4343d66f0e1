"""What a job must have recorded to be called a stage: one module a stage, one row a check.

``check`` holds the values; ``survey``, ``quoted``, ``booked``, ``stripped``, ``laid`` and
``signed_off`` each hold the rows of the stage they are named after, and nothing else does.
:data:`domain.checks.stages.CHECKS` is all of them in order.
"""
