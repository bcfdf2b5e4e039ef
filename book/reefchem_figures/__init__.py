"""Figures of the book, one module for each topic; each function returns a matplotlib figure."""
