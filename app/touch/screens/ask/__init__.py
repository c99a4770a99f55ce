"""Small pages that ask one thing."""
