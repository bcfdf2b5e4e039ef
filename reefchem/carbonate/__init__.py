"""carbonate"""
