"""What a meter reads at the test points after each step, by ngspice: nominal, and how far parts within tolerance move it."""
import random
import re
import subprocess
import tempfile
from pathlib import Path

from board import Circuit, CircuitError  # makes the folder `proof` known to what follows

from circuit import Part  # noqa: F401 (for who changes a circuit)
from spice import Spice

SEED, DRAWS = 20261126, 5
SUPPLY_VOLT = 5.0
# MCP6002 and MCP6004: offset of 4.5 mV at most (data sheet; from memory).
OFFSET_VOLT = 4.5e-3
# The wave's wire: an end that hangs loose, on 5 V, on ground.
STATES = {"loose": (0.0, 1e12), "on 5V": (SUPPLY_VOLT, 25.0), "on GND": (0.0, 25.0)}
OPEN_OHM, WIRE_OHM = 1e9, 0.001
TIMEOUT_SECONDS = 20
METER_VOLT = 0.005
# Ten jigs do not show the worst one: what they are away from nominal counts this many times.
MARGIN = 1.5
# From when a chip is in its socket: U2 gives half the supply, U1 is of no use before the bridge.
PLUGGED = {"U2": 1, "U1": 3}


def built(circuit, board, step):
    """The circuit as far as a step has built it; chips are in their sockets from the step that gives them their supply."""
    here = {item.name for item in board.items if PLUGGED.get(item.name, item.step) <= step}
    return Circuit([part for part in circuit.parts.values() if part.body in here], circuit.table)


def _deck(circuit, off):
    return Spice(circuit, off=off).add(f"V5 supply_5v gnd {SUPPLY_VOLT}", "Vtest test gnd 0", "Rtest test pwm 1e12",
                                       f"Rload terminal_plus terminal_minus {OPEN_OHM}")


def nominal(circuit, points, cases):
    """Volt at the points with nominal parts, for each case."""
    return dict(_run(_deck(circuit, 0.0), _orders(circuit, points, cases, 0), points))


def read(circuit, points, cases, beside=""):
    """Volt at the points (a net, or net-net) as {(ohm, state): [nominal ones, then those of each drawn jig]}.

    `cases` are pairs of what is across the terminals in ohm and of where the wave's wire is; `beside` is a card more. A drawn jig has each resistor at either
    end of its tolerance and all offsets at one of their ends.
    """
    rows = {}
    for sign in (0, 1, -1):
        deck = _deck(circuit, sign * OFFSET_VOLT).add(beside)
        orders = _orders(circuit, points, cases, sign)
        for key, volts in _run(deck, orders, points):
            rows.setdefault(key, []).append(volts)
    return rows


def _orders(circuit, points, cases, sign):
    chance = random.Random(SEED + sign)
    resistors = [part for part in circuit.parts.values() if part.letters == "R"]
    for _ in range(DRAWS if sign else 1):
        for part in resistors:
            share = circuit.tolerance(part.name) * chance.choice((-1, 1)) if sign else 0
            yield f"alter {part.name} = {part.number * (1 + share):.9g}"
        for ohm, state in cases:
            volt, source = STATES[state]
            yield from (f"alter Rload = {ohm:g}", f"alter Vtest = {volt:g}", f"alter Rtest = {source:g}", "op", f"echo case {ohm:g}/{state}")
            for point in points:
                plus, _, minus = point.partition("-")
                yield f"print v({plus}){f'-v({minus})' if minus else ''}"


def _run(deck, orders, points):
    text = "\n".join([*deck.lines, ".control", "set numdgt=9", *orders, "quit", ".endc", ".end", ""])
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "deck.cir"
        path.write_text(text, encoding="ascii")
        try:
            said = subprocess.run(["ngspice", "-b", str(path)], capture_output=True, text=True, timeout=TIMEOUT_SECONDS,
                                  cwd=folder, check=False)
        except subprocess.TimeoutExpired as late:
            raise CircuitError(f"ngspice took more than {TIMEOUT_SECONDS} s for the test points.") from late
    cases = []
    for line in said.stdout.splitlines():
        case = re.fullmatch(r"case (.*)/(.*)", line.strip())
        value = re.fullmatch(r"v\(.*= ([-+0-9.e]+)", line.strip())
        if case:
            cases.append(((float(case.group(1)), case.group(2)), []))
        elif value and cases:
            cases[-1][1].append(float(value.group(1)))
    if not cases or any(len(volts) != len(points) for _, volts in cases):
        raise CircuitError("ngspice gave no voltages at the test points: " + " / ".join(said.stderr.strip().splitlines()[-4:]))
    return cases


def span(values):
    """Nominal, and the most that a jig may be away from it on a meter."""
    nominal = values[0]
    return nominal, MARGIN * max(abs(v - nominal) for v in values) + METER_VOLT
