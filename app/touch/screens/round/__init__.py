"""Rounds: the set of items looked at together, and its one answer."""
