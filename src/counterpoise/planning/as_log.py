"""A call as the log that it would be if all of it were done as planned: to be judged, ticked off or edited."""

from __future__ import annotations

from collections.abc import Iterable

from counterpoise.planning.call import Call, steps_of
from counterpoise.planning.state import Act, Step
from counterpoise.rigging import RiggedHouse
from counterpoise.units import METRES_PER_FOOT


def as_log(call: Call, *, leaves: str = "") -> str:
    """A call as the log that it would be if all of it were done as planned, to be judged or edited.

    `leaves` names the show that hangs before a changeover; the one that comes is the call's own.
    """
    begins = "empty" if call.what == "load-in" else "hung"
    to = [f"to show: {_quoted(call.house.show)}"] if leaves else []
    number = call.house.house.numbered
    of = [f"numbering: {number}"] if number > 1 else []
    show = f"show: {_quoted(leaves or call.house.show)}"
    head = ["counterpoise: log 1", f"house: {_quoted(call.house.name)}", *of, show, *to,
            f"begins: {begins}", "done:" if call.turns else "done: []"]  # fmt: skip
    lines = (_written(n, step, call.house) for n, step in enumerate(steps_of(call), start=1))
    return "\n".join([*head, *lines, ""])


def _written(n: int, step: Step, house: RiggedHouse) -> str:
    parts: Iterable[tuple[str, str]] = (
        ("n", str(n)), ("did", step.act.value), ("set", _quoted(step.set)),
        ("piece", _quoted(step.piece) if step.piece else ""),
        ("bricks", str(step.bricks) if _counts(step) else ""), ("small", str(step.small) if step.small else ""),
        ("bridge", _quoted(step.bridge) if step.bridge else ""),
        ("height", _height(step.height, house) if step.act is Act.MOVE else ""),
        ("hold", _quoted(step.hold) if step.hold else ""),
    )  # fmt: skip
    return f"  - {{{', '.join(f'{name}: {said}' for name, said in parts if said)}}}"


def _height(height: float, house: RiggedHouse) -> str:
    """As the house writes lengths where that is exact, to a tenth of a thousandth of a millimetre; else in decimals."""
    if house.units != "us":
        return f"{height:.7f}".rstrip("0").rstrip(".") + " m"
    sixteenths = height / METRES_PER_FOOT * 192
    if abs(sixteenths - round(sixteenths)) > 1e-7 * 192 / METRES_PER_FOOT:
        return f"{height / METRES_PER_FOOT:.7f} ft"
    feet, left = divmod(round(sixteenths), 192)
    inches = str(left // 16) if not left % 16 else f"{left // 16} {left % 16}/16"
    return f"{feet}' {inches}\""


def _counts(step: Step) -> bool:
    return step.act in (Act.BRICKS_ON, Act.BRICKS_OFF, Act.COUNT)


def _quoted(name: str) -> str:
    return '"' + name.replace("\\", "\\\\").replace('"', '\\"') + '"'
