"""Drawings that a shop works from: sheet and title block, views, dimensions that touch nothing, notes."""
