"""What if: pieces exchanged, sizes tried, clashes explained, options compared."""
