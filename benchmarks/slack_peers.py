"""Lines that only pull: what the libraries' own one-sided supports say, and who is right.

    python benchmarks/slack_peers.py [battens] [first seed]

PyNite has springs that act in tension only; OpenSeesPy has a material without tension (used upside down) and Newton's
method. Both are asked for battens of tests/battens.py on springy lines, and judged without a solver of ours:
their pulls must carry the load, none may push, and by the library's own deflections no slack line may be stretched.
"""

import importlib
import sys
from collections import Counter
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.peers import Drops, Pulls, places, share, stiffness
from benchmarks.timing import begin
from counterpoise.statics import Hanging, PointLoad, hang
from tests.battens import Batten, adversarial

ROUND = 1e-6  # of the load, or of the largest drop: the libraries lose digits where lines hang close
Ways = dict[str, Callable[[Batten], tuple[Pulls, Drops] | None]]


def main() -> None:
    """Count verdicts, and print the first batten for each way in which a library is wrong."""
    begin("Supports that only pull")
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    ways: Ways = {"counterpoise": by_hang}
    ways |= usable({"PyNite, tension-only springs": by_pynite, "OpenSeesPy, material and Newton": by_opensees})
    verdicts = {name: Counter[str]() for name in ways}
    shown: set[tuple[str, str]] = set()
    for seed in range(first, first + count):
        batten = adversarial(seed, rigid=False)
        answer = hang(*batten)
        if not isinstance(answer, Hanging) or len(answer.carrying) == len(answer.tensions):
            continue
        for name, way in ways.items():
            found = way(batten)
            says = "gave no answer" if found is None else judge(batten, *found)
            verdicts[name][says] += 1
            if says != "right" and (name, says) not in shown:
                shown.add((name, says))
                show(name, seed, says, answer, found)
    for name, counted in verdicts.items():
        print(f"{name}: {sum(counted.values())} battens with a slack line: {dict(counted)}")


def usable(ways: Ways) -> Ways:
    """The ways whose library is there."""
    found = {}
    for name, module in zip(ways, ("Pynite", "openseespy.opensees"), strict=True):
        try:
            importlib.import_module(module)
        except (ImportError, RuntimeError):
            print(f"{name}: not installed")
        else:
            found[name] = ways[name]
    return found


def judge(batten: Batten, pulls: Pulls, drops: Drops) -> str:
    """What is wrong with an answer, by its own numbers."""
    beam, lines, loads = batten
    weight, scale = sum(load.force for load in loads), max(0.01, *(abs(y) for y in drops))
    at = dict(zip(places(beam, lines), drops, strict=True))
    if abs(sum(pulls) - weight) > 1e-4 * weight:
        return "does not carry the load"
    if min(pulls) < -ROUND * weight:
        return "a line pushes"
    for line, pull in zip(lines, pulls, strict=True):
        if pull <= ROUND * weight and at[line.x] > line.offset + 1e-4 * scale:
            return "a slack line is stretched"
    return "right"


def show(name: str, seed: int, says: str, answer: Hanging, found: tuple[Pulls, Drops] | None) -> None:
    """One batten on which a library is wrong."""
    print(f"{name} on tests.battens.adversarial({seed}, rigid=False): {says}")
    print("  counterpoise [N]:", ", ".join(f"{pull:.1f}" for pull in answer.tensions))
    if found is not None:
        print("  the library  [N]:", ", ".join(f"{pull:.1f}" for pull in found[0]))


def by_hang(batten: Batten) -> tuple[Pulls, Drops] | None:
    """Ours, judged like the others."""
    answer = hang(*batten)
    assert isinstance(answer, Hanging)
    return list(answer.tensions), [answer.deflection(x) for x in places(batten[0], batten[1])]


def by_pynite(batten: Batten) -> tuple[Pulls, Drops] | None:
    """Springs to the roof that act in tension only."""
    from Pynite import FEModel3D

    beam, lines, loads = batten
    model = FEModel3D()
    model.add_material("steel", E=1.0, G=1.0, nu=0.3, rho=0.0)
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
            if part and isinstance(load, PointLoad):
                model.add_member_pt_load(f"m{k}", "Fy", -part[0], part[1])
            elif part:
                model.add_member_dist_load(f"m{k}", "Fy", -part[0], -part[0], part[1], part[2])
    for i, line in enumerate(lines):
        model.add_node(f"top{i}", line.x, 10.0, 0.0)
        model.def_support(f"top{i}", True, True, True, True, True, True)
        model.def_node_disp(f"top{i}", "DY", -line.offset)
        model.add_spring(f"l{i}", f"n{xs.index(line.x)}", f"top{i}", 1.0 / line.flexibility, tension_only=True)
    try:
        model.analyze(check_stability=False)
    except Exception:  # noqa: BLE001 - whatever it is: no answer
        return None
    drops = [-float(model.nodes[f"n{k}"].DY["Combo 1"]) for k in range(len(xs))]
    acting = [model.springs[f"l{i}"].active["Combo 1"] for i in range(len(lines))]
    pulls = [
        (drops[xs.index(line.x)] - line.offset) / line.flexibility if on else 0.0
        for line, on in zip(lines, acting, strict=True)
    ]
    return pulls, drops


def by_opensees(batten: Batten) -> tuple[Pulls, Drops] | None:
    """The elastic material without tension, turned over so that it pulls; Newton to a tolerance of 1e-10 m."""
    ops = importlib.import_module("openseespy.opensees")
    beam, lines, loads = batten
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
            if part and isinstance(load, PointLoad):
                ops.eleLoad("-ele", k, "-type", "-beamPoint", -part[0], part[1] / (b - a))
            elif part:
                u, v = part[1] / (b - a), part[2] / (b - a)
                ops.eleLoad("-ele", k, "-type", "-beamUniform", -part[0], 0.0, u, v, -part[0], 0.0)
    for i, line in enumerate(lines):
        top = 1000 + i
        ops.node(top, line.x, 0.0)
        ops.fix(top, 1, 0, 1)
        ops.sp(top, 2, -line.offset)
        ops.uniaxialMaterial("ENT", i, 1.0 / line.flexibility)
        ops.element("zeroLength", top, top, xs.index(line.x), "-mat", i, "-dir", 2)
    ops.system("BandGeneral")
    ops.numberer("Plain")
    ops.constraints("Transformation")
    ops.test("NormDispIncr", 1e-10, 100, 0)
    ops.integrator("LoadControl", 1.0)
    ops.algorithm("Newton")
    ops.analysis("Static", "-noWarnings")
    if ops.analyze(1) != 0:
        return None
    drops = [-ops.nodeDisp(k, 2) for k in range(len(xs))]
    pulls = [max(0.0, (drops[xs.index(line.x)] - line.offset) / line.flexibility) for line in lines]
    return pulls, drops


if __name__ == "__main__":
    main()
