"""The items screen."""
