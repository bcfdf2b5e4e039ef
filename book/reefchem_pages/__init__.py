"""Directives that belong to this book alone."""
