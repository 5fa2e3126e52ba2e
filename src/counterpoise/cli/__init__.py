"""Words in, words out: the command line."""

from counterpoise.cli.run import main

__all__ = ["main"]
