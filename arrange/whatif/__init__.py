"""What if: pieces exchanged, sizes tried, conflicts explained, options compared."""
