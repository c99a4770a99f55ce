"""The today screen."""
