"""Exact shapes of rooms and arrangements, and what can be measured on them. No solver."""
