"""What a run leaves in a folder, and how such files are read again."""
