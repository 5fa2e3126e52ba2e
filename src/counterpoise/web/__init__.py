"""Requests in, pages and API out."""

from counterpoise.web.site import create_app, serve

__all__ = ["create_app", "serve"]
