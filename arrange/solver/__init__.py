"""The constraint model (CP-SAT) and the search: best, next different, every family."""
