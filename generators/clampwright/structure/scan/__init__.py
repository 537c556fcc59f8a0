"""From the points or facets of a scan to the round tubes in it."""
