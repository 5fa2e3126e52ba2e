"""Requests in, pages and API out."""
