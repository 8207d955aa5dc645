"""Draws the schematic from the netlist by the places in drawing.txt, and finds what the two do not have in common."""
from html import escape

import symbols
from circuit import FOLDER

WIDTH, HEIGHT = 1970, 1120
POWER = ("gnd", "supply_5v")


class Sheet:
    """Places of parts, wires and labels, in points of the sheet."""

    def __init__(self, circuit):
        self.circuit = circuit
        self.blocks, self.parts, self.wires, self.labels, self.wrong = [], {}, [], [], []
        corner = (0, 0)
        for line, text in enumerate((FOLDER / "drawing.txt").read_text(encoding="utf-8").splitlines(), 1):
            words = text.split()
            if not words or words[0].startswith("#"):
                continue
            kind, rest = words[0], words[1:]
            if kind == "block":
                corner = (int(rest[0]), int(rest[1]))
                self.blocks.append((*map(int, rest[:4]), " ".join(rest[4:])))
            elif kind == "part":
                if rest[0] in self.parts:
                    self.wrong.append(f"drawing.txt line {line} has {rest[0]} a second time.")
                self.parts[rest[0]] = (corner[0] + int(rest[1]), corner[1] + int(rest[2]), rest[3])
            elif kind == "wire":
                numbers = list(map(int, rest[1:]))
                points = [(corner[0] + x, corner[1] + y) for x, y in zip(numbers[::2], numbers[1::2])]
                self.wires.append((rest[0], points))
            elif kind == "label":
                self.labels.append((rest[0], (corner[0] + int(rest[1]), corner[1] + int(rest[2])), rest[3]))
            else:
                self.wrong.append(f"drawing.txt line {line}: '{kind}' is none of block, part, wire, label.")
        self.pins = {name: symbols.pins(circuit[name], *place) for name, place in self.parts.items()
                     if name in circuit.parts}

    def ends(self):
        """Every pin: part, net, place, and the side on which it leaves the part."""
        for name, pins in self.pins.items():
            for net, (place, side) in zip(self.circuit[name].nets, pins):
                yield name, net, place, side

    def groups(self):
        """Pieces of each net as the picture joins them: net, pins, wires."""
        groups = [[net, [(name, place, side)], []] for name, net, place, side in self.ends()]
        groups += [[net, [], [points]] for net, points in self.wires]
        joined = True
        while joined:
            joined = False
            for a in range(len(groups)):
                for b in range(len(groups) - 1, a, -1):
                    if groups[a][0] == groups[b][0] and _touch(groups[a], groups[b]):
                        groups[a][1] += groups[b][1]
                        groups[a][2] += groups[b][2]
                        del groups[b]
                        joined = True
        return groups


def _on(place, points):
    return any(min(a[0], b[0]) <= place[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= place[1] <= max(a[1], b[1])
               for a, b in zip(points, points[1:]))


def _touch(one, two):
    if any(p[1] == q[1] for p in one[1] for q in two[1]):
        return True
    if any(_on(p[1], w) for x, y in ((one, two), (two, one)) for p in x[1] for w in y[2]):
        return True
    return any(_on(end, w) for x, y in ((one, two), (two, one)) for v in x[2] for end in v for w in y[2])


def complaints(circuit):
    """Each way in which picture and netlist differ, as a sentence."""
    sheet = Sheet(circuit)
    found = list(sheet.wrong)
    found += [f"The picture lacks {name}." for name in circuit.parts if name not in sheet.parts]
    found += [f"The picture has {name}, the netlist has not." for name in sheet.parts if name not in circuit.parts]
    ends = list(sheet.ends())
    for k, (name, net, place, _) in enumerate(ends):
        for other, net2, place2, _ in ends[k + 1:]:
            if place == place2 and net != net2:
                found.append(f"In the picture {name} ({net}) and {other} ({net2}) touch at {place}.")
        for wired, points in sheet.wires:
            if wired != net and _on(place, points):
                found.append(f"In the picture a wire of {wired} runs over a pin of {name} ({net}) at {place}.")
    for net, points in sheet.wires:
        if any(a[0] != b[0] and a[1] != b[1] for a, b in zip(points, points[1:])):
            found.append(f"In the picture a wire of {net} at {points[0]} is not level or upright.")
        for net2, points2 in sheet.wires:
            if net < net2 and any(_on(end, points2) for end in points) or net != net2 and any(_on(e, points) for e in points2):
                found.append(f"In the picture wires of {net} and {net2} touch near {points[0]}.")
    groups = sheet.groups()
    for net, pins, wires in groups:
        if not pins:
            found.append(f"In the picture a wire of {net} at {wires[0][0]} leads to no part.")
    for net, place, side in sheet.labels:
        if not any(g[0] == net and _belongs(place, side, g[1], g[2]) for g in groups):
            found.append(f"In the picture the label {net} at {place} is not on a wire or pin of that net.")
    drawn = svg(circuit)
    found += [f"The picture does not name the net {net}." for net in circuit.nets() if f'data-net="{net}"' not in drawn]
    return found


def svg(circuit):
    """The picture. Pieces of a net that are not joined by a wire bear its name; ground and 5 V have signs of their own."""
    sheet = Sheet(circuit)
    out = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" font-family="sans-serif" font-size="13">',
           "<title>The jig's circuit</title>",
           f'<rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>',
           '<text x="20" y="40" font-size="26" font-weight="bold">The jig: circuit</text>',
           '<text x="300" y="40" font-size="15">Drawn from circuit/netlist.cir. Flags of one name are joined. Not built or measured yet.'
           " Licence CERN-OHL-P-2.0.</text>"]
    for x, y, width, height, title in sheet.blocks:
        out.append(f'<rect x="{x}" y="{y}" width="{width}" height="{height}" rx="6" fill="#f6f8fa" stroke="#999999"/>'
                   f'<text x="{x + 10}" y="{y + 22}" font-size="16" font-weight="bold" fill="#333333">{escape(title)}</text>')
    for net, points in sheet.wires:
        out.append(f'<polyline data-net="{net}" points="{" ".join(f"{x},{y}" for x, y in points)}" fill="none"'
                   ' stroke="black" stroke-width="1.6"/>')
    for net, pins, wires in sheet.groups():
        out += _named(sheet, net, pins, wires)
        out += _dots(pins, wires)
    for name, place in sheet.parts.items():
        if name in circuit.parts:
            out.append(symbols.draw(circuit[name], *place))
    return "\n".join(out + ["</svg>", ""])


def _named(sheet, net, pins, wires):
    if net in POWER:
        return [symbols.power(net, place, side) for _, place, side in pins
                if not any(_on(place, w) for w in wires)] or [symbols.power(net, pins[0][1], pins[0][2])]
    own = [(place, side) for label, place, side in sheet.labels
           if label == net and _belongs(place, side, pins, wires)]
    if own:
        return [symbols.name(net, place) if side == "n" else symbols.flag(net, place, side) for place, side in own]
    free = [(place, side) for _, place, side in pins if not any(_on(place, w) for w in wires)]
    if len(free) == len(pins) and len(pins) == 1:
        return [symbols.flag(net, *free[0])]
    if free and len(pins) > 1 and len(free) < len(pins):
        return [symbols.flag(net, *free[0])]
    # All joined here: a small name along the longest level piece, or beside the pins that touch.
    pieces = [(abs(b[0] - a[0]), a, b) for w in wires for a, b in zip(w, w[1:]) if a[1] == b[1]]
    if pieces:
        _, a, b = max(pieces)
        return [symbols.name(net, ((a[0] + b[0]) / 2, a[1]))]
    return [symbols.name(net, pins[0][1])]


def _belongs(place, side, pins, wires):
    """A flag stands on its net; a small name may stand a little beside it."""
    far = 45 if side == "n" else 0
    near = [p for _, p, _ in pins] + [p for w in wires for p in w]
    return (any(_on(place, w) for w in wires)
            or any(abs(p[0] - place[0]) <= far and abs(p[1] - place[1]) <= far for p in near))


def _dots(pins, wires):
    """A dot where three or more ways meet."""
    ways = {}
    for _, place, _ in pins:
        ways[place] = ways.get(place, 0) + 1
    for points in wires:
        for k, place in enumerate(points):
            ways[place] = ways.get(place, 0) + (1 if k in (0, len(points) - 1) else 2)
    for place in list(ways):
        for points in wires:
            if place not in points and _on(place, points):
                ways[place] += 2
    return [f'<circle cx="{x}" cy="{y}" r="3.2"/>' for (x, y), count in ways.items() if count > 2]
