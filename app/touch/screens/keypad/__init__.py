"""The keypad screen."""
