"""The reports screen."""
