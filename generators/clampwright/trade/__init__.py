"""Trade tables: every row carries the key of its source, and a table without sources does not load."""
