"""What must be recorded before a job can be marked as the next stage: one row a check.

``before_booked`` holds what must be so before a job is marked as booked, and so on for each stage;
``weather`` holds the checks of forecast and weather, which go into the lists of those stages.
``check`` says what a check is. :data:`domain.checks.stages.CHECKS` is all of them in order.
"""
