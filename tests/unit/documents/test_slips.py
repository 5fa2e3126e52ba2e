"""A sign or a unit left out may not turn into a limit a hundred times too high."""

from __future__ import annotations

from typing import Any

import pytest

from counterpoise.documents import read_hang, read_house, read_show
from counterpoise.errors import BadDocument
from tests.plain_house import a_house, a_set, written


def says(tree: dict[str, Any]) -> str:
    with pytest.raises(BadDocument) as caught:
        read_house(written(tree))
    return str(caught.value)


@pytest.mark.parametrize(
    ("rule", "slip", "mend"),
    [("lift line factor", "8 %", "like 8"), ("lift line factor", "1/8", "like 8"), ("sag", "180", "1/180"),
     ("estimate spread", "0.2 %", "20 %"), ("lock hold", "50 kip", "50 lb"), ("batten stress", "21,000 ksi", "psi")],
)  # fmt: skip
def test_a_rule_that_can_hardly_be_meant_is_refused_with_how_to_write_it(rule: str, slip: str, mend: str) -> None:
    assert mend in says(a_house(a_set(), rules={rule: slip}))


def test_a_termination_without_its_percent_is_refused() -> None:
    assert "80 %" in says(a_house(a_set(lines={"termination": "80"})))


@pytest.mark.parametrize("slip", ["48.3 in", "5.5 in"])
def test_a_pipe_that_would_weigh_far_from_what_is_written_is_refused(slip: str) -> None:
    """Steel, 7850 kg/m3: 1.900 in with 0.145 in weighs 2.72 lb/ft (ASME B36.10M); 48.3 in twenty-six times that."""
    assert "weighs" in says(a_house(a_set(batten={"outside diameter": slip})))


def test_inches_in_single_quotes_are_not_read_as_feet() -> None:
    """YAML folds '' in single quotes to one ': 6'' would become 6 ft."""
    house, show = read_house(written(a_house())), read_show(
        "counterpoise: show 1\nname: Gala\npieces:\n  - {piece: box, weight: 9 lb, picks: [CL], height: 1 ft}\n"
    )  # fmt: skip
    hang = "counterpoise: hang 1\nhouse: Plainfield Hall\nshow: Gala\nhung:\n"
    with pytest.raises(BadDocument, match="double quotes"):
        read_hang(hang + "  - {piece: box, set: \"9\", centre: '6'' SL'}\n", house, show)
    assert read_hang(hang + '  - {piece: box, set: "9", centre: "6\'\' SL"}\n', house, show).hung[0].centre.best == (
        pytest.approx(6 * 0.0254))  # fmt: skip
