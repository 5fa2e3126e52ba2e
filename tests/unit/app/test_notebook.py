"""What a result shows of itself in a notebook says no more and no less than a check does."""

from __future__ import annotations

import re

from counterpoise.app import demo_texts
from counterpoise.app.notebook import judge
from tests.plain_house import a_house, a_piece, a_set, hung, texts_of


def _cells(html: str) -> list[list[str]]:
    table = html.rpartition("<table>")[2].partition("</table>")[0]
    return [re.findall(r"<t[dh]>(.*?)</t[dh]>", row) for row in table.split("<tr>")[1:]]


def _shown(html: str) -> str:
    return re.sub(r"<svg.*?</svg>", "", html, flags=re.DOTALL)


def test_a_set_out_of_service_is_shown_as_that_and_not_as_within() -> None:
    house = a_house(a_set("1", distance="1 ft", out_of_service="a rope is worn"), a_set("2", distance="2 ft"))
    html = judge(texts_of(house, [a_piece()], [hung(on="2")]))._repr_html_()
    assert [row[-1] for row in _cells(html)[1:]] == ["out of service: a rope is worn", "within"]


def test_a_limit_that_is_not_known_is_told_in_plain_words() -> None:
    house = a_house(a_set(loft_block={"rating": "unknown"}))
    html = judge(texts_of(house, [a_piece()], [hung()]))._repr_html_()
    assert "of not known" not in html
    assert any("limit not known" in cell for row in _cells(html) for cell in row)


def test_the_findings_the_bridges_what_is_not_checked_and_the_caution_are_there() -> None:
    html = _shown(judge(demo_texts())._repr_html_())
    assert "309 of 250 lb on line 4" in html
    assert "marquee sign may weigh" in html
    assert "bricks stored and people: " in html
    assert "Not computed here: " in html
    assert "Static figures for manual counterweight sets" in html


def test_it_speaks_the_words_and_the_units_of_the_house() -> None:
    house = a_house(a_set(), units="metric", words="uk")
    shown = _shown(judge(texts_of(house, [a_piece(weight="900 lb")], [hung()]))._repr_html_())
    assert " kg" in shown
    assert "<th>weights</th>" in shown
    assert "batten" not in shown
