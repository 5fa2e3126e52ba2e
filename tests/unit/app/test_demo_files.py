"""The demo's documents hold what is promised of them, read without a problem, and say that they are invented.

What a house of that kind has in it (spacings, purchase, hemp, unknown plates): common practice, no source.
"""

import itertools
import json
import re
from importlib.resources import files

import pytest

from counterpoise import catalogue
from counterpoise.app.demo import blank_house, demo_text
from counterpoise.documents import Hang, House, Show, read_hang, read_house, read_show
from counterpoise.units import METRES_PER_FOOT

INCH = METRES_PER_FOOT / 12.0
ALL = (
    "house.yaml",
    "show.yaml",
    "hang.yaml",
    "other-night.yaml",
    "metric/house.yaml",
    "metric/hang.yaml",
    "minimal/house.yaml",
    "schedule.csv",
)


def text(name: str) -> str:
    return files("counterpoise.app").joinpath("demo_files", *name.split("/")).read_text("utf-8")


@pytest.fixture(scope="module")
def house() -> House:
    return read_house(text("house.yaml"))


@pytest.fixture(scope="module")
def show() -> Show:
    return read_show(text("show.yaml"))


@pytest.fixture(scope="module")
def hang(house: House, show: Show) -> Hang:
    return read_hang(text("hang.yaml"), house, show)


@pytest.fixture(scope="module")
def metric() -> House:
    return read_house(text("metric/house.yaml"))


@pytest.mark.parametrize("name", ALL)
def test_every_demo_file_says_at_its_head_that_it_is_invented(name: str) -> None:
    assert "invented" in "".join(text(name).splitlines(keepends=True)[:2]).lower()


@pytest.mark.parametrize("name", ALL)
def test_no_demo_file_calls_a_thing_safe(name: str) -> None:
    assert "safe" not in text(name).lower()


def test_the_house_has_48_sets_of_four_sorts(house: House) -> None:
    assert len(house.sets) == 48
    assert sum(one.purchase == "double" for one in house.sets) == 6
    assert sum(one.rigged == "hemp" and one.bags is not None for one in house.sets) == 2
    assert [one.label for one in house.sets if one.rigged == "dead-hung"] == ["47"]
    assert sum(one.purchase == "single" for one in house.sets) == 48 - 6 - 2 - 1


def test_no_label_stands_twice_and_sets_stand_in_the_order_of_the_stage(house: House) -> None:
    assert len({one.label for one in house.sets}) == len(house.sets)
    distances = [one.distance.number for one in house.sets]
    assert distances == sorted(distances)


def test_sets_stand_as_close_as_sets_stand(house: House) -> None:
    """Six inches to two feet apart, eight the commonest. Source: common practice, no source."""
    distances = [one.distance.number for one in house.sets]
    gaps = [round((after - before) / INCH) for before, after in itertools.pairwise(distances)]
    assert 6 <= min(gaps) <= max(gaps) <= 24
    assert max(set(gaps), key=gaps.count) == 8


def test_both_pipes_and_ladders_on_wide_spans_are_there(house: House) -> None:
    names = {one.batten.pipe for one in house.sets}
    assert {"1-1/2 in schedule 40", "2 in schedule 40"} <= names
    ladders = [one for one in house.sets if one.batten.ladder is not None]
    assert len(ladders) == 2
    assert all(len(one.lines.at) == 3 for one in ladders)


def test_two_bridges_two_bricks_two_rails_and_holds_in_both_directions_are_there(house: House) -> None:
    low, high = sorted(one.floor.number for one in house.bridges)
    assert 0 < low < high < house.stage.loft_blocks.number
    full, half = house.bricks
    assert half.weight.number < 0.6 * full.weight.number
    assert all(one.spread is not None and one.weighed is not None for one in house.bricks)
    assert len(house.rails) == 2
    assert {one.does for one in house.holds} == {"park", "haul"}
    assert {one.against for one in house.holds} == {"batten rising", "batten falling", "both"}


def test_nothing_of_the_house_hangs_in_the_path_of_the_fire_curtain(house: House, metric: House) -> None:
    for one in (house, metric):
        curtain = one.stage.fire_curtain
        assert curtain is not None
        assert all(line_set.distance.number > curtain.to.number for line_set in one.sets)


def test_every_set_hangs_on_one_bay_and_one_bay_is_unknown(house: House) -> None:
    assert sorted(label for bay in house.steel for label in bay.sets) == sorted(one.label for one in house.sets)
    assert [bay.bay for bay in house.steel if bay.loft_beam.is_unknown] == ["F"]


def test_what_a_real_house_does_not_know_is_unknown_here_too(house: House) -> None:
    counterweight = [one for one in house.sets if one.rigged == "counterweight"]
    assert [one.label for one in counterweight if one.loft_block.rating.is_unknown] == ["7"]
    assert [one.label for one in counterweight if one.arbor.rating.is_unknown] == ["18"]
    assert [one.label for one in house.sets if not one.lines.at] == ["46"]
    assert [one.label for one in house.sets if one.out_of_service] == ["6"]


def test_conditions_exceptions_and_what_stays_on_the_battens_are_there(house: House) -> None:
    assert [one.label for one in house.sets if one.condition] == ["17"]
    assert [one.label for one in house.sets if any(line.mule_blocks for line in one.lines.at)] == ["36"]
    assert [one.label for one in house.sets if any(line.trim_error for line in one.lines.at)] == ["24"]
    assert "1A" in [one.label for one in house.sets if one.batten.attachments]
    assert any(one.batten.splices for one in house.sets)
    assert any(one.posted for one in house.sets)


def test_the_show_has_28_pieces_that_come_in_every_way(show: Show) -> None:
    assert len(show.pieces) == 28
    assert {one.comes for one in show.pieces} == {"free", "off the floor", "tipped up", "in sections"}
    assert {one.looks for one in show.pieces} == {"cloth", "solid", "lamps", "sound"}
    by_takeoff = [one for one in show.pieces if one.takeoff]
    assert len(by_takeoff) >= 8
    assert all(one.weight.is_unknown for one in by_takeoff)
    taken = [line for one in by_takeoff for line in one.takeoff]
    for word in ("cloth", "board", "lumber", "pipe", "cable", "fixture"):
        assert any(getattr(line, word) for line in taken), word
    assert any(one.cables for one in show.pieces)
    assert any(one.clamps for one in show.pieces)


def test_every_piece_is_hung_once_in_the_large_house_and_the_rest_is_told_in_the_small_one(
    show: Show, hang: Hang, metric: House
) -> None:
    assert sorted(one.piece for one in hang.hung) == sorted(one.piece for one in show.pieces)
    second = text("metric/hang.yaml")
    hung = {one.piece for one in read_hang(second, metric, show).hung}
    left_out = second.split("# Left out")[1]
    assert len(hung) == len(metric.sets) == 12
    assert all(one.piece in left_out for one in show.pieces if one.piece not in hung)


def test_every_move_of_a_cue_goes_to_a_trim_that_its_set_has(
    house: House, show: Show, hang: Hang, metric: House
) -> None:
    for one in (hang, read_hang(text("metric/hang.yaml"), metric, show)):
        trims = {hung.label: set(hung.trims) for hung in one.hung}
        assert one.cues
        assert all(move.to in trims[move.label] for cue in one.cues for move in cue.moves)
        assert all(trim in trims[label] for label, trim in one.preset.items())


def test_the_small_house_is_in_metric_units_and_uk_words(metric: House) -> None:
    assert (metric.units, metric.words, metric.stage.distances_from) == ("metric", "uk", "setting line")
    assert not any(unit in text("metric/house.yaml") for unit in (" lb", " ft", " in,"))


def test_the_least_a_house_can_be_written_with_is_24_lines_of_a_schedule() -> None:
    least = read_house(text("minimal/house.yaml"))
    assert len(least.sets) == 24
    assert all(one.batten.length.is_unknown and one.arbor.rating.is_unknown for one in least.sets)


def test_the_schedule_has_30_sets_among_titles_blank_rows_and_a_second_heading() -> None:
    rows = [line.split(",") for line in text("schedule.csv").splitlines()]
    assert sum(row[0][:1].isdigit() for row in rows) == 30
    assert sum(row[0] == "Line #" for row in rows) == 2
    assert sum(not any(row) for row in rows) >= 3


def test_the_sizes_that_a_blank_house_offers_are_in_the_catalogue() -> None:
    offered = re.findall(r"# (pipe|rope|ends): (.+?) {2,}#", demo_text("blank.yaml"))
    families = {"pipe": "pipe", "rope": "wire rope", "ends": "termination"}
    assert [word for word, _ in offered] == ["pipe", "rope", "ends"]
    for word, name in offered:
        assert catalogue.find(families[word], name) is not None, name


@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_blank_house_reads_and_everything_in_it_is_unknown(units: str) -> None:
    house = read_house(blank_house(json.dumps('Hall: "x" #1'), units, 3, "double"))
    assert house.name == 'Hall: "x" #1'
    assert [one.label for one in house.sets] == ["1", "2", "3"]
    assert all(one.purchase == "double" and one.batten.length.is_unknown for one in house.sets)
