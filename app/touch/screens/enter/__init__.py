"""Entering items: from a blank, like one that is there, from a list."""
