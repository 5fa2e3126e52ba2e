"""How wide words are set, so that a file drawn with another face keeps them in their place."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from counterpoise.drawing.ink import RULES

# Advances of Atkinson Hyperlegible Next, in thousandths of its size, from the space to the tilde. Source: the hmtx
# tables of its files, which come with this package (SIL Open Font License).
REGULAR = (
    280, 286, 301, 651, 592, 919, 731, 160, 299, 299, 485, 606, 210, 362, 210, 387, 648, 407, 548, 576, 614, 588,
    598, 510, 615, 595, 210, 210, 553, 628, 553, 480, 778, 626, 613, 645, 669, 569, 552, 694, 694, 392, 512, 631,
    541, 824, 693, 714, 592, 724, 614, 592, 558, 690, 593, 856, 623, 575, 607, 317, 387, 344, 552, 372, 243, 525,
    566, 485, 564, 538, 314, 558, 550, 252, 245, 492, 262, 845, 550, 548, 566, 574, 349, 471, 326, 540, 461, 684,
    481, 449, 460, 344, 237, 344, 555,
)  # fmt: skip
BOLD = (
    312, 303, 390, 765, 610, 969, 725, 210, 335, 335, 485, 595, 271, 373, 272, 440, 659, 440, 579, 600, 624, 607,
    626, 537, 624, 571, 272, 272, 569, 612, 569, 547, 781, 678, 643, 658, 688, 597, 566, 718, 701, 424, 561, 663,
    552, 858, 717, 746, 629, 756, 650, 610, 607, 686, 644, 886, 685, 650, 618, 340, 440, 344, 582, 400, 288, 552,
    596, 510, 596, 563, 365, 593, 571, 300, 259, 555, 318, 882, 571, 576, 596, 599, 376, 508, 376, 567, 530, 740,
    539, 521, 505, 381, 254, 381, 537,
)  # fmt: skip
OTHERS: Mapping[str, int] = {"·": 240, "×": 532, "−": 606, "→": 527, "←": 527, "…": 670, "°": 378, "½": 900}
UNLISTED = 620
_RULE = re.compile(r"svg ([^{}]*)\{([^}]*)\}")
_SIZE = re.compile(r"font-size: (\d+)px")


def width_of(said: str, classes: str) -> float:
    """How wide these words are, in units of the drawing, set as the sheet of rules sets text of these classes."""
    size, bold = _face(" ".join(sorted(classes.split())))
    table = BOLD if bold else REGULAR
    return size * sum(_advance(sign, table) for sign in said) / 1000.0


def _advance(sign: str, table: tuple[int, ...]) -> int:
    at = ord(sign) - 32
    return table[at] if 0 <= at < len(table) else OTHERS.get(sign, UNLISTED)


@cache
def _face(classes: str) -> tuple[float, bool]:
    """Size and weight by the rules: of those that match, the one that names most classes, then the last."""
    given, size, bold = set(classes.split()), (0, 15.0), False
    for heads, rules in _RULE.findall(RULES):
        for head in heads.replace("svg ", "").split(","):
            named = set(head.strip().split(".")[1:])
            if not named or ":" in head or not named <= given:
                continue
            found = _SIZE.search(rules)
            if found and len(named) >= size[0]:
                size = len(named), float(found[1])
            bold = bold or "font-weight: 700" in rules
    return size[1], bold
