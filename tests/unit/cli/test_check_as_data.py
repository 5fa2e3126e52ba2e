"""A check as data: every kind of figure keeps to the schema, and a figure that is over is told."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import jsonschema

from counterpoise.checks import HouseResult
from counterpoise.checks.rows import Measure
from counterpoise.cli.as_json import UNITS, check_as_data
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, judged

SCHEMA: Map = json.loads(files("counterpoise.cli").joinpath("schemas", "check-1.json").read_text("utf-8"))


def as_data(result: HouseResult) -> dict[str, Any]:
    """As printed, and held against the schema that is shipped."""
    data: dict[str, Any] = json.loads(json.dumps(check_as_data(result), allow_nan=False))
    jsonschema.validate(data, SCHEMA)
    return data


def test_every_unit_that_a_row_may_have_is_in_the_schema() -> None:
    told = {UNITS[measure.value] for measure in Measure}
    assert told <= set(SCHEMA["$defs"]["row"]["properties"]["unit"]["enum"])


def test_a_moment_and_an_angle_keep_to_the_schema() -> None:
    truss: Map = {"second moment": "10 in4", "allowed moment": "5,000 ft lb", "allowed shear": "1,000 lb"}
    one = a_set(lines={"at": ["10' SR", "10' SL"]}, loft_block={"upstage": "1 in"}, head_block={"upstage": "3 in"})
    one["batten"] = {
        "length": "20 ft",
        "weight": "2 lb/ft",
        "hardware": "0 lb",
        "modulus": "29,000 ksi",
        "truss": truss,
    }
    data = as_data(judged(a_house(one), [a_piece(spread_over="20 ft")], [hung()]))
    units = {row["unit"] for row in data["sets"][0]["rows"]}
    assert {"N m", "rad", "N"} <= units


def test_a_figure_that_is_over_is_told_though_something_of_it_is_not_known() -> None:
    # a cable too short to reach: what it pulls is not known, but 4,000 lb on five lines is past 500 lb a block alone
    cable: Map = {"cable": "six-circuit multicable", "count": "1", "length": "20 ft", "weight": "0.3 lb/ft",
                  "box": "62 ft", "at": "CL"}  # fmt: skip
    for weight, is_told in (("4,000 lb", True), ("100 lb", False)):
        data = as_data(judged(a_house(), [a_piece(weight=weight, cables=[cable])], [hung()]))
        row = next(row for row in data["sets"][0]["rows"] if row["key"] == "9/loft block/3")
        assert row["lacks"]
        assert (row["verdict"] == "over") is is_told
        assert (row["value"] is not None) is is_told
        assert (row["printed"]["value"] != "not known") is is_told
        if is_told:
            assert row["value"]["best"] > 500 * LB
