"""How near our windows come to published planting calendars: an outside check of the rules.

`comparing` holds each line of the calendars against the windows derived from its frost dates alone, `fitting`
fits the practice to them again, so that `summary` can also leave each region out of its own fit.
`fixtures/calendars/SOURCES.txt` tells where the calendars come from.
"""
