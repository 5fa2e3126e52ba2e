"""One thing there is to say of a set or of the house."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.checks.rows import Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing to know. `key` leads to the derivation of its figure, where it has one."""

    code: str
    label: str
    place: str
    says: str
    mend: str
    source: str
    verdict: Verdict
    key: str = ""
    bay: str = ""  # of steel that is over for every set on it
    carries: str = ""  # what of it is the set's own, where the rest, a limit that is not known, is told of many at once
