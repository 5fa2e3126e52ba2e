"""Steps of load-in and strike: proposed, judged in every state between, and said aloud."""

from counterpoise.planning.mends import Mend, mends_of
from counterpoise.planning.one_set import load_in, strike
from counterpoise.planning.plan import Plan
from counterpoise.planning.replay import judge, replay
from counterpoise.planning.state import Act, Refusal, Replayed, SetState, State, Step, start
from counterpoise.planning.words import Spoken

__all__ = [
    "Act",
    "Mend",
    "Plan",
    "Refusal",
    "Replayed",
    "SetState",
    "Spoken",
    "State",
    "Step",
    "judge",
    "load_in",
    "mends_of",
    "replay",
    "start",
    "strike",
]
