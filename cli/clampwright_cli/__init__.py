"""The commands: one file each, and nothing heavy imported before it is needed."""
