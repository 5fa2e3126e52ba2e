"""General-purpose frame libraries, each asked for the pulls of one batten, each in the quickest way we found.

All are given as few nodes as their load types allow: nodes at the ends, the lines and the steps of stiffness, loads
inside the members. A line that pushes is cut and one that would be stretched is put back, one line a step, until
neither happens: none of the three does that by itself.
"""

import importlib
import importlib.metadata
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from counterpoise.statics import Beam, Line, Load, PointLoad

Pulls = list[float]
Drops = list[float]  # at the nodes, down [m]
Solve = Callable[[Beam, Sequence[Line], Sequence[Load], Sequence[int]], Drops]


@dataclass(frozen=True, slots=True)
class Peer:
    """A library: pulls and gaps with these lines acting both ways."""

    name: str
    version: str
    solve: Solve

    def hang(self, beam: Beam, lines: Sequence[Line], loads: Sequence[Load]) -> Pulls:
        """Pulls of lines that only pull."""
        return self.shape(beam, lines, loads)[0]

    def shape(self, beam: Beam, lines: Sequence[Line], loads: Sequence[Load]) -> tuple[Pulls, Drops]:
        """Pulls of lines that only pull, and the drops at the nodes."""
        acting, everything = list(range(len(lines))), range(len(lines))
        weight = sum([load.force for load in loads])
        xs = places(beam, lines)
        at = [xs.index(line.x) for line in lines]
        while True:
            drops = self.solve(beam, lines, loads, acting)
            gaps = [line.offset - drops[k] for line, k in zip(lines, at, strict=True)]
            pulls = [-gaps[i] / lines[i].flexibility if i in acting else 0.0 for i in everything]
            worst = min(acting, key=pulls.__getitem__)
            if pulls[worst] < -1e-7 * weight and len(acting) > 2:
                acting.remove(worst)
                continue
            if len(acting) < len(lines):
                stretched = min([i for i in everything if i not in acting], key=gaps.__getitem__)
                if gaps[stretched] < -1e-9:
                    acting = sorted([*acting, stretched])
                    continue
            return pulls, drops


def installed() -> list[Peer]:
    """The peers that can be imported here."""
    known = (
        ("PyNite", "Pynite", "PyNiteFEA", pynite),
        ("pystran", "pystran", "pystran", pystran),
        ("OpenSeesPy", "openseespy.opensees", "openseespy", opensees),
    )
    found = []
    for name, module, package, solve in known:
        try:
            importlib.import_module(module)
        except (ImportError, RuntimeError):  # OpenSeesPy turns a missing library into a RuntimeError
            continue
        found.append(Peer(name, importlib.metadata.version(package), solve))
    return found


def places(beam: Beam, lines: Sequence[Line]) -> list[float]:
    """Where a node is needed."""
    return sorted({0.0, *(segment.end for segment in beam.segments), *(line.x for line in lines)})


def stiffness(beam: Beam, a: float, b: float) -> float:
    """EI between two nodes [N m2]."""
    return next(s.stiffness for s in beam.segments if s.start <= 0.5 * (a + b) <= s.end)


def share(a: float, b: float, load: Load, last: float) -> tuple[float, float, float] | None:
    """The part of a load between two nodes: force (or force per length), start and end from a; else nothing."""
    if isinstance(load, PointLoad):
        inside = a <= load.x < b or load.x == b == last
        return (load.force, load.x - a, load.x - a) if inside else None
    start, end = max(load.start, a), min(load.end, b)
    return (load.per_length, start - a, end - a) if end > start else None


# --- PyNite: three dimensions, Python and numpy -----------------------------------------------------------------------


def pynite(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], acting: Sequence[int]) -> Drops:
    """Spring supports; loads on the members."""
    from Pynite import FEModel3D

    model = FEModel3D()
    model.add_material("steel", E=1.0, G=1.0, nu=0.3, rho=0.0)  # the stiffness is all in the section
    xs = places(beam, lines)
    for k, x in enumerate(xs):
        model.add_node(f"n{k}", x, 0.0, 0.0)
        model.def_support(f"n{k}", support_DX=True, support_DZ=True, support_RX=True, support_RY=True)
    for k, (a, b) in enumerate(pairwise(xs)):
        ei = stiffness(beam, a, b)
        model.add_section(f"s{k}", A=1.0, Iy=ei, Iz=ei, J=1.0)
        model.add_member(f"m{k}", f"n{k}", f"n{k + 1}", "steel", f"s{k}")
        for load in loads:
            part = share(a, b, load, xs[-1])
            if part is None:
                continue
            if isinstance(load, PointLoad):
                model.add_member_pt_load(f"m{k}", "Fy", -part[0], part[1])
            else:
                model.add_member_dist_load(f"m{k}", "Fy", -part[0], -part[0], part[1], part[2])
    for i in acting:
        model.def_support_spring(f"n{xs.index(lines[i].x)}", "DY", 1.0 / lines[i].flexibility)
        if lines[i].offset:
            model.add_node_load(f"n{xs.index(lines[i].x)}", "FY", -lines[i].offset / lines[i].flexibility)
    model.analyze_linear(check_stability=False)
    return [-model.nodes[f"n{k}"].DY["Combo 1"] for k in range(len(xs))]


# --- pystran: two dimensions, Python and numpy; loads at joints only --------------------------------------------------


def pystran(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], acting: Sequence[int]) -> Drops:
    """Springs to the ground; the loads inside a member as the forces of its fixed ends (done here, in Python)."""
    from pystran import model, section

    xs = places(beam, lines)
    m: dict[str, Any] = model.create(2)
    move, turn = m["freedoms"].U2, m["freedoms"].UR3
    joints: list[Any] = []
    for k, x in enumerate(xs):
        model.add_joint(m, k, [x, 0.0])
        joints.append(m["joints"][k])
        model.add_support(joints[k], m["freedoms"].U1)
    for k, (a, b) in enumerate(pairwise(xs)):
        ei = stiffness(beam, a, b)
        model.add_beam_member(m, k, [k, k + 1], section.beam_2d_section(f"s{k}", E=ei, A=1.0, I=1.0))
        ends = fixed_ends(b - a, [(p, load) for load in loads if (p := share(a, b, load, xs[-1]))])
        for joint, force, moment in ((joints[k], ends[0], ends[1]), (joints[k + 1], ends[2], ends[3])):
            model.add_load(joint, move, -force)
            model.add_load(joint, turn, moment)
    for i in acting:
        k = xs.index(lines[i].x)
        spring = section.spring_section(
            f"l{i}", "extension", direction=[0.0, 1.0], stiffness_coefficient=1.0 / lines[i].flexibility
        )
        ground = f"g{i}"
        model.add_joint(m, ground, [lines[i].x, 1.0])
        for freedom in m["freedoms"].ALL_DOFS:
            model.add_support(m["joints"][ground], freedom)
        model.add_spring_member(m, f"l{i}", [k, ground], spring)
        model.add_load(joints[k], move, -lines[i].offset / lines[i].flexibility)
    model.number_dofs(m)
    model.solve_statics(m)
    return [-float(joint["displacements"][1]) for joint in joints]


def fixed_ends(length: float, parts: Sequence[tuple[tuple[float, float, float], Load]]) -> tuple[float, ...]:
    """Forces (down) and turning moments that the loads inside put on the ends of a member built in at both.

    Source: fixed-end moments P a b2 / l2 and P a2 b / l2, any table of beams; a spread load is their integral.
    """
    left = right = m_left = m_right = 0.0
    for (size, start, end), load in parts:
        if isinstance(load, PointLoad):
            a, b = start, length - start
            m_l, m_r = -size * a * b * b / length**2, size * a * a * b / length**2
            force, first = size, size * a
        else:

            def left_to(u: float, size: float = size) -> float:
                return -size * (u**2 / 2 - 2 * u**3 / (3 * length) + u**4 / (4 * length**2))

            def right_to(u: float, size: float = size) -> float:
                return size * (u**3 / (3 * length) - u**4 / (4 * length**2))

            m_l, m_r = left_to(end) - left_to(start), right_to(end) - right_to(start)
            force, first = size * (end - start), size * (end**2 - start**2) / 2
        at_right = (first + m_l + m_r) / length
        left, right, m_left, m_right = left + force - at_right, right + at_right, m_left + m_l, m_right + m_r
    return left, m_left, right, m_right


# --- OpenSeesPy: two dimensions, compiled; its licence does not allow every use, so nothing here asks for it ----------


def opensees(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], acting: Sequence[int]) -> Drops:
    """Zero-length springs; loads on the members; one linear step."""
    ops = importlib.import_module("openseespy.opensees")
    ops.wipe()
    ops.model("basic", "-ndm", 2, "-ndf", 3)
    xs = places(beam, lines)
    for k, x in enumerate(xs):
        ops.node(k, x, 0.0)
        ops.fix(k, 1, 0, 0)
    ops.geomTransf("Linear", 1)
    ops.timeSeries("Constant", 1)
    ops.pattern("Plain", 1, 1)
    for k, (a, b) in enumerate(pairwise(xs)):
        ops.element("elasticBeamColumn", k, k, k + 1, 1.0, stiffness(beam, a, b), 1.0, 1)
        for load in loads:
            part = share(a, b, load, xs[-1])
            if part is None:
                continue
            size, start, end = part
            if isinstance(load, PointLoad):
                ops.eleLoad("-ele", k, "-type", "-beamPoint", -size, start / (b - a))
            elif start == 0.0 and end == b - a:
                ops.eleLoad("-ele", k, "-type", "-beamUniform", -size)
            else:
                ops.eleLoad("-ele", k, "-type", "-beamUniform", -size, 0.0, start / (b - a), end / (b - a), -size, 0.0)
    for i in acting:
        k, ground = xs.index(lines[i].x), 1000 + i
        ops.node(ground, lines[i].x, 0.0)
        ops.fix(ground, 1, 1, 1)
        ops.uniaxialMaterial("Elastic", i, 1.0 / lines[i].flexibility)
        ops.element("zeroLength", 1000 + i, k, ground, "-mat", i, "-dir", 2)
        if lines[i].offset:
            ops.load(k, 0.0, -lines[i].offset / lines[i].flexibility, 0.0)
    ops.system("BandSPD")
    ops.numberer("Plain")
    ops.constraints("Plain")
    ops.integrator("LoadControl", 1.0)
    ops.algorithm("Linear")
    ops.analysis("Static", "-noWarnings")
    ops.analyze(1)
    return [-ops.nodeDisp(k, 2) for k in range(len(xs))]
