"""Documents by revision, kept."""

from counterpoise.store.documents import Conflict, Revision, Store

__all__ = ["Conflict", "Revision", "Store"]
