"""The site as geometry: boxes and overlaps, rows of plots, the way past them all. Lengths are metres."""
