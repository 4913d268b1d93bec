"""Other pieces: does it still work, what gets better and worse, and the room as it stands."""
