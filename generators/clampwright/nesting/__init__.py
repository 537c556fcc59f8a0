"""Flat parts laid out on stock sheets. `nested` has the values; the rest finds them."""
