"""Steps of load-in and strike: proposed, judged in every state between, and said aloud."""

from counterpoise.planning.goal import Goal
from counterpoise.planning.mends import Mend, mends_of
from counterpoise.planning.one_set import load_in, strike
from counterpoise.planning.plan import Plan
from counterpoise.planning.plan_from import plan_from
from counterpoise.planning.replay import judge, replay
from counterpoise.planning.spoken import Spoken
from counterpoise.planning.state import Act, Refusal, Replayed, SetState, State, Step, start

__all__ = [
    "Act",
    "Goal",
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
    "plan_from",
    "replay",
    "start",
    "strike",
]
