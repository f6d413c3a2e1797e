"""The open exchange format: everything that a shop keeps, as JSON or CSV with its schema, out and in again.

A backup (`keep.backup`) is a byte copy for this program; an exchange is for any other one, and for a shop that has
something already.
"""
