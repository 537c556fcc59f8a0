"""From tape measure to tubes: `model` is what was measured, `solved` what it comes to."""
