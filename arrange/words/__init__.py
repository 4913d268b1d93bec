"""What the program says of each answer, in plain sentences. One module an answer.

The answers themselves hold no sentences of their own, but those of the rules. ``terminal``
and ``reasons`` have what the texts share.
"""
