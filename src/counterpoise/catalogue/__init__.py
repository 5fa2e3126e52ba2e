"""Published sizes as data: rows of figures in the words of a document, each with its source and how it is known."""

from counterpoise.catalogue.families import about, families, kinds_of
from counterpoise.catalogue.finding import find, near, rows
from counterpoise.catalogue.row import Figure, HowKnown, Row

__all__ = ["Figure", "HowKnown", "Row", "about", "families", "find", "kinds_of", "near", "rows"]
