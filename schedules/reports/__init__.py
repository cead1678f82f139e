"""Sheets and drawings: plain rows in, a page's chart or a PDF out."""
