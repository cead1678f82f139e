"""The print table: everything that can be printed, asked for in one way and made once.

`table.py` says what a kind of sheet is; each family of kinds has its module with `KINDS`; `kinds.py` lists
them all.
"""
