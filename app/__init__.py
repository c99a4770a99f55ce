"""Throatmark: people, devices and storage around `inspection_rules`."""

__version__ = "0.1.0"
