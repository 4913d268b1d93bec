"""What the program says of each answer, in plain sentences. One module an answer."""
