"""The screens, one folder each, with the .py and .kv side by side."""
