"""The scenario file: lengths, the room as measured, pieces, wishes; every fault at once."""
