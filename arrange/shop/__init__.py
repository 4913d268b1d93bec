"""Choosing and buying: the list to shop with, and what else a finished room needs."""
