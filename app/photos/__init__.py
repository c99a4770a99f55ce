"""Photographs: taking them in, and drawing the demo's own."""

from app.photos.intake import Photo, PhotoRefused, intake

__all__ = ["Photo", "PhotoRefused", "intake"]
