"""Suggests furniture arrangements for one room and proves what it says."""
