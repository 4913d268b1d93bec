"""Room to spare: how far a measurement could be wrong."""
