"""One piece in many sizes, and the exact largest one that works."""
