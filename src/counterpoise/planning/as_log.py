"""A call as the log that it would be if all of it were done as planned: to be judged, ticked off or edited."""

from __future__ import annotations

from collections.abc import Iterable

from counterpoise.planning.call import Call, steps_of
from counterpoise.planning.state import Act, Step


def as_log(call: Call) -> str:
    """A load-in or a strike as the log that it would be if all of it were done as planned, to be judged or edited."""
    begins = "hung" if call.what == "strike" else "empty"
    head = ["counterpoise: log 1", f"house: {_quoted(call.house.name)}", f"show: {_quoted(call.house.show)}",
            f"begins: {begins}", "done:" if call.turns else "done: []"]  # fmt: skip
    return "\n".join([*head, *(_written(n, step) for n, step in enumerate(steps_of(call), start=1)), ""])


def _written(n: int, step: Step) -> str:
    parts: Iterable[tuple[str, str]] = (
        ("n", str(n)), ("did", step.act.value), ("set", _quoted(step.set)),
        ("piece", _quoted(step.piece) if step.piece else ""),
        ("bricks", str(step.bricks) if _counts(step) else ""), ("small", str(step.small) if step.small else ""),
        ("bridge", _quoted(step.bridge) if step.bridge else ""),
        ("height", f"{step.height:.7f} m" if step.act is Act.MOVE else ""),
    )  # fmt: skip
    return f"  - {{{', '.join(f'{name}: {said}' for name, said in parts if said)}}}"


def _counts(step: Step) -> bool:
    return step.act in (Act.BRICKS_ON, Act.BRICKS_OFF, Act.COUNT)


def _quoted(name: str) -> str:
    return '"' + name.replace("\\", "\\\\").replace('"', '\\"') + '"'
