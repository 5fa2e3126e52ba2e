"""Exact definitions that join US customary units to SI. No rounded factor stands here.

Sources, values from memory: the international yard and pound agreement of 1959 (1 ft = 0.3048 m, 1 lb = 0.45359237 kg);
the 3rd General Conference on Weights and Measures, 1901 (standard gravity 9.80665 m/s2);
NIST Special Publication 811, appendix B, which marks all of them as exact.
"""

from fractions import Fraction

EXACT_METRES_PER_FOOT = Fraction("0.3048")
EXACT_METRES_PER_INCH = EXACT_METRES_PER_FOOT / 12
EXACT_METRES_PER_YARD = EXACT_METRES_PER_FOOT * 3
EXACT_KG_PER_POUND = Fraction("0.45359237")
EXACT_KG_PER_OUNCE = EXACT_KG_PER_POUND / 16
EXACT_STANDARD_GRAVITY = Fraction("9.80665")
EXACT_NEWTONS_PER_POUND_FORCE = EXACT_KG_PER_POUND * EXACT_STANDARD_GRAVITY

METRES_PER_FOOT = float(EXACT_METRES_PER_FOOT)  # [m/ft]
METRES_PER_INCH = float(EXACT_METRES_PER_INCH)  # [m/in]
KG_PER_POUND = float(EXACT_KG_PER_POUND)  # [kg/lb]
KG_PER_OUNCE = float(EXACT_KG_PER_OUNCE)  # [kg/oz]
STANDARD_GRAVITY = float(EXACT_STANDARD_GRAVITY)  # [m/s2], the weight in newtons of one kilogram
NEWTONS_PER_POUND_FORCE = float(EXACT_NEWTONS_PER_POUND_FORCE)  # [N/lbf]
