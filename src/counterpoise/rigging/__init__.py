"""House, show and hang become each set as rigged: SI numbers, each still holding the words it came from."""

from counterpoise.rigging.rig import BrickKind, Missing, RiggedBridge, RiggedHouse, RiggedPiece, RiggedSet, rig
from counterpoise.rigging.rules import Rule, least

__all__ = ["BrickKind", "Missing", "RiggedBridge", "RiggedHouse", "RiggedPiece", "RiggedSet", "Rule", "least", "rig"]
