"""What a planner gives back: steps and the lines that speak them, or a refusal."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.balance import Stack
from counterpoise.planning.holds import Pull
from counterpoise.planning.needed import Need
from counterpoise.planning.spoken import Spoken
from counterpoise.planning.state import Refusal, State, Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Steps and the lines that speak them, or a refusal and neither.

    `final` is what is on the arbor at the end; `begin` is the state from which the steps are judged. `arbor_peak` and
    `batten_peak` are the most either side may be heavy off the stops [N]. `notes` say what was not judged; `need` is
    the rated hold without which it cannot be done, None where there is none or it was not looked for.
    """

    set: str
    steps: tuple[Step, ...]
    lines: tuple[Spoken, ...]
    refusal: Refusal | None
    final: Stack
    begin: State
    arbor_peak: Pull | None = None
    batten_peak: Pull | None = None
    notes: tuple[str, ...] = ()
    need: Need | None = None
