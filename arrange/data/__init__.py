"""Frozen data: room, openings, fixtures, pieces, wishes, scenario, arrangement, result.

Every length is a whole number of millimetres, every plan has x to the right and
y up, every outline runs clockwise, so that facing a wall from inside the room
its start is on the left and its end on the right.
"""
