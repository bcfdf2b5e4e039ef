"""tank"""
