"""Measures the program against its limits: ratios of one run on one machine, best or median of several repeats.

tools/bench builds what this needs and calls it. Every time is processor seconds, but for those of several threads.
"""

import argparse
import json
import math
import os
import pathlib
import platform
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

import generate

PROJECT = generate.PROJECT
DEMO = "scores/lowland-round.musicxml"
INSTRUMENT = "instruments/bassoon.yaml"


class Wrong(Exception):
    """An answer that is not the one it must be: times of it mean nothing."""


class Bench:
    def __init__(self, build, scratch, quick):
        self.program = str(build / "fingerway")
        self.measure = str(build / "fingerway_measure")
        self.scratch = scratch
        self.quick = quick
        self.figures = {}

    def say(self, what):
        if sys.stderr.isatty():
            print(f"\r\033[K{what}", end="", file=sys.stderr, flush=True)

    def figure(self, name, value, unit, most=None, least=None):
        """Keeps a figure; with a limit it is met or missed."""
        entry = {"value": value, "unit": unit}
        if most is not None:
            entry |= {"most": most, "met": value <= most}
        if least is not None:
            entry |= {"least": least, "met": value >= least}
        self.figures[name] = entry

    def run(self, *command, codes=(0, 1)):
        """Runs it in the project's folder: (processor seconds, wall seconds, peak memory in bytes, what it printed)."""
        with tempfile.TemporaryFile() as out:
            start = time.monotonic()
            child = subprocess.Popen(command, cwd=PROJECT, stdout=out)
            _, status, used = os.wait4(child.pid, 0)
            child.returncode = os.waitstatus_to_exitcode(status)
            wall = time.monotonic() - start
            if child.returncode not in codes:
                raise Wrong(f"{' '.join(command)} ended with {child.returncode}")
            out.seek(0)
            printed = out.read()
        return used.ru_utime + used.ru_stime, wall, used.ru_maxrss * 1024, printed

    def median(self, count, *command):
        return statistics.median(self.run(*command)[0] for _ in range(count))

    def measured(self, *what):
        return json.loads(self.run(self.measure, *what, codes=(0,))[3])

    def part(self, notes, seed=41):
        file = self.scratch / f"part-{notes}-{seed}.musicxml"
        if not file.exists():
            generate.write_part(file, notes, seed)
        return str(file)


def python_with_networkx():
    """Debian's own python first: its networkx is the one the limit speaks of."""
    for python in ("/usr/bin/python3", shutil.which("python3")):
        if python and subprocess.run([python, "-c", "import networkx"], capture_output=True).returncode == 0:
            return python
    raise Wrong("networkx is missing (Debian: python3-networkx)")


def search(bench):
    """The way from a passage to its best path against three yardsticks over the same graph."""
    bench.say("search: against the plain loop and a stored Boost graph")
    told = bench.measured("search", DEMO, "5" if bench.quick else "25")
    bench.say("search: networkx on the same graph")
    dump = str(bench.scratch / "graph.json")
    bench.run(bench.program, "plan", DEMO, "-i", "bassoon", "--dump", dump)
    script = str(PROJECT / "tests/bench/measure/networkx_time.py")
    networkx = json.loads(bench.run(python_with_networkx(), script, dump, codes=(0,))[3])
    if not told["equal"] or networkx["weight"] != told["weight"]:
        raise Wrong("the four searches do not find the same weight")
    bench.figure("edges of the demo passage", told["edges"], "")
    bench.figure("plain loop over ready tables", 1000 * told["yardstick"], "ms")
    bench.figure("search and edge costs, nothing priced yet", 1000 * told["own"], "ms")
    bench.figure("ways, edge costs and search, nothing kept", 1000 * told["fresh"], "ms")
    bench.figure("ways, edge costs and search, again with the planner kept", 1000 * told["own_kept"], "ms")
    bench.figure("plan_passage", 1000 * told["plan"], "ms")
    bench.figure("stored Boost graph and its search", 1000 * told["boost"], "ms")
    bench.figure("its search alone", 1000 * told["boost_search"], "ms")
    bench.figure("networkx, building", networkx["building"], "s")
    bench.figure("networkx, search", networkx["search"], "s")
    bench.figure("search and edge costs / plain loop", told["own"] / told["yardstick"], "x", most=2)
    bench.figure("kept planner / plain loop", told["own_kept"] / told["yardstick"], "x")
    bench.figure("stored Boost graph / search and edge costs", told["boost"] / told["own"], "x", least=10)
    whole = networkx["building"] + networkx["search"]
    bench.figure("networkx / search and edge costs", whole / told["own"], "x", least=300)


def process(bench):
    """The whole process against what it cannot do without."""
    count = 9 if bench.quick else 41
    bench.say("process: plan, --version, pugixml and yaml-cpp alone")
    plan = bench.median(count, bench.program, "plan", DEMO, "-i", "bassoon")
    version = bench.median(count, bench.program, "--version")
    alone = [bench.measured("libraries", DEMO, INSTRUMENT) for _ in range(count)]
    pugixml = statistics.median(a["pugixml"] for a in alone)
    yaml = statistics.median(a["yaml"] for a in alone)
    bench.figure("plan process", 1000 * plan, "ms")
    bench.figure("--version process", 1000 * version, "ms")
    bench.figure("pugixml alone", 1000 * pugixml, "ms")
    bench.figure("yaml-cpp alone", 1000 * yaml, "ms")
    bench.figure("plan process / --version + pugixml + yaml-cpp", plan / (version + pugixml + yaml), "x", most=4)


def exponent(points):
    """The slope of a straight line through the logarithms, by least squares."""
    logs = [(math.log(x), math.log(max(y, 1e-9))) for x, y in points]
    mean_x = statistics.mean(x for x, _ in logs)
    mean_y = statistics.mean(y for _, y in logs)
    return sum((x - mean_x) * (y - mean_y) for x, y in logs) / sum((x - mean_x) ** 2 for x, _ in logs)


SIZES = (1_000, 10_000, 100_000, 1_000_000)


def growth(bench):
    """Time and memory of planning from a thousand notes to a million."""
    runs = []
    for notes in SIZES[:-1] if bench.quick else SIZES:
        file = bench.part(notes)
        bench.say(f"growth: {notes} notes")
        # A process that only reads, for its peak; then one that reads and plans.
        reader = bench.measured("read", file)
        runs.append(bench.measured("growth", file) | {"reader_peak": reader["peak"]})
        told = runs[-1]
        bench.figure(f"planning {told['notes']} notes", told["planning"], "s", most=20 if notes == 1_000_000 else None)
        bench.figure(f"reading {told['notes']} notes", told["reading"], "s")
    bench.figure("exponent of time", exponent([(r["notes"], r["planning"]) for r in runs]), "", most=1.05)
    bench.figure(
        "exponent of time, last tenfold", exponent([(r["notes"], r["planning"]) for r in runs[-2:]]), "", most=1.05)
    above = [(r["notes"], r["planning_peak"] - r["passage"]) for r in runs]
    bench.figure("exponent of memory above the passage", exponent(above), "", most=1.05)
    last = runs[-1]
    above_reader = max(0, max(last["planning_peak"], last["reading_peak"]) - last["reader_peak"])
    bench.figure("memory a note above the reader's peak", above_reader / last["notes"], "bytes", most=600)
    bench.figure("memory a note above the passage as read", above[-1][1] / last["notes"], "bytes")
    bench.figure("the reader's peak a note", last["reader_peak"] / last["notes"], "bytes")


def keywork(bench):
    """What a player waits for: trills, charts, a new plan after a pin."""
    count = 3 if bench.quick else 9
    bench.say("keywork: trills, chart, pins")
    trills = bench.median(count, bench.program, "trills", "-i", "bassoon")
    chart = bench.median(
        count, bench.program, "chart", "-i", "bassoon", "--against", "bassoon+interlinked-low-keys")
    bench.figure("trills of the bassoon", 1000 * trills, "ms", most=500)
    bench.figure("chart --against", 1000 * chart, "ms", most=500)
    pins = bench.measured("pins", bench.part(400), "10" if bench.quick else "100")
    if not pins["equal"]:
        raise Wrong("planning again after a pin does not give what planning anew gives")
    bench.figure("first plan of 400 notes", 1000 * pins["first"], "ms")
    bench.figure("again after one pin, median", 1000 * pins["median"], "ms", most=10)
    bench.figure("again after one pin, longest", 1000 * pins["most"], "ms")


def repertoire(bench, parts, notes):
    folder = bench.scratch / f"repertoire-{parts}"
    folder.mkdir(exist_ok=True)
    for number in range(parts):
        generate.write_part(folder / f"part-{number:03}.musicxml", notes, 1000 + number)
    return str(folder)


# They can stand together on one bassoon.
CONVERSIONS = (
    "interlinked-low-keys",
    "low-key-rollers",
    "little-finger-whisper",
    "c-sharp-d-sharp-mechanism",
    "right-hand-e-flat-key",
    "left-e-flat-trill-key",
    "thumb-key-rollers",
    "third-finger-plate",
)


def payoff(bench):
    """Both cores against one, and whether memory depends on the number of files. Wall seconds: needs a quiet machine."""
    small, large, notes = (2, 8, 40) if bench.quick else (50, 200, 100)
    offered = CONVERSIONS[:2] if bench.quick else CONVERSIONS

    def run(folder, threads, chosen):
        bench.say(f"payoff: {folder}, {threads} threads")
        out = str(bench.scratch / "payoff.json")
        used = bench.run(bench.program, "payoff", folder, "-i", "bassoon", "--samples", "0", "--conversions",
                         ",".join(chosen), "--threads", str(threads), "--json", out)
        return used[0], used[1], used[2], pathlib.Path(out).read_bytes()

    few = repertoire(bench, small, notes)
    some = CONVERSIONS[: 2 if bench.quick else 4]
    one = run(few, 1, some)
    two = run(few, 2, some)
    if one[3] != two[3]:
        raise Wrong("payoff depends on the number of threads")
    # So little work as a quick run has is done before a second thread helps.
    bench.figure("payoff, one thread / two threads", one[1] / two[1], "x", least=None if bench.quick else 1.8)
    base = run(few, 2, offered)
    many = run(repertoire(bench, large, notes), 2, offered)
    bench.figure(f"payoff of {large} parts, {len(offered)} conversions", many[1] / 60, "minutes", most=30)
    bench.figure("its processor time", many[0] / 60, "minutes")
    bench.figure("its memory", many[2] / 1e6, "MB")
    bench.figure(f"its memory / that of {small} parts", many[2] / base[2], "x", most=1.25)


PARTS = {"search": search, "process": process, "growth": growth, "keywork": keywork, "payoff": payoff}


def number(value):
    return f"{value:.0f}" if abs(value) >= 1000 or value == int(value) else f"{value:.3g}"


def table(figures, old):
    width = max(map(len, figures))
    for name, told in figures.items():
        limit = ""
        if "met" in told:
            bound = f"at most {number(told['most'])}" if "most" in told else f"at least {number(told['least'])}"
            limit = f"{bound}: {'met' if told['met'] else 'MISSED'}"
        line = f"{name:{width}}  {number(told['value']):>9} {told['unit']:7} {limit:24}"
        if old is not None:
            before = old.get(name, {}).get("value")
            line += "new" if before is None else f"was {number(before)}"
            if before:
                line += f" ({told['value'] / before - 1:+.0%})"
        print(line.rstrip())


def asked():
    parser = argparse.ArgumentParser(prog="tools/bench", description=__doc__.split("\n")[0])
    parser.add_argument("parts", nargs="*", metavar="PART", help=f"only these of: {', '.join(PARTS)}")
    parser.add_argument("--json", type=pathlib.Path, default=PROJECT / "out/bench.json", metavar="FILE")
    parser.add_argument("--compare", type=pathlib.Path, metavar="OLD.json", help="show what has changed since")
    parser.add_argument("--quick", action="store_true", help="smaller sizes and fewer repeats; says less")
    parser.add_argument("--build", type=pathlib.Path, default=PROJECT / "build/bench", help=argparse.SUPPRESS)
    options = parser.parse_args()
    for part in options.parts:
        if part not in PARTS:
            parser.error(f"no part is called {part} (there are: {', '.join(PARTS)})")
    return options


def main():
    options = asked()
    old = json.loads(options.compare.read_text(encoding="utf-8"))["figures"] if options.compare else None
    with tempfile.TemporaryDirectory() as scratch:
        bench = Bench(options.build.resolve(), pathlib.Path(scratch), options.quick)
        try:
            for part in options.parts or PARTS:
                PARTS[part](bench)
        except Wrong as wrong:
            bench.say("")
            sys.exit(f"tools/bench: {wrong}")
        bench.say("")
    table(bench.figures, old)
    told = {
        "format": "fingerway/bench",
        "version": 1,
        "cores": os.cpu_count(),
        "machine": platform.machine(),
        "load": os.getloadavg()[0],
        "quick": options.quick,
        "figures": bench.figures,
    }
    options.json.parent.mkdir(parents=True, exist_ok=True)
    options.json.write_text(json.dumps(told, indent=2) + "\n", encoding="utf-8")
    print(f"\n{options.json}: these figures, for --compare")
    return 0 if all(f.get("met", True) for f in bench.figures.values()) else 1


if __name__ == "__main__":
    sys.exit(main())
