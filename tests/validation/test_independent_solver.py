"""Random battens against two solvers that share nothing with ours.

- Pynite (PyNiteFEA, MIT), a general-purpose frame library of finite elements: forces at nodes by the stiffness method.
- A dense solve with numpy, in this file: pulls and a rigid motion as unknowns, flexibility by Gauss quadrature of
  cantilever moments (exact here), every choice of slack lines tried and judged by its own pulls and gaps.

Rules of judgement: the true answer is the one whose lines all pull and whose slack lines are all unstretched; it is the
only one, since the complementary energy is strictly convex (any text on contact problems).
"""

from itertools import combinations, pairwise

import numpy as np
import pytest
from numpy.typing import NDArray
from Pynite import FEModel3D

from counterpoise.statics import Beam, Hanging, Line, Load, PointLoad, Tips, hang
from tests.battens import Batten, adversarial

Array = NDArray[np.float64]

# --- the frame library -----------------------------------------------------------------------------------------------


def frame(batten: Batten, carrying: tuple[int, ...]) -> tuple[list[float], list[float]]:
    """Pull and gap of every line by Pynite, if exactly these lines act, and in both directions."""
    beam, lines, loads = batten
    model = FEModel3D()
    model.add_material("steel", E=1.0, G=1.0, nu=0.3, rho=0.0)  # the stiffness is all in the section
    ends = [segment.end for segment in beam.segments]
    xs = sorted({0.0, *ends, *(line.x for line in lines)})
    for k, x in enumerate(xs):
        model.add_node(f"n{k}", x, 0.0, 0.0)
        model.def_support(f"n{k}", support_DX=True, support_DZ=True, support_RX=True, support_RY=True)
    for k, (a, b) in enumerate(pairwise(xs)):
        stiffness = next(s.stiffness for s in beam.segments if s.start <= 0.5 * (a + b) <= s.end)
        model.add_section(f"s{k}", A=1.0, Iy=stiffness, Iz=stiffness, J=1.0)
        model.add_member(f"m{k}", f"n{k}", f"n{k + 1}", "steel", f"s{k}")
    _load(model, xs, loads)
    for i in carrying:
        _hold(model, f"n{xs.index(lines[i].x)}", f"top{i}", lines[i])
    model.analyze(check_stability=False)
    return _read(model, xs, lines, carrying)


def _load(model: FEModel3D, xs: list[float], loads: list[Load]) -> None:
    for k, (a, b) in enumerate(pairwise(xs)):
        for load in loads:
            if isinstance(load, PointLoad):
                if a <= load.x < b or load.x == b == xs[-1]:
                    model.add_member_pt_load(f"m{k}", "Fy", -load.force, load.x - a)
            elif load.start < b and load.end > a:
                start, end = max(load.start, a) - a, min(load.end, b) - a
                model.add_member_dist_load(f"m{k}", "Fy", -load.per_length, -load.per_length, start, end)


def _hold(model: FEModel3D, node: str, top: str, line: Line) -> None:
    if line.flexibility == 0.0:
        model.def_support(node, True, True, True, True, True, False)
        model.def_node_disp(node, "DY", -line.offset)
    else:
        model.add_node(top, model.nodes[node].X, 1.0, 0.0)
        model.def_support(top, True, True, True, True, True, True)
        model.def_node_disp(top, "DY", -line.offset)
        model.add_spring(top + "line", node, top, 1.0 / line.flexibility)


def _read(
    model: FEModel3D, xs: list[float], lines: list[Line], carrying: tuple[int, ...]
) -> tuple[list[float], list[float]]:
    pulls, gaps = [], []
    for i, line in enumerate(lines):
        node = model.nodes[f"n{xs.index(line.x)}"]
        room = line.offset + node.DY["Combo 1"]  # Pynite: up is positive
        gaps.append(0.0 if i in carrying else room)
        if i not in carrying:
            pulls.append(0.0)
        elif line.flexibility == 0.0:
            pulls.append(node.RxnFY["Combo 1"])
        else:
            pulls.append(-room / line.flexibility)
    return pulls, gaps


def hanging_battens(count: int, first: int) -> list[tuple[Batten, Hanging]]:
    found: list[tuple[Batten, Hanging]] = []
    seed = first
    while len(found) < count:
        batten = adversarial(seed)
        answer = hang(*batten)
        if isinstance(answer, Hanging):
            found.append((batten, answer))
        seed += 1
    return found


def test_a_frame_library_finds_the_same_pulls_and_the_same_lines_slack() -> None:
    slack = 0
    for batten, answer in hanging_battens(80, first=5_000):
        pulls, gaps = frame(batten, answer.carrying)
        weight, scale = sum(load.force for load in batten[2]), max(abs(g) for g in [*gaps, 1e-3])
        # The frame library solves by stiffness, which loses digits where lines hang two inches apart.
        assert answer.tensions == pytest.approx(pulls, abs=1e-5 * weight)
        assert answer.gaps == pytest.approx(gaps, abs=1e-5 * scale)
        assert min(pulls) >= -1e-5 * weight  # by its own numbers no line pushes
        assert min(gaps) >= -1e-5 * scale  # and none is stretched while slack
        slack += len(answer.carrying) < len(answer.tensions)
    assert slack >= 20  # or this would not be about slack lines


# --- the dense solve -------------------------------------------------------------------------------------------------


def dense(beam: Beam, lines: list[Line], loads: list[Load]) -> tuple[Array, Array, float]:
    """Pulls, gaps, and the worst violation of the best choice of slack lines (0 is perfect)."""
    x = np.array([line.x for line in lines])
    offset, flex = np.array([line.offset for line in lines]), np.array([line.flexibility for line in lines])
    give, fall = _cantilever(beam, x, loads)
    weight = sum(load.force for load in loads)
    first = sum(
        load.force * (load.x if isinstance(load, PointLoad) else 0.5 * (load.start + load.end)) for load in loads
    )
    best = (-np.inf, np.zeros(0), np.zeros(0))
    for size in range(2, len(lines) + 1):
        for chosen in combinations(range(len(lines)), size):
            pulls, gaps = _choice(np.array(chosen), x, offset, flex, give, fall, weight, first)
            score = min(pulls.min() / weight, gaps.min() / (np.abs(fall).max() / 50 + np.abs(offset).max()))
            if score > best[0]:
                best = (score, pulls, gaps)
    return best[1], best[2], -min(0.0, float(best[0]))


def _cantilever(beam: Beam, x: Array, loads: list[Load]) -> tuple[Array, Array]:
    """For a batten built in at x = 0: drop at each line per unit load at each line, and drop under the loads."""
    cuts = {0.0, beam.length, *(s.end for s in beam.segments), *x.tolist()}
    for load in loads:
        cuts |= {load.x} if isinstance(load, PointLoad) else {load.start, load.end}
    stations = np.array(sorted(cuts))
    nodes, weights = np.polynomial.legendre.leggauss(4)
    middle, half = (stations[1:] + stations[:-1]) / 2, (stations[1:] - stations[:-1]) / 2
    at = (middle[:, None] + half[:, None] * nodes).ravel()
    stiffness = np.array([next(s.stiffness for s in beam.segments if s.start <= v <= s.end) for v in at])
    measure = (half[:, None] * weights).ravel() / stiffness
    unit = np.maximum(x[:, None] - at, 0.0)
    moment = np.zeros_like(at)
    for load in loads:
        if isinstance(load, PointLoad):
            moment += load.force * np.maximum(load.x - at, 0.0)
        else:
            near, far = np.maximum(load.start - at, 0.0), np.maximum(load.end - at, 0.0)
            moment += 0.5 * load.per_length * (far**2 - near**2)
    return (unit * measure) @ unit.T, unit @ (moment * measure)


def _choice(
    chosen: Array, x: Array, offset: Array, flex: Array, give: Array, fall: Array, weight: float, first: float
) -> tuple[Array, Array]:
    """Pulls and gaps if exactly these lines act: the drop is p + q x + fall - give T, at the lines offset + flex T."""
    n, unit = len(chosen), give.max()
    left = np.zeros((n + 2, n + 2))
    left[:n, :n] = -(give[np.ix_(chosen, chosen)] + np.diag(flex[chosen])) / unit
    left[:n, n] = left[n, :n] = 1.0
    left[:n, n + 1] = left[n + 1, :n] = x[chosen]
    right = np.concatenate([(offset[chosen] - fall[chosen]) / unit, [weight, first]])
    solved = np.linalg.solve(left, right)
    pulls = np.zeros(len(x))
    pulls[chosen] = solved[:n]
    gaps = offset - (unit * (solved[n] + solved[n + 1] * x) + fall - give @ pulls)
    gaps[chosen] = 0.0
    return pulls, gaps


@pytest.mark.parametrize("block", range(4))
def test_trying_every_choice_of_slack_lines_finds_the_same_pulls(block: int) -> None:
    slack = 0
    for seed in range(block * 500, (block + 1) * 500):
        beam, lines, loads = adversarial(seed)
        answer = hang(beam, lines, loads)
        weight = sum(load.force for load in loads)
        if isinstance(answer, Tips):
            assert not lines[0].x <= answer.centre <= lines[-1].x
            continue
        pulls, gaps, violation = dense(beam, lines, loads)
        assert violation < 1e-8, seed
        assert np.abs(np.array(answer.tensions) - pulls).max() < 1e-8 * weight, seed
        assert np.abs(np.array(answer.gaps) - gaps).max() < 1e-7 * max(np.abs(gaps).max(), 1e-3), seed
        slack += len(answer.carrying) < len(lines)
    assert slack > 100
