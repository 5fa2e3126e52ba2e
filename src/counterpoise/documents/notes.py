"""What a house or a hang knowingly leaves open; printed on every output, and never counted as within."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from counterpoise.documents import fields as f

LINKS = (
    "batten", "splice", "sag", "overhang", "roll", "posted capacity", "clamp size", "clamp", "trim chain", "shackle",
    "turnbuckle", "lift line", "sheave", "fleet angle", "loft block", "loft block shaft", "loft block base",
    "mule block", "loft beam", "loft beam sideways", "head block", "head block shaft", "head block base", "head beam",
    "head beam sideways", "dead ends", "arbor", "guides", "stack", "lock", "hand line", "top stop", "bottom stop",
    "tension block", "pin", "bags", "crew", "bridge floor", "fire curtain", "sway and shock", "attachments",
    "structure",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class NotChecked:
    """A thing not checked here. Says what, why, who says so and until when; `sets` narrows it to some sets."""

    what: str = f.written(f.choice(*LINKS))
    why: str = f.written(f.text)
    who: str = f.written(f.text)
    until: str = f.written(f.day, default="")
    sets: tuple[str, ...] = f.written(f.items(f.text), default=())

    @property
    def thing(self) -> str:
        """What is left open, and on which sets where it is not all of them."""
        return (
            f"{self.what} on set{'s' if len(self.sets) > 1 else ''} {', '.join(self.sets)}" if self.sets else self.what
        )

    def covers(self, link: str, label: str, on: date | None = None) -> bool:
        """True where it takes this link of this set out of what was asked to be checked.

        It holds until the end of its last day; without a day to hold it against (`on`) its last day is not looked at.
        """
        return self.what == link and (not self.sets or label in self.sets) and not self.has_lapsed(on)

    def has_lapsed(self, on: date | None) -> bool:
        """True where its last day lies before `on`."""
        return bool(self.until) and on is not None and date.fromisoformat(self.until) < on
