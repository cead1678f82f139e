"""Pages of the ground and its people."""
