from dataclasses import replace

import pytest

from counterpoise.planning import Act, Refusal, State, Step, judge, replay, start
from tests.small_house import small_house

HOUSE = small_house()
SET = HOUSE.sets[0]


def step(act: Act, **more: object) -> Step:
    return Step(act=act, set="14", **more)  # type: ignore[arg-type]


def refused(code: str, *steps: Step, begin: State | None = None, house: object = HOUSE) -> Refusal:
    done = replay(house, steps, begin)  # type: ignore[arg-type]
    assert done.refusal is not None
    assert done.refusal.code == code
    assert done.refusal.step == steps[-1]
    return done.refusal


HELD = step(Act.HOLD_ON)
HUNG = [HELD, *(step(Act.HANG, piece=name) for name in ("header", "leg SR", "leg SL", "speaker"))]
OPEN = [*HUNG, step(Act.COLLARS_UP)]


def on(count: int) -> Step:
    return step(Act.BRICKS_ON, bricks=count, bridge="bridge")


def test_nothing_hangs_before_lock_and_second_hold_are_on() -> None:
    refused("ORDER", step(Act.HANG, piece="header"))


def test_batten_first_then_arbor() -> None:
    refused("BATTEN-FIRST", HELD, step(Act.COLLARS_UP), on(1))


def test_bricks_do_not_move_under_collars() -> None:
    refused("ORDER", *HUNG, on(1))


def test_it_does_not_move_before_it_is_felt() -> None:
    refused("ORDER", step(Act.LOCK_OPEN), step(Act.MOVE, height=5.0))


def test_the_lock_is_not_opened_with_the_second_hold_on() -> None:
    refused("ORDER", HELD, step(Act.LOCK_OPEN))


def test_the_lock_is_not_opened_with_collars_up() -> None:
    refused("ORDER", *OPEN, step(Act.HOLD_OFF))


def test_feeling_counts_once_for_each_opening_of_the_lock() -> None:
    once = [step(Act.LOCK_OPEN), step(Act.FEEL), step(Act.MOVE, height=5.0), step(Act.LOCK_ON)]
    refused("ORDER", *once, step(Act.LOCK_OPEN), step(Act.MOVE, height=6.0))


def test_thirteen_bricks_on_290_pounds_are_35_arbor_heavy_and_fourteen_are_refused_at_the_fourteenth() -> None:
    assert replay(HOUSE, [*OPEN, on(13)]).refusal is None
    said = refused("HOLD", *OPEN, on(30))
    assert "with 20 on" in said.says  # 6 + 14
    assert "arbor-heavy 60 lb" in said.says


def test_stock_never_runs_below_nothing() -> None:
    assert "short by 2" in refused("STOCK", *OPEN, on(62)).says


def test_the_bridge_floor_carries_bricks_and_people_up_to_its_posting() -> None:
    # 90 sq ft x 22 psf = 1,980 lb; 60 bricks 1,500 lb and two people 400 lb: 1,900; three more bricks are within
    tight = small_house(posting="22 psf")
    state = start(tight)
    full = replace(state.sets["14"], hung=("header", "leg SR", "leg SL", "speaker"), bricks=18, held=True,
                   collars_down=False)  # fmt: skip
    begin = state.with_set("14", full)
    off = step(Act.BRICKS_OFF, bricks=3, bridge="bridge")
    assert isinstance(judge(tight, begin, off), State)
    assert "2,000 lb" in refused("BRIDGE-FLOOR", replace(off, bricks=4), begin=begin, house=tight).says


def test_a_bridge_floor_of_unknown_posting_refuses_nothing() -> None:
    open_floor = small_house(posting="unknown")
    assert open_floor.bridges[0].most is None


def test_a_stop_of_unknown_rating_is_not_leaned_on() -> None:
    unknown = small_house(stops="{top: unknown, bottom: unknown}")
    said = refused("UNKNOWN-STOP", HELD, step(Act.HANG, piece="header"), house=unknown)
    assert "top stop" in said.mend


def test_a_stop_listed_as_not_checked_here_is_leaned_on() -> None:
    listed = small_house(
        stops="{top: unknown, bottom: unknown}", listed="{what: top stop, why: no access, who: an invented rigger}"
    )
    assert replay(listed, [HELD, step(Act.HANG, piece="header")]).refusal is None


def test_without_a_stop_the_lock_alone_counts() -> None:
    none = small_house(stops="{top: none, bottom: none}")
    refused("HOLD", HELD, step(Act.HANG, piece="header"), house=none)
    assert replay(none, [HELD, step(Act.HANG, piece="leg SR")]).refusal is None  # 45 of 50 lb


def test_a_set_out_of_service_refuses_everything_and_says_why() -> None:
    out = small_house(service="rope lock slips")
    for act in Act:
        assert "rope lock slips" in refused("SERVICE", step(act), house=out).says


def test_pieces_are_not_hung_where_the_deck_does_not_reach() -> None:
    up = [step(Act.LOCK_OPEN), step(Act.FEEL), step(Act.MOVE, height=6.0), step(Act.LOCK_ON), HELD]
    refused("DECK-REACH", *up, step(Act.HANG, piece="leg SR"))


@pytest.mark.parametrize("height", [0.5, 30.0])
def test_it_stays_within_its_travel(height: float) -> None:
    refused("TRAVEL", step(Act.LOCK_OPEN), step(Act.FEEL), step(Act.MOVE, height=height))


def test_a_set_that_is_not_there_is_named() -> None:
    assert "99" in refused("NO-SET", Step(act=Act.FEEL, set="99")).says


def test_bricks_are_conserved() -> None:
    done = replay(HOUSE, [*OPEN, on(11)])
    assert done.last.sets["14"].bricks + done.last.stock["full"]["bridge"] == 66


def test_no_text_says_that_word() -> None:
    refusals = [refused("BATTEN-FIRST", HELD, step(Act.COLLARS_UP), on(1)), refused("HOLD", *OPEN, on(30))]
    assert not any("safe" in f"{one.says} {one.mend}".lower() for one in refusals)
