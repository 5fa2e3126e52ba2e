import itertools
from xml.etree import ElementTree

import pytest

from counterpoise.app import Texts, judge
from counterpoise.checks import HouseResult
from counterpoise.drawing import along_picture, chain_picture, house_picture, keyed, svg, travel_picture
from counterpoise.drawing.frame import frame_of
from counterpoise.units import METRES_PER_FOOT, Style
from tests.eight_sets import eight_sets

US = Style("us")


@pytest.fixture(scope="module")
def result() -> HouseResult:
    return judge(eight_sets())


def test_every_set_has_a_lane_of_24_or_more_and_48_on_a_phone(result: HouseResult) -> None:
    for narrow, least in ((False, 24.0), (True, 48.0)):
        lanes = list(frame_of(result, narrow=narrow).lanes.values())
        assert len(lanes) == len(result.sets)
        assert min(b - a for a, b in itertools.pairwise(lanes)) >= least


def test_heights_share_one_scale_above_and_below(result: HouseResult) -> None:
    frame = frame_of(result, narrow=False)
    assert frame.y(0.0) - frame.y(1.0) == pytest.approx(frame.wall_y(0.0) - frame.wall_y(1.0))


def test_the_stated_stretch_is_that_of_the_drawn_distances(result: HouseResult) -> None:
    frame = frame_of(result, narrow=False)
    assert frame.stretch is not None
    apart = (frame.lanes["2"] - frame.lanes["1"]) / (1.0 * METRES_PER_FOOT)  # 1 ft apart in the demo house
    assert apart / frame.scale == pytest.approx(frame.stretch)


@pytest.mark.parametrize("narrow", [False, True])
def test_the_house_is_well_formed_and_says_the_word_of_each_status(result: HouseResult, narrow: bool) -> None:
    drawn = ElementTree.fromstring(svg(house_picture(result, narrow=narrow, mark="2", told=("a", "b", "c"))))
    said = [one.text for one in drawn.iter() if one.text]
    assert {"over", "unknown", "out"} <= set(said)


@pytest.mark.parametrize("label", ["1", "2", "3", "4", "5", "6", "7", "8"])
def test_every_set_can_be_drawn_either_way(result: HouseResult, label: str) -> None:
    one = result.set_called(label)
    assert one is not None
    for narrow in (False, True):
        for picture in (
            along_picture(one, US, narrow=narrow),
            chain_picture(one, US, narrow=narrow),
            travel_picture(one, US),
        ):
            ElementTree.fromstring(svg(picture))


def test_what_is_over_is_hatched_and_what_is_unknown_dotted(result: HouseResult) -> None:
    over, unknown = result.set_called("2"), result.set_called("7")
    assert over is not None
    assert unknown is not None
    assert keyed(along_picture(over, US))["bar-3"]["fill"].startswith("url(#hatch")
    assert "unknown" in keyed(along_picture(unknown, US))["bar-0"]["class"]


def test_a_set_without_figures_is_drawn_as_unknown() -> None:
    demo = eight_sets()
    house = demo.house.replace("low trim: 4 ft @survey", "low trim: unknown", 1)
    result = judge(Texts(house=house, show=demo.show, hang=demo.hang))
    one = result.set_called("1")
    assert one is not None
    assert one.rigged is None
    assert "cannot be drawn" in svg(along_picture(one, US))
    assert "is-unknown" in svg(house_picture(result))
