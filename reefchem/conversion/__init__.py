"""conversion"""
