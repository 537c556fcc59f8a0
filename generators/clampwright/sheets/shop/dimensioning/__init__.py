"""Dimensions of a drawing: how they are worded and drawn, and where they stand so that nothing touches."""
