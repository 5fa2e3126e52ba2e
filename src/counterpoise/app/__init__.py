"""One function for each thing a user can do; asks the world, decides in the pure core, tells the world."""

from counterpoise.app.demo import demo_texts
from counterpoise.app.judge import Texts, judge, move_piece, read, with_blanks

__all__ = ["Texts", "demo_texts", "judge", "move_piece", "read", "with_blanks"]
