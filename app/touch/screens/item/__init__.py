"""The item screen."""
