"""What the pages send: strict, and nothing that was not asked for."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field


class _Body(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)


class Back(_Body):
    """Take the last change of a set back."""

    base: int = Field(ge=1)
    operation: str = Field(min_length=16, max_length=64, pattern="^[0-9a-zA-Z-]+$")


class Move(Back):
    """Hang a piece elsewhere along its batten."""

    piece: int = Field(ge=0, le=999)
    centre: str = Field(min_length=1, max_length=60)


class Write(_Body):
    """Write a figure where it stands, or in each set that lacks it."""

    document: Literal["house", "show", "hang"]
    paths: list[str] = Field(min_length=1, max_length=2000)
    seen: list[str | None] = Field(min_length=1, max_length=2000)  # what stood at each path when it was asked for
    value: str = Field(min_length=1, max_length=200)
    operation: str = Field(min_length=16, max_length=64, pattern="^[0-9a-zA-Z-]+$")


class Hang(_Body):
    """Hang a piece on a set; `piece` is empty for a new one, of which the other words are."""

    piece: str = Field(max_length=200)
    centre: str = Field(max_length=80)
    trim: str = Field(max_length=80)
    name: str = Field(max_length=80)
    weight: str = Field(max_length=80)
    height: str = Field(max_length=80)
    spread: str = Field(max_length=80)
    operation: str = Field(min_length=16, max_length=64, pattern="^[0-9a-zA-Z-]+$")


class Rewrite(_Body):
    """Keep a whole text as the next revision."""

    document: Literal["house", "show", "hang"]
    base: int = Field(ge=0)  # 0 where nothing is kept of it yet
    text: str = Field(max_length=8_000_000)
    operation: str = Field(min_length=16, max_length=64, pattern="^[0-9a-zA-Z-]+$")


class Retype(Back):
    """Take back the newest text that was typed."""

    document: Literal["house", "show", "hang"]


class Blank(_Body):
    """A house with nothing in it but its sets."""

    name: str = Field(min_length=1, max_length=120)
    units: Literal["us", "metric"]
    sets: int = Field(ge=1, le=999)
    purchase: Literal["single", "double"]
