"""A room asked for in plain words: questions, what was answered, and the file made of it.

Nothing here reads a keyboard or prints: ``cli/begin.py`` does. All follows from the answers in
their order, so going back and going on another day are one thing: the answers again.
"""
