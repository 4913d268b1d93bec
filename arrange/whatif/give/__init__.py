"""What would have to give: the cheapest changes that make it work."""
