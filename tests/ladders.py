"""Random ladder trusses for the tests, and the same trusses as general-purpose frame libraries see them."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from random import Random
from typing import Any

from counterpoise.statics import Bar, ChordLoads, Ladder, Line, Load, PointLoad, SpreadLoad, pipe

Truss = tuple[Ladder, list[Line], ChordLoads]


def random_ladder(seed: int, *, even: bool = False) -> Truss:
    """A ladder truss built to be difficult; the same seed gives the same truss. Even: both chords of one pipe."""
    random = Random(seed)
    length = random.uniform(6.0, 20.0)
    spacers = _apart([random.uniform(0.0, length) for _ in range(random.randint(3, 25))], 0.05)
    if len(spacers) < 2:
        spacers = [0.0, length]
    bars = [
        Bar(
            section=pipe(random.uniform(0.03, 0.07), random.uniform(0.002, 0.006)), modulus=random.choice([70e9, 200e9])
        )
        for _ in range(3)
    ]
    ladder = Ladder(
        length=length,
        depth=random.uniform(0.2, 0.6),
        spacers=tuple(spacers),
        top=bars[0],
        bottom=bars[0] if even else bars[1],
        spacer=bars[2],
    )
    places = [random.choice([random.uniform(0.0, length), random.choice(spacers)]) for _ in range(random.randint(2, 7))]
    places = _apart(places, 0.05)
    if len(places) < 2:
        places = [0.0, length]
    lines = [
        Line(
            x=x,
            flexibility=random.choice([0.0, random.uniform(1e-6, 1e-5)]),
            offset=random.choice([0.0, random.uniform(-0.01, 0.01)]),
        )
        for x in places
    ]
    loads = ChordLoads(bottom=_loads(random, ladder), top=_loads(random, ladder))
    return ladder, lines, loads


def _apart(places: list[float], least: float) -> list[float]:
    found: list[float] = []
    for x in sorted(places):
        if not found or x - found[-1] > least:
            found.append(x)
    return found


def _loads(random: Random, ladder: Ladder) -> tuple[Load, ...]:
    length = ladder.length
    loads: list[Load] = [SpreadLoad(start=0.0, end=length, per_length=random.uniform(20.0, 50.0))]
    for _ in range(random.randint(0, 5)):
        x = random.choice([random.uniform(0.0, length), random.choice(ladder.spacers)])
        loads.append(PointLoad(x=x, force=random.uniform(50.0, 2000.0)))
    if random.random() < 0.4:
        start = random.uniform(0.0, 0.7 * length)
        end = random.uniform(start + 0.1, length)
        loads.append(SpreadLoad(start=start, end=end, per_length=random.uniform(50.0, 500.0)))
    return tuple(loads)


@dataclass(frozen=True, slots=True)
class Solved:
    """What a frame library says: down and sagging positive, pull positive."""

    pulls: list[float]  # [N]
    gaps: list[float]  # [m]
    drops_top: list[float]  # at the marks [m]
    drops_bottom: list[float]  # [m]
    chords: list[tuple[float, float, float]]  # axial, moment at start and end, of each cell, top chord then bottom
    spacers: list[tuple[float, float, float]]  # axial, moment at foot and head, sizes only


def marks(truss: Truss, *, loads: bool) -> list[float]:
    """Where both chords have a node: spacers, lines, ends; with `loads` at every load too."""
    ladder, lines, hung = truss
    found = {0.0, ladder.length, *ladder.spacers, *(line.x for line in lines)}
    if loads:
        for load in (*hung.top, *hung.bottom):
            found |= {load.x} if isinstance(load, PointLoad) else {load.start, load.end}
    return sorted(found)


def by_pynite(truss: Truss, carrying: Sequence[int]) -> Solved:
    """PyNite (MIT): nodes at spacers, lines and ends, loads inside the members; these lines act both ways."""
    from Pynite import FEModel3D

    ladder, lines, hung = truss
    xs = marks(truss, loads=False)
    model = FEModel3D()
    for name, bar in (("t", ladder.top), ("b", ladder.bottom), ("s", ladder.spacer)):
        model.add_material(name, E=bar.modulus, G=bar.modulus / 2.6, nu=0.3, rho=0.0)
        inertia = bar.section.second_moment
        model.add_section(name, A=bar.section.area, Iy=inertia, Iz=inertia, J=2.0 * inertia)
    for chord, y in (("t", 0.0), ("b", -ladder.depth)):
        for k, x in enumerate(xs):
            model.add_node(f"{chord}{k}", x, y, 0.0)
            model.def_support(f"{chord}{k}", k == 0 and chord == "t", False, True, True, True, False)
        for k in range(len(xs) - 1):
            model.add_member(f"m{chord}{k}", f"{chord}{k}", f"{chord}{k + 1}", chord, chord)
        for load in hung.top if chord == "t" else hung.bottom:
            _pynite_load(model, xs, chord, load)
    for i, x in enumerate(ladder.spacers):
        model.add_member(f"s{i}", f"b{xs.index(x)}", f"t{xs.index(x)}", "s", "s")
    for i in carrying:
        _pynite_line(model, xs, i, lines[i])
    model.analyze_linear(check_stability=False)
    return _pynite_read(model, truss, xs, carrying)


def _pynite_load(model: Any, xs: list[float], chord: str, load: Load) -> None:
    for k, (a, b) in enumerate(pairwise(xs)):
        if isinstance(load, PointLoad):
            if a <= load.x < b or load.x == b == xs[-1]:
                model.add_member_pt_load(f"m{chord}{k}", "FY", -load.force, load.x - a)
        elif load.start < b and load.end > a:
            start, end = max(load.start, a) - a, min(load.end, b) - a
            model.add_member_dist_load(f"m{chord}{k}", "FY", -load.per_length, -load.per_length, start, end)


def _pynite_line(model: Any, xs: list[float], i: int, line: Line) -> None:
    k = xs.index(line.x)
    if line.flexibility == 0.0:
        model.def_support(f"t{k}", k == 0, True, True, True, True, False)
        model.def_node_disp(f"t{k}", "DY", -line.offset)
    else:
        model.def_support_spring(f"t{k}", "DY", 1.0 / line.flexibility)
        model.add_node_load(f"t{k}", "FY", -line.offset / line.flexibility)


def _pynite_read(model: Any, truss: Truss, xs: list[float], carrying: Sequence[int]) -> Solved:
    ladder, lines, _ = truss
    combo = "Combo 1"
    drops = [[-model.nodes[f"{chord}{k}"].DY[combo] for k in range(len(xs))] for chord in "tb"]
    pulls, gaps = [0.0] * len(lines), [0.0] * len(lines)
    for i, line in enumerate(lines):
        k = xs.index(line.x)
        if i not in carrying:
            gaps[i] = line.offset - drops[0][k]
        elif line.flexibility == 0.0:
            pulls[i] = model.nodes[f"t{k}"].RxnFY[combo]
        else:
            pulls[i] = (drops[0][k] - line.offset) / line.flexibility
    chords = []
    for chord in "tb":
        for k in range(len(xs) - 1):
            f = model.members[f"m{chord}{k}"].f(combo).ravel()
            chords.append((float(f[6]), -float(f[5]), float(f[11])))
    spacers = []
    for i in range(len(ladder.spacers)):
        f = model.members[f"s{i}"].f(combo).ravel()
        spacers.append((float(f[6]), abs(float(f[5])), abs(float(f[11]))))
    return Solved(pulls, gaps, drops[0], drops[1], chords, spacers)


def by_pystran(truss: Truss, carrying: Sequence[int]) -> Solved:
    """Pystran (MIT): nodes at every load as well; spread loads as the forces of fixed ends, done here."""
    from pystran import beam, model, section

    ladder, lines, hung = truss
    xs = marks(truss, loads=True)
    m: dict[str, Any] = model.create(2)
    free = m["freedoms"]
    sections = {
        name: section.beam_2d_section(name, E=bar.modulus, A=bar.section.area, I=bar.section.second_moment)
        for name, bar in (("t", ladder.top), ("b", ladder.bottom), ("s", ladder.spacer))
    }
    for chord, y in (("t", 0.0), ("b", -ladder.depth)):
        for k, x in enumerate(xs):
            model.add_joint(m, (chord, k), [x, y])
        for k in range(len(xs) - 1):
            model.add_beam_member(m, (chord, k), [(chord, k), (chord, k + 1)], sections[chord])
        for load in hung.top if chord == "t" else hung.bottom:
            _pystran_load(model, m, xs, chord, load)
    for i, x in enumerate(ladder.spacers):
        k = xs.index(x)
        model.add_beam_member(m, ("s", i), [("b", k), ("t", k)], sections["s"])
    model.add_support(m["joints"]["t", 0], free.U1)
    for i in carrying:
        _pystran_line(model, m, i, xs.index(lines[i].x), lines[i], section)
    model.number_dofs(m)
    model.solve_statics(m)
    drops = [[-float(m["joints"][chord, k]["displacements"][1]) for k in range(len(xs))] for chord in "tb"]
    pulls, gaps = [0.0] * len(lines), [0.0] * len(lines)
    for i, line in enumerate(lines):
        drop = drops[0][xs.index(line.x)]
        if i not in carrying:
            gaps[i] = line.offset - drop
        elif line.flexibility:
            pulls[i] = (drop - line.offset) / line.flexibility
    spacers = []
    for i in range(len(ladder.spacers)):
        one = m["beam_members"]["s", i]
        ends = beam.beam_2d_end_forces(one, *(m["joints"][j] for j in one["connectivity"]))
        spacers.append((float(ends["Ni"]), abs(float(ends["Myi"])), abs(float(ends["Myj"]))))
    return Solved(pulls, gaps, drops[0], drops[1], [], spacers)


def _pystran_load(model: Any, m: dict[str, Any], xs: list[float], chord: str, load: Load) -> None:
    free = m["freedoms"]
    if isinstance(load, PointLoad):
        model.add_load(m["joints"][chord, xs.index(load.x)], free.U2, -load.force)
        return
    for k in range(bisect_left(xs, load.start), bisect_left(xs, load.end)):
        h = xs[k + 1] - xs[k]
        for end, sign in ((k, -1.0), (k + 1, 1.0)):
            model.add_load(m["joints"][chord, end], free.U2, -0.5 * load.per_length * h)
            model.add_load(m["joints"][chord, end], free.UR3, sign * load.per_length * h * h / 12.0)


def _pystran_line(model: Any, m: dict[str, Any], i: int, k: int, line: Line, section: Any) -> None:
    free, joint = m["freedoms"], m["joints"]["t", k]
    if line.flexibility == 0.0:
        model.add_support(joint, free.U2, -line.offset)
        return
    x = float(joint["coordinates"][0])
    model.add_joint(m, ("g", i), [x, 0.0])
    for dof in (free.U1, free.U2, free.UR3):
        model.add_support(m["joints"]["g", i], dof)
    spring = section.spring_section(f"l{i}", "extension", (0.0, 1.0), 1.0 / line.flexibility)
    model.add_spring_member(m, ("l", i), [("g", i), ("t", k)], spring)
    model.add_load(joint, free.U2, -line.offset / line.flexibility)
