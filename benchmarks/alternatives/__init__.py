"""Other ways to furnish a room, scored by the same judge in the same run.

Each takes a scenario, a time limit and a seed, and returns a timeline: the seconds
at which it had an arrangement that the judge passes, and its score.
"""
