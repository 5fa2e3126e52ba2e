"""Documents by revision, kept."""

from counterpoise.store.documents import Conflict, Entry, Revision, Store

__all__ = ["Conflict", "Entry", "Revision", "Store"]
