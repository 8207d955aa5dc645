"""Reads the layout (board.txt) and holds it to the netlist: every part once, every pin on its net, no short, no open, no collision."""
import re
import sys
from dataclasses import dataclass, field
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "proof"))

from circuit import Circuit, CircuitError  # noqa: E402

# What is not on the board but wired to it: its pins in the order of the netlist's nets.
WIRED = {
    "J1": ("5V", "GND", "9", "A0", "A1", "A2", "2", "4", "5", "6", "7"), "J2": ("red", "black"), "J3": ("tip", "sleeve"),
    "D8": ("A", "K"), "D9": ("A", "K"), "D10": ("A", "K"), "BZ1": ("+", "-"), "MK1": ("+", "case"),
}
# Legs of the op-amps' packages in the order of a card's nets: + input, - input, supply, ground, output. Dual and quad
# op-amps of every maker have them so (MCP6001/2/4 data sheet, pin tables; from memory).
LEGS = {
    "U1A": (3, 2, 8, 4, 1), "U1B": (5, 6, 8, 4, 7),
    "U2A": (3, 2, 4, 11, 1), "U2B": (5, 6, 4, 11, 7), "U2C": (10, 9, 4, 11, 8), "U2D": (12, 13, 4, 11, 14),
}
CHIP_LEGS = {"U1": 8, "U2": 14}
CHIP_WIDTH = 3
LONGEST_STANDING = 3


@dataclass(frozen=True)
class Shape:
    """A body in holes of 2.54 mm: half its length along the legs, half its width across, and the spans its legs allow."""

    name: str
    half_length: float
    half_width: float
    spans: tuple


# Largest bodies of the usual makers, in holes; a leg may be bent outwards, never under a body.
SHAPES = {
    "resistor": Shape("resistor", 1.30, 0.49, tuple(range(1, 10))),
    "power": Shape("power", 2.60, 1.00, tuple(range(6, 11))),
    "diode": Shape("diode", 1.05, 0.54, tuple(range(3, 10))),
    "signal": Shape("signal", 0.85, 0.40, tuple(range(3, 10))),
    "surge": Shape("surge", 1.50, 0.72, tuple(range(4, 10))),
    "film": Shape("film", 1.42, 0.60, (2, 3)),
    "film_wide": Shape("film_wide", 1.42, 1.00, (2, 3)),
    "ceramic": Shape("ceramic", 1.00, 0.50, (1, 2, 3)),
    "can": Shape("can", 1.00, 1.00, (1, 2)),
    "can_large": Shape("can_large", 1.60, 1.60, (1, 2)),
    "fuse": Shape("fuse", 1.46, 0.62, (2, 3)),
    "tab": Shape("tab", 1.58, 0.58, (1, 2)),
    "small": Shape("small", 1.02, 0.90, (1, 2)),
}


def shape_of(part):
    """Which body a part of the netlist has."""
    name, value = part.name, part.value
    if name == "R10":
        return SHAPES["power"]
    if part.letters == "R":
        return SHAPES["resistor"]
    if part.letters == "D":
        return SHAPES["surge" if value.startswith("tvs") else "signal" if value == "1N4148" else "diode"]
    if part.letters == "F":
        return SHAPES["fuse"]
    if part.letters == "Q":
        return SHAPES["tab" if value.startswith("BD") else "small"]
    if name == "C8":
        return SHAPES["film_wide"]
    if name == "C11":
        return SHAPES["can_large"]
    if name in ("C6", "C7", "C9"):
        return SHAPES["can"]
    return SHAPES["ceramic" if name in ("C3", "C12", "C13", "C14", "C15") else "film"]


def row_name(row):
    """A to Z, then AA, AB ..."""
    return chr(65 + row) if row < 26 else "A" + chr(65 + row - 26)


def hole_name(hole):
    return f"{row_name(hole[0])}{hole[1]}"


def read_hole(text, where):
    match = re.fullmatch(r"(A?[A-Z])([1-9][0-9]?)", text)
    if not match:
        raise CircuitError(f"{where}: '{text}' is no hole; write it as C7 or AB12.")
    letters = match.group(1)
    return (ord(letters[-1]) - 65 + 26 * (len(letters) - 1), int(match.group(2)))


@dataclass(frozen=True)
class Item:
    """A line of the layout: `kind` part, chip, lead, link or cut; holes in the order of the netlist's nets."""

    kind: str
    name: str
    holes: tuple
    step: int
    where: str


@dataclass
class Board:
    """The board: rows and columns (from 1), the steps' titles and the items in the order of building."""

    rows: int = 0
    columns: int = 0
    steps: list = field(default_factory=list)
    items: list = field(default_factory=list)

    def of(self, *kinds):
        return [item for item in self.items if item.kind in kinds]

    @staticmethod
    def read(text, name="board.txt"):
        board = Board()
        for number, line in enumerate(text.splitlines(), 1):
            words = line.split("#")[0].split()
            if words:
                board._take(words, f"{name} line {number}")
        if not board.rows:
            raise CircuitError(f"{name}: there is no line 'board ROWS COLUMNS'.")
        return board

    def _take(self, words, where):
        kind = words[0]
        if kind == "board":
            if len(words) != 3 or not all(w.isdigit() for w in words[1:]):
                raise CircuitError(f"{where}: a board needs two whole numbers, rows and columns.")
            self.rows, self.columns = int(words[1]), int(words[2])
        elif kind == "step":
            self.steps.append(" ".join(words[1:]))
        elif kind in ("part", "chip", "lead", "link"):
            if len(words) < 3:
                raise CircuitError(f"{where}: '{kind}' needs a name and holes.")
            self._add(kind, words[1], words[2:], where)
        elif kind == "cut":
            for word in words[1:]:
                self._add(kind, "", [word], where)
        else:
            raise CircuitError(f"{where}: '{kind}' is none of board, step, part, chip, lead, link, cut.")

    def _add(self, kind, name, words, where):
        if not self.steps:
            raise CircuitError(f"{where}: no step has begun; write 'step TITLE' before.")
        holes = tuple(read_hole(word, where) for word in words)
        for hole in holes:
            if hole[0] >= self.rows or not 1 <= hole[1] <= self.columns:
                raise CircuitError(f"{where}: {hole_name(hole)} is off the board, which ends at"
                                   f" {hole_name((self.rows - 1, self.columns))}.")
        self.items.append(Item(kind, name, holes, len(self.steps) - 1, where))


def chip_holes(name, first):
    """The holes of a chip's legs by number: down on the left from leg 1, up on the right."""
    half = CHIP_LEGS[name] // 2
    row, column = first
    holes = {leg: (row + leg - 1, column) for leg in range(1, half + 1)}
    holes.update({leg: (row + 2 * half - leg, column + CHIP_WIDTH) for leg in range(half + 1, 2 * half + 1)})
    return holes


def pins(board, circuit):
    """Every soldered pin as (name of the pin, hole, net that the netlist gives it), and what is wrong with the list."""
    found, wrong, seen = [], [], {}
    for item in board.of("part", "chip", "lead"):
        seen[item.name] = seen.get(item.name, 0) + 1
        if item.kind == "lead":
            found += _lead(item, circuit, wrong)
        elif item.kind == "chip":
            found += _chip(item, circuit, wrong)
        elif item.name not in circuit.parts or item.name in WIRED:
            wrong.append(f"{item.where}: the netlist has no part {item.name} for the board.")
        elif len(item.holes) != len(circuit[item.name].nets):
            wrong.append(f"{item.where}: {item.name} has {len(item.holes)} holes; it needs {len(circuit[item.name].nets)}.")
        else:
            nets = circuit[item.name].nets
            found += [(f"{item.name}.{k + 1}", hole, net) for k, (hole, net) in enumerate(zip(item.holes, nets))]
    wrong += [f"{name} is on the board {count} times." for name, count in seen.items() if count > 1]
    wanted = [b for b in circuit.bodies() if b not in WIRED]
    wanted += [f"{name}.{pin}" for name, names in WIRED.items() if name in circuit.parts for pin in names]
    wrong += [f"{name} is not on the board." for name in wanted if name not in seen]
    return found, wrong


def _lead(item, circuit, wrong):
    body, _, pin = item.name.partition(".")
    if body not in WIRED or pin not in WIRED[body] or body not in circuit.parts or len(item.holes) != 1:
        wrong.append(f"{item.where}: {item.name} is no lead that the netlist has, or has not one hole.")
        return []
    return [(item.name, item.holes[0], circuit[body].nets[WIRED[body].index(pin)])]


def _chip(item, circuit, wrong):
    if item.name not in CHIP_LEGS or len(item.holes) != 1:
        wrong.append(f"{item.where}: {item.name} is no chip, or has not one hole for leg 1.")
        return []
    nets = {}
    for name, legs in LEGS.items():
        if name.startswith(item.name) and name in circuit.parts:
            nets.update(zip(legs, circuit[name].nets))
    return [(f"{item.name}.{leg}", hole, nets.get(leg, f"leg {leg} of {item.name}"))
            for leg, hole in chip_holes(item.name, item.holes[0]).items()]


class Copper:
    """Which holes hang together, by strips between cuts and by links."""

    def __init__(self, board):
        self.cut = {item.holes[0] for item in board.of("cut")}
        self.parent = {}
        self.strip = {}
        for row in range(board.rows):
            start = None
            for column in range(1, board.columns + 1):
                if (row, column) in self.cut:
                    start = None
                    continue
                start = (row, column) if start is None else start
                self.strip[(row, column)] = start
                self.parent[start] = start
        for item in board.of("link"):
            ends = [self.strip[hole] for hole in item.holes if hole in self.strip]
            if len(ends) == 2:
                self.parent[self._root(ends[0])] = self._root(ends[1])

    def _root(self, strip):
        while self.parent[strip] != strip:
            strip = self.parent[strip]
        return strip

    def piece(self, hole):
        """The piece of copper that a hole is on; None on a cut."""
        return self._root(self.strip[hole]) if hole in self.strip else None


def complaints(board, circuit):
    """Everything in which the layout is not the netlist, or cannot be built."""
    found, wrong = pins(board, circuit)
    copper = Copper(board)
    for item in board.of("link"):
        if len(item.holes) != 2:
            wrong.append(f"{item.where}: a link needs two holes.")
        found += [(f"link {hole_name(hole)}", hole, item.name) for hole in item.holes]
        if item.name not in circuit.nets():
            wrong.append(f"{item.where}: the netlist has no net {item.name}.")
    nets, pieces = {}, {}
    for name, hole, net in found:
        piece = copper.piece(hole)
        if piece is None:
            wrong.append(f"{name} is in {hole_name(hole)}, where the strip is cut.")
            continue
        nets.setdefault(net, {}).setdefault(piece, []).append(name)
        pieces.setdefault(piece, {}).setdefault(net, []).append(name)
    wrong += [f"Open: {net} is in {len(parts)} pieces: " + " / ".join(" ".join(sorted(who)[:3]) for who in parts.values()) + "."
              for net, parts in sorted(nets.items()) if len(parts) > 1]
    wrong += ["Short: " + " and ".join(f"{net} ({' '.join(sorted(who)[:3])})" for net, who in sorted(on.items())) + " are joined."
              for on in pieces.values() if len(on) > 1]
    wrong += [f"The net {net} has no pin on the board." for net in circuit.nets() if net not in nets]
    return wrong + _spans(board, circuit) + _collisions(board, circuit)


def _spans(board, circuit):
    wrong = []
    for item in board.of("part", "link"):
        rows = [row for row, _ in item.holes]
        if len({column for _, column in item.holes}) > 1:
            if item.kind == "part":
                wrong.append(f"{item.where}: {item.name} does not stand across the strips, in one column.")
            continue
        if item.kind == "link" or item.name not in circuit.parts:
            continue
        shape = shape_of(circuit[item.name])
        order = sorted(rows)
        gaps = [b - a for a, b in zip(order, order[1:])]
        if any(gap not in shape.spans for gap in gaps):
            wrong.append(f"{item.where}: {item.name} spans {' and '.join(map(str, gaps))} holes; its legs reach"
                         f" {shape.spans[0]} to {shape.spans[-1]}.")
        if len(rows) == 3 and middle_leg(circuit[item.name]) != rows.index(order[1]):
            wrong.append(f"{item.where}: the middle leg of {item.name} is not in the middle.")
    return wrong


def middle_leg(part):
    """Which of collector (0), base (1), emitter (2) is the middle leg: e c b for the power transistors, c b e for the small one."""
    return 0 if part.value.startswith("BD") else 1


def standing(item):
    """Whether a resistor stands on one end: its legs are too near for it to lie."""
    return item.name.startswith("R") and abs(item.holes[0][0] - item.holes[1][0]) <= LONGEST_STANDING


def box(item, circuit):
    """The room that an item takes on the board: top, bottom, left, right in holes."""
    rows, column = [row for row, _ in item.holes], item.holes[0][1]
    if item.kind == "chip":
        last = item.holes[0][0] + CHIP_LEGS[item.name] // 2 - 1
        return item.holes[0][0] - 0.6, last + 0.6, column - 0.5, column + CHIP_WIDTH + 0.5
    if item.kind == "lead":
        return rows[0] - 0.3, rows[0] + 0.3, column - 0.3, column + 0.3
    if item.kind == "link":
        columns = [c for _, c in item.holes]
        return min(rows) - 0.2, max(rows) + 0.2, min(columns) - 0.2, max(columns) + 0.2
    shape = shape_of(circuit[item.name])
    middle = sorted(rows)[1] if len(rows) == 3 else (min(rows) + max(rows)) / 2
    if standing(item):
        return min(rows) - 0.49, max(rows) + 0.49, column - 0.49, column + 0.49
    return (min(min(rows) - 0.2, middle - shape.half_length), max(max(rows) + 0.2, middle + shape.half_length),
            column - shape.half_width, column + shape.half_width)


def _collisions(board, circuit):
    wrong, taken = [], {}
    for item in board.items:
        holes = chip_holes(item.name, item.holes[0]).values() if item.kind == "chip" and item.name in CHIP_LEGS else item.holes
        for hole in holes:
            if hole in taken and not (item.kind == "cut" and taken[hole] != "cut"):
                wrong.append(f"{hole_name(hole)} holds both {taken[hole]} and {item.name or 'a cut'}.")
            taken[hole] = item.name or "cut"
    boxes = [(item, box(item, circuit)) for item in board.of("part", "chip", "lead", "link")
             if item.kind != "part" or item.name in circuit.parts]
    for k, (one, a) in enumerate(boxes):
        wrong += [f"{one.name} and {other.name} take the same room near {hole_name(other.holes[0])}."
                  for other, b in boxes[k + 1:] if a[0] < b[1] and b[0] < a[1] and a[2] < b[3] and b[2] < a[3]]
        if a[0] < -1.7 or a[1] > board.rows + 0.7 or a[2] < -0.2 or a[3] > board.columns + 1.2:
            wrong.append(f"{one.name} hangs over the edge of the board.")
    return wrong
