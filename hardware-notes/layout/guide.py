"""The tables of build-guide.md: what goes where, what a meter reads after each step, what a fresh jig reads of a resistor."""
import math
import re

import numpy as np

from board import CHIP_LEGS, HERE, hole_name, pins  # makes the folder `proof` known to what follows

import budget
import linear
import picture
import voltages

PAGE = HERE.parent / "build-guide.md"
MARK = re.compile(r"(<!-- table: ([a-z]+ ?[0-9]*) -->\n).*?(<!-- end -->)", re.S)
OPEN, SHORT = voltages.OPEN_OHM, voltages.WIRE_OHM
# Without a load a meter sees 5 V through the leakage of a diode that is turned round.
LOADED = {2: ("1 kohm across C11", "Rhelp bridge_supply gnd 1k")}
EVERY = ("loose", "on 5V", "on GND")
# Step: where to measure, and what is across the terminals with the wave's wire where.
METER = {
    2: (("supply_5v", "bridge_supply", "mid_divider", "mid"), ((OPEN, "loose"),)),
    3: (("drive_node",), ((OPEN, "on 5V"), (OPEN, "on GND"))),
    4: (("terminal_plus", "terminal_minus", "terminal_plus-terminal_minus", "sense_in-terminal_plus"),
        (*((OPEN, state) for state in EVERY), (10, "on 5V"), (10, "on GND"), (3.9, "on 5V"), (SHORT, "on 5V"))),
    5: (("adc_voltage", "adc_current", "adc_microphone"),
        (*((OPEN, state) for state in EVERY), (10, "on 5V"), (10, "on GND"), (3.9, "on 5V"), (SHORT, "on 5V"))),
    6: (("bridge_supply", "terminal_plus", "terminal_minus"), tuple((OPEN, state) for state in EVERY)),
    8: (("mic_supply", "mic_capsule", "adc_microphone"), ((OPEN, "loose"),)),
}
# What a Schottky diode drops varies with its maker and its warmth (common practice); never above the 5 V.
DROP_VOLT = {"bridge_supply": 0.2}
# What electret capsules draw (common practice).
CAPSULE_AMPERE = (0.1e-3, 0.5e-3)
JIGS = 200
LOADS = (("short", 0.0), ("3.9 ohm", 3.9), ("10 ohm", 10.0), ("open", 1e9))


def spot(board, circuit, net, step):
    """A place where a probe reaches a net once a step is built: a wire that leaves the board, else a chip's leg, else another part's."""
    items = {item.name: item for item in board.of("part", "chip", "lead")}
    found = []
    for name, hole, of in pins(board, circuit)[0]:
        item = items[name] if name in items else items[name.partition(".")[0]]
        if of == net and voltages.PLUGGED.get(item.name, item.step) < step:
            found.append((("lead", "chip", "part").index(item.kind), not name.startswith("J"), name, hole))
    kind, _, name, hole = min(found)
    body, _, leg = name.partition(".")
    what = f"wire to {picture.lead_text(name)}" if kind == 0 else f"leg {leg} of {body}" if body in CHIP_LEGS else body
    return f"{what}, {hole_name(hole)}"


def _ohm(ohm):
    return "nothing" if ohm == OPEN else "a wire" if ohm == SHORT else f"{ohm:g} ohm"


def _volt(point, values, circuit):
    nominal, away = voltages.span(values)
    if point in DROP_VOLT:
        return f"{nominal - DROP_VOLT[point]:.2f} to {min(nominal + DROP_VOLT[point], voltages.SUPPLY_VOLT):.2f}"
    ohms = {"mic_supply": ("R23",), "mic_capsule": ("R23", "R24")}.get(point)
    if ohms:
        low, high = (voltages.SUPPLY_VOLT - ampere * sum(circuit[name].number for name in ohms) for ampere in CAPSULE_AMPERE[::-1])
        return f"{low:.1f} to {high:.1f}"
    return f"{nominal if abs(nominal) >= 0.005 else 0:.2f} ± {math.ceil(100 * away) / 100:.2f}"


def meter(board, circuit, step):
    points, cases = METER[step]
    help_, card = LOADED.get(step, ("", ""))
    read = voltages.read(voltages.built(circuit, board, step - 1), points, cases, card)
    heads = []
    for point in points:
        plus, _, minus = point.partition("-")
        heads.append(f"`{plus}`: {spot(board, circuit, plus, step)}" if not minus
                     else f"from `{minus}` (black probe: {spot(board, circuit, minus, step)}) to `{plus}` (red probe: {spot(board, circuit, plus, step)})")
    lines = [f"| across the terminals | wire 2 (wave) | {' | '.join(heads)} |", "|---|---|" + "---|" * len(points)]
    for ohm, state in cases:
        volts = [_volt(point, [draw[k] for draw in read[(ohm, state)]], circuit) for k, point in enumerate(points)]
        lines.append(f"| {_ohm(ohm)}{'; ' + help_ if help_ else ''} | {state} | {' | '.join(volts)} |")
    return lines


def _way(item, circuit):
    """How a part that has a way round is turned."""
    if item.kind == "chip":
        return f"notch up; leg 1 in {hole_name(item.holes[0])}"
    holes = [hole_name(hole) for hole in item.holes]
    part = circuit.parts.get(item.name)
    if len(holes) == 3:
        side = picture.face_of(part, item)
        return f"c {holes[0]}, b {holes[1]}, e {holes[2]}; {'print' if part.value.startswith('BD') else 'flat side'} to the {side}"
    if part.letters == "D":
        return f"band at {holes[1]}"
    return f"+ in {holes[0]}" if picture.shape_of(part).name.startswith("can") else ""


def parts(board, circuit, step):
    lines = ["| part | value | holes | which way round |", "|---|---|---|---|"]
    for item in (i for i in board.items if i.step == step - 1 and i.kind in ("part", "chip")):
        part = circuit.parts.get(item.name) or circuit[item.name + "A"]
        value = "socket" if item.kind == "chip" else circuit.row(part.name)["example"].split(" (")[0] if part.letters == "F" else picture.value_of(part)
        lines.append(f"| {item.name} | {value} | {' '.join(map(hole_name, item.holes))} | {_way(item, circuit)} |")
    count = picture.numbers(board)
    for item in (i for i in board.items if i.step == step - 1 and i.kind == "lead"):
        lines.append(f"| wire {count[item.name]} | to {picture.lead_text(item.name)} | {hole_name(item.holes[0])} | |")
    return lines


def copper(board, _circuit, _step):
    cuts = {}
    for item in board.of("cut"):
        cuts.setdefault(item.holes[0][1], []).append(hole_name(item.holes[0]))
    lines = ["| cut in column | at |", "|---|---|", *(f"| {column} | {' '.join(holes)} |" for column, holes in sorted(cuts.items()))]
    lines += ["", "| link | joins |", "|---|---|"]
    return lines + [f"| {' to '.join(map(hole_name, item.holes))} | {item.name} |" for item in board.of("link")]


def readings(_board, circuit, _step):
    """What jigs with parts within tolerance say before calibration."""
    chance = np.random.default_rng(budget.SEED)
    jigs = budget.draw_jigs(circuit, chance, budget.CAUSES, JIGS)
    solved = linear.solve(circuit, jigs, [1.0, 100.0])
    reader = budget.Reader(chance, budget.CAUSES, JIGS)
    lines = ["| across the terminals | ohm at 1 Hz | ohm at 100 Hz | degrees at 100 Hz |", "|---|---|---|---|"]
    for name, ohm in LOADS:
        ratio = reader.ratio(solved, ohm)
        size, angle = np.abs(ratio), np.degrees(np.angle(ratio[:, 1]))
        if name == "short":
            lines.append(f"| {name} | under {math.ceil(100 * size[:, 0].max()) / 100:.2f} | under {math.ceil(100 * size[:, 1].max()) / 100:.2f} | any |")
        elif name == "open":
            lines.append(f"| {name} | over {_floor(size[:, 0].min())} | over {_floor(size[:, 1].min())} | any |")
        else:
            both = [f"{size[:, k].min():.2f} to {size[:, k].max():.2f}" for k in (0, 1)]
            lines.append(f"| {name} | {both[0]} | {both[1]} | within {math.ceil(10 * np.abs(angle).max()) / 10:.1f} |")
    return lines


def _floor(ohm):
    digits = 10 ** math.floor(math.log10(ohm))
    return f"{math.floor(ohm / digits) * digits:g}"


# A mistake of a builder: what it is, and the circuit with it.
SLIPS = (
    ("as it should be", lambda c: c),
    ("D5 not soldered or turned round", lambda c: c.without("D5")),
    ("R3 not soldered", lambda c: c.without("R3")),
    ("R6 not soldered", lambda c: c.without("R6")),
    ("R7 not soldered", lambda c: c.without("R7")),
    ("F1 not soldered", lambda c: c.without("F1")),
    ("F2 not soldered", lambda c: c.without("F2")),
    ("base and emitter of Q3 exchanged", lambda c: _turned(c, "Q3", (0, 2, 1))),
    ("Q2 not soldered", lambda c: c.without("Q2")),
    ("R1 and R3 exchanged", lambda c: c.having("R1", "15k").having("R3", "47k")),
    ("R12 not soldered", lambda c: c.without("R12")),
    ("R18 not soldered", lambda c: c.without("R18")),
    ("R11 and R12 exchanged", lambda c: c.having("R11", "75k").having("R12", "24.9k")),
    ("U1 not in its socket", lambda c: c.without("U1A", "U1B")),
)
SLIP_POINTS = ("bridge_supply", "terminal_plus", "terminal_minus", "adc_voltage", "adc_current")
SLIP_CASES = ((OPEN, "on 5V"), (10, "on 5V"))


def _turned(circuit, name, order):
    part = circuit[name]
    other = voltages.Part(part.name, tuple(part.nets[k] for k in order), part.value)
    return voltages.Circuit([other if p.name == name else p for p in circuit.parts.values()], circuit.table)


def slips(board, circuit, _step):
    """What nominal parts give at the test points when one thing is built wrong."""
    heads = [f"`{point}`" for point in SLIP_POINTS]
    lines = [f"| what is wrong | across the terminals | {' | '.join(heads)} |", "|---|---|" + "---|" * len(heads)]
    right = None
    for what, change in SLIPS:
        read = voltages.nominal(change(voltages.built(circuit, board, 5)), SLIP_POINTS, SLIP_CASES)
        right = right or read
        for key in read:
            volts = [f"**{v:.1f}**" if abs(v - good) > 0.15 else f"{v:.1f}" for v, good in zip(read[key], right[key])]
            lines.append(f"| {what} | {_ohm(key[0])} | {' | '.join(volts).replace('-0.0', '0.0')} |")
    return lines


TABLES = {"slips": slips, "parts": parts, "meter": meter, "copper": copper, "readings": readings}


def page(board, circuit):
    """The guide with its tables made anew."""
    def made(match):
        kind, _, step = match.group(2).partition(" ")
        return match.group(1) + "\n".join(TABLES[kind](board, circuit, int(step or 0))) + "\n" + match.group(3)

    return MARK.sub(made, PAGE.read_text(encoding="utf-8"))
