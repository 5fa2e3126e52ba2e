"""What all tests share: which browser there is, what its absence means, and how laws are searched."""

import os

import hypothesis
import pytest

import dev

IN_CI = os.environ.get("CI") == "true"

# A slow machine is no failure, and CI searches the same cases on every run; a laptop goes on searching new ones.
hypothesis.settings.register_profile("counterpoise", deadline=None, derandomize=IN_CI)
hypothesis.settings.load_profile("counterpoise")


@pytest.fixture(scope="session")
def chromium_path() -> str:
    """Path of an installed Chromium; where there is none, CI fails and a laptop skips."""
    path = dev.chromium()
    if path:
        return path
    says = "no Chromium found: install it, or set CHROMIUM to its path"
    if IN_CI:
        pytest.fail(says)
    pytest.skip(says)
