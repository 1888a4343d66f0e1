"""The forms of roof, a module a family: each makes the slopes of a roof from its measures.

``level`` has pent, lean-to and apex, ``uneven`` the offset apex and the barn, ``hipped`` the hip
and the pyramid, ``taped`` the slopes that are given one by one.
"""
