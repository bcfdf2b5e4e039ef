"""dosing"""
