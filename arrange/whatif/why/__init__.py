"""Why nothing works: what clashes, and the sum that a tape can check."""
