"""What is worked out of one state of a hang once, however often a page asks for it."""

from __future__ import annotations

import threading
from collections import defaultdict

from counterpoise.app.calls import whole_call
from counterpoise.app.room import room_of
from counterpoise.app.speaking import spoken_load_in
from counterpoise.checks import HouseResult, Verdict
from counterpoise.drawing import RoomCurve
from counterpoise.planning import Plan
from counterpoise.planning.call import Call

SECONDS = 2.0  # that the search for an order may take


class Told:
    """The load-in of the whole hang, and of each set its own and its room left, of one state: gone with it."""

    def __init__(self, result: HouseResult) -> None:
        self._result = result
        self._call: list[Call] = []
        self._plans: dict[str, Plan] = {}
        self._rooms: dict[str, RoomCurve] = {}
        self._locks: defaultdict[str | None, threading.Lock] = defaultdict(threading.Lock)
        self._lock = threading.Lock()

    def call(self) -> Call:
        """The load-in of all that hangs."""
        with self._one_at_a_time(None):
            if not self._call:
                self._call.append(whole_call(self._result, is_strike=False, seconds=SECONDS))
            return self._call[0]

    def plan(self, label: str) -> Plan | None:
        """The load-in of a set; None where nothing hangs there, or what it weighs on its arbor is not known."""
        one = self._result.set_called(label)
        if one is None or one.rigged is None or not one.rigged.pieces:
            return None
        with self._one_at_a_time(label):
            if label not in self._plans:
                self._plans[label] = spoken_load_in(self._result, label)
            return self._plans[label]

    def room(self, label: str) -> RoomCurve | None:
        """Room left along the batten of a set; None where there is no such set."""
        one = self._result.set_called(label)
        if one is None:
            return None
        with self._one_at_a_time(label):
            if label not in self._rooms:
                self._rooms[label] = room_of(self._result.house, one)
            return self._rooms[label]

    def unknown(self) -> tuple[str, ...]:
        """The sets that the call works and of which the check does not know enough, in the order of the call."""
        labels = dict.fromkeys(turn.set for turn in self.call().turns)
        known = {one.label: one.verdict for one in self._result.sets}
        return tuple(label for label in labels if known.get(label) is Verdict.UNKNOWN)

    def _one_at_a_time(self, key: str | None) -> threading.Lock:
        """Of one key: whoever asks while it is being worked out waits for it."""
        with self._lock:
            return self._locks[key]
