"""One function for each thing a user can do; asks the world, decides in the pure core, tells the world."""

from counterpoise.app.demo import demo_texts
from counterpoise.app.judge import Texts, move_piece, read, with_blanks
from counterpoise.app.notebook import Judged, judge

__all__ = ["Judged", "Texts", "demo_texts", "judge", "move_piece", "read", "with_blanks"]
