"""The photograph screen."""
