"""Reads the circuit: netlist.cir, parts.csv and limits.csv of the folder `circuit`."""
import csv
import re
from dataclasses import dataclass, replace
from pathlib import Path

HOME = Path(__file__).resolve().parent.parent
FOLDER = HOME / "circuit"
FACTORS = {"p": 1e-12, "n": 1e-9, "u": 1e-6, "m": 1e-3, "": 1.0, "k": 1e3, "M": 1e6}
NETS_OF = {"R": 2, "C": 2, "D": 2, "Q": 3, "F": 2, "MK": 2, "BZ": 2, "U": 5}


class CircuitError(Exception):
    """Something in the circuit's files is wrong; the message says what and where."""


@dataclass(frozen=True)
class Part:
    """One card of the netlist. `name` has no X before it; `value` is as written."""

    name: str
    nets: tuple
    value: str

    @property
    def letters(self):
        return re.match(r"[A-Z]+", self.name).group()

    @property
    def body(self):
        """The thing that is soldered: U1 for its halves U1A and U1B."""
        return re.match(r"[A-Z]+[0-9]+", self.name).group()

    @property
    def number(self):
        """The value as a number in ohm or farad."""
        return number(self.value, self.name)


def number(text, where):
    match = re.fullmatch(r"([0-9]+(?:\.[0-9]+)?)([pnumkM]?)", text)
    if not match:
        raise CircuitError(f"{where}: '{text}' is no value; write it as 47, 4.7n or 15k.")
    return float(match.group(1)) * FACTORS[match.group(2)]


class Circuit:
    """Parts by name, in the netlist's order, with their tolerances."""

    def __init__(self, parts, table):
        self.parts = {part.name: part for part in parts}
        self.table = table

    @staticmethod
    def read(netlist=None):
        path = Path(netlist) if netlist else FOLDER / "netlist.cir"
        parts = {}
        for line, text in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            card = text.split(";")[0].split()
            if not card or text.startswith("*"):
                continue
            where = f"{path.name} line {line}"
            name = card[0][1:] if card[0].startswith("X") else card[0]
            if not re.fullmatch(r"[A-Z]+[0-9]+[A-D]?", name):
                raise CircuitError(f"{where}: '{card[0]}' is no name of a part; write it as R1, XF1 or XU1A.")
            part = Part(name, tuple(card[1:-1]), card[-1])
            nets = NETS_OF.get(part.letters)
            if nets and len(part.nets) != nets:
                raise CircuitError(f"{where}: {name} has {len(part.nets)} nets; it needs {nets}.")
            if name in parts:
                raise CircuitError(f"{where}: {name} stands there twice.")
            parts[name] = part
        return Circuit(parts.values(), rows("parts.csv"))

    def __getitem__(self, name):
        if name not in self.parts:
            raise CircuitError(f"The netlist has no {name}, which the proof needs.")
        return self.parts[name]

    def nets(self):
        return sorted({net for part in self.parts.values() for net in part.nets})

    def bodies(self):
        return list(dict.fromkeys(part.body for part in self.parts.values()))

    def tolerance(self, name):
        """Of a resistor or capacitor, as a share: 0.01 for 1 %."""
        return float(self.row(name)["tolerance_percent"]) / 100

    def drift(self, name):
        """Of a resistor or capacitor with temperature, either way, as a share for each kelvin."""
        return float(self.row(name)["drift_ppm_per_kelvin"]) * 1e-6

    def row(self, name):
        body = self[name].body
        for row in self.table:
            if body in row["refs"].split():
                return row
        raise CircuitError(f"parts.csv has no {body}.")

    def without(self, *names):
        return Circuit([p for p in self.parts.values() if p.name not in names], self.table)

    def having(self, name, value):
        return Circuit([replace(p, value=value) if p.name == name else p for p in self.parts.values()], self.table)

    def complaints(self):
        """Where netlist and parts table differ, and nets that lead nowhere."""
        found = []
        table = {}
        for row in self.table:
            for ref in row["refs"].split():
                if ref in table:
                    found.append(f"parts.csv has {ref} twice.")
                table[ref] = row
        for part in self.parts.values():
            row = table.get(part.body)
            if row is None:
                found.append(f"parts.csv has no {part.body}.")
            elif row["value"] != part.value:
                found.append(f"{part.name} is {part.value} in the netlist and {row['value']} in parts.csv.")
        found += [f"The netlist has no {ref}, parts.csv has." for ref in table if ref not in self.bodies()]
        ends = {}
        for part in self.parts.values():
            for net in part.nets:
                ends.setdefault(net, []).append(part.name)
        found += [f"Net {net} has only one end, at {who[0]}." for net, who in ends.items() if len(who) < 2]
        return found


def rows(name):
    with open(FOLDER / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


class Findings:
    """Holds values against limits.csv; each limit may be asked for once or many times, none may be forgotten."""

    def __init__(self):
        self.limits = {row["key"]: row for row in rows("limits.csv")}
        self.worst = {}
        self.broken = []

    def hold(self, key, value, where=""):
        row = self.limits.get(key)
        if row is None:
            raise CircuitError(f"limits.csv has no {key}.")
        low, high = (float(row[side]) if row[side] else None for side in ("low", "high"))
        fine = value == value and (low is None or value >= low) and (high is None or value <= high)
        if not fine:
            self.broken.append(
                f"{row['what']}{' ' + where if where else ''}: {value:.5g} {row['unit']}, allowed"
                f" {row['low'] or 'any'} to {row['high'] or 'any'}")
        self.worst.setdefault(key, []).append((value, where, fine))
        return fine
