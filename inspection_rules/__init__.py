"""What an inspection of spliced rope is, what can be computed from it, and what the rules say."""

__version__ = "2026.1"
