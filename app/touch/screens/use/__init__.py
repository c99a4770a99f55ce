"""The pages that ask what an item will carry, and where."""
