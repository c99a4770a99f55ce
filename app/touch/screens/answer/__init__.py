"""The answer screen."""
