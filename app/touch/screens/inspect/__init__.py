"""The inspect screen."""
