"""Draws the layout as SVG: the whole from above, the track side, and one picture a step; legible printed on A4 without colour."""
from board import CHIP_LEGS, CHIP_WIDTH, box, chip_holes, hole_name, row_name, shape_of, standing

PITCH, LEFT, TOP, LEGEND_ROW = 27, 44, 62, 17
COLUMNS_OF_LEGEND = 7
STYLE = """<style>
text{font-family:sans-serif;font-size:10px;fill:#000;text-anchor:middle}
.head{font-size:17px;font-weight:bold;text-anchor:start}.say{font-size:12px;text-anchor:start}
.plus{font-size:17px;font-weight:bold}.edge{font-size:11px}.name{font-size:11px;font-weight:bold}.leg{font-size:9px}.thin{font-size:9px;font-weight:bold}
.strip{fill:#e4e4e4}.board{fill:#fff;stroke:#000;stroke-width:1.5}
.body{fill:#fff;stroke:#000;stroke-width:1.6}.band{fill:#000}.leads{stroke:#000;stroke-width:2.2;fill:none}
.link{stroke:#000;stroke-width:5;stroke-linecap:round}.core{stroke:#56b4e9;stroke-width:2.4;stroke-linecap:round}
.pin{fill:#000}.wire{fill:#f0e442;stroke:#000;stroke-width:1.6}.cut{stroke:#d55e00;stroke-width:3.4}
.before{opacity:.32}
</style>"""


def at(column):
    return LEFT + (column - 0.5) * PITCH


def down(row):
    return TOP + (row + 0.5) * PITCH


def tag(name, text=None, **values):
    said = " ".join(f'{key.rstrip("_").replace("_", "-")}="{value if not isinstance(value, float) else f"{value:.1f}"}"'
                    for key, value in values.items())
    return f"<{name} {said}/>" if text is None else f"<{name} {said}>{text}</{name}>"


def _say(text, x, y, kind, turned=False):
    text = text.replace("&", "&amp;").replace("<", "&lt;")
    more = {"transform": f"rotate(-90 {x:.1f} {y:.1f})"} if turned else {}
    return tag("text", text, x=x, y=y + 3.6, class_=kind, **more) if not turned else tag(
        "text", text, x=x, y=y, dy="3.6", class_=kind, **more)


def _rect(a, b, c, d, kind="body", round_=2):
    """From row a to b and column c to d, in holes."""
    return tag("rect", x=float(at(c)), y=float(down(a)), width=float((d - c) * PITCH), height=float((b - a) * PITCH), rx=round_, class_=kind)


def _line(hole, other, kind):
    return tag("line", x1=float(at(hole[1])), y1=float(down(hole[0])), x2=float(at(other[1])), y2=float(down(other[0])), class_=kind)


def _dot(hole, radius=3.4, kind="pin"):
    return tag("circle", cx=float(at(hole[1])), cy=float(down(hole[0])), r=float(radius), class_=kind)


def value_of(part):
    """What is printed beside a name: 15k, 4.7n, 1N5819."""
    return part.value.replace("ptc_010", "0.10A").replace("ptc_020", "0.20A").replace("tvs_6v8", "P6KE6.8A")


def face_of(part, item):
    """Where the printed or flat side of a transistor looks, from above: left or right.

    Seen from that side, legs down, the legs are e c b (power transistors) or c b e (the small one) from the left: with the first on
    top that side looks left. BD139: Central Semiconductor's data sheet R3, lead code (seen); BD140 by its package and BC547 from memory.
    """
    first = item.holes[2 if part.value.startswith("BD") else 0]
    return "left" if first[0] == min(row for row, _ in item.holes) else "right"


class Pen:
    """Draws one item of a board."""

    def __init__(self, circuit, numbers):
        self.circuit, self.numbers = circuit, numbers

    def item(self, item):
        if item.kind == "cut":
            return []
        if item.kind == "link":
            return [_line(*item.holes, "link"), _line(*item.holes, "core")] + [_dot(hole) for hole in item.holes]
        if item.kind == "lead":
            hole = item.holes[0]
            return [_dot(hole, 11, "wire"), _say(str(self.numbers[item.name]), at(hole[1]), down(hole[0]), "name")]
        if item.kind == "chip":
            return self._chip(item)
        part = self.circuit[item.name]
        return self._three(item, part) if len(item.holes) == 3 else self._two(item, part)

    def _chip(self, item):
        holes = chip_holes(item.name, item.holes[0])
        top, column = item.holes[0]
        last = top + CHIP_LEGS[item.name] // 2 - 1
        x = at(column + CHIP_WIDTH / 2)
        made = [_rect(top - 0.6, last + 0.6, column - 0.35, column + CHIP_WIDTH + 0.35),
                tag("path", d=f"M{x - 9:.1f} {down(top - 0.6):.1f}a9 9 0 0 0 18 0", class_="body")]
        for leg, hole in holes.items():
            made += [_dot(hole), _say(str(leg), at(hole[1]) + (11 if hole[1] == column else -11), down(hole[0]), "leg")]
        made.append(tag("circle", cx=float(at(column + 0.85)), cy=float(down(top)), r=4.2, class_="pin"))
        middle = (top + last) / 2
        # Left of the middle: the crosses of the cuts stand right of it.
        said = f"{item.name} {self.circuit[item.name + 'A'].value.upper()}"
        return made + [_say(said, at(column + 1.35), down(middle + 0.3), "name", True)]

    def _three(self, item, part):
        rows = [row for row, _ in item.holes]
        column, middle = item.holes[0][1], sorted(rows)[1]
        shape = shape_of(part)
        face = -1 if face_of(part, item) == "left" else 1
        top, bottom, left, right = box(item, self.circuit)
        made = [_line((min(rows), column), (max(rows), column), "leads")]
        if part.value.startswith("BD"):
            made.append(_rect(middle - shape.half_length, middle + shape.half_length, left, right, round_=0))
            back = right - 0.16 if face < 0 else left
            made.append(_rect(middle - shape.half_length, middle + shape.half_length, back, back + 0.16, "band", 0))
        else:
            r, x = shape.half_length * PITCH * 0.92, at(column)
            chord = x + face * shape.half_width * PITCH * 0.6
            dy = (r * r - (chord - x) ** 2) ** 0.5
            sweep = 1 if face < 0 else 0
            made.append(tag("path", d=f"M{chord:.1f} {down(middle) - dy:.1f}A{r:.1f} {r:.1f} 0 1 {sweep} {chord:.1f} {down(middle) + dy:.1f}Z", class_="body"))
        for letter, hole in zip("cbe", item.holes):
            made += [_dot(hole), _say(letter, at(column) + face * 10, down(hole[0]), "name")]
        if part.value.startswith("BD"):
            # Beside the legs, where no hole is: between the first two rows of the body.
            return made + [_say(item.name, at(column) - face * 6, down(middle + 0.5), "thin", True)]
        return made + [_say(item.name, at(column) - face * 12, down(middle), "name", True)]

    def _two(self, item, part):
        rows = [row for row, _ in item.holes]
        column, middle = item.holes[0][1], sum(rows) / 2
        shape = shape_of(part)
        x, y = at(column), down(middle)
        text = f"{item.name} {value_of(part)}".strip()
        made = [_line(*item.holes, "leads")]
        if standing(item):
            low = max(rows)
            made += [tag("circle", cx=float(x), cy=float(down(low)), r=12.0, class_="body"), _dot((min(rows), column)),
                     _dot((low, column)), _say(item.name, x + 0, down(low) - 18, "name")]
            return made
        half, wide = shape.half_length, shape.half_width * 0.86
        if shape.name.startswith("can"):
            r = shape.half_length * PITCH * 0.95
            plus = -1 if item.holes[0][0] < item.holes[1][0] else 1
            made += [tag("circle", cx=float(x), cy=float(y), r=float(r), class_="body")] + [_dot(hole) for hole in item.holes]
            made += [_say("+", x - 11, down(item.holes[0][0]) + plus * 3, "plus"), _say(item.name, x + 0.56 * r, y, "name", True)]
            return made
        made.append(_rect(middle - half, middle + half, column - wide, column + wide, round_=8 if shape.name == "ceramic" else 2))
        if part.letters == "D":
            toward = 1 if item.holes[1][0] > item.holes[0][0] else -1
            a = middle + toward * (half - 0.22) - 0.16
            made.append(_rect(a, a + 0.32, column - wide, column + wide, "band", 0))
            y -= toward * 0.18 * PITCH
            text = item.name
        made += [_dot(hole) for hole in item.holes]
        if abs(rows[0] - rows[1]) <= 2 and shape.half_width < 1:
            # Between its holes, clear of them and of the body's edge.
            return made + [_say(text, x, y, "name" if len(text) < 8 else "thin", True)]
        return made + [_say(text, x + (12 if abs(rows[0] - rows[1]) <= 2 else 0), y, "leg" if len(text) > 10 else "name", True)]


def _frame(board, title, saying, mirrored=False, rows_of_legend=0):
    width, height = LEFT * 2 + board.columns * PITCH, TOP + board.rows * PITCH + 34 + rows_of_legend * LEGEND_ROW
    made = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" role="img">',
            f"<title>{title}</title>", STYLE,
            f'<defs><pattern id="holes" x="{LEFT}" y="{TOP}" width="{PITCH}" height="{PITCH}" patternUnits="userSpaceOnUse">'
            f'<circle cx="{PITCH / 2}" cy="{PITCH / 2}" r="2.6" fill="#fff" stroke="#888" stroke-width="0.9"/></pattern></defs>',
            tag("rect", x=0, y=0, width=width, height=height, fill="#fff"),
            tag("text", title, x=LEFT, y=20, class_="head"), tag("text", saying, x=LEFT, y=38, class_="say"),
            tag("rect", x=LEFT, y=TOP, width=board.columns * PITCH, height=board.rows * PITCH, class_="board")]
    for column in range(1, board.columns + 1):
        shown = board.columns + 1 - column if mirrored else column
        made += [_say(str(column), at(shown), TOP - 9, "edge"), _say(str(column), at(shown), TOP + board.rows * PITCH + 11, "edge")]
    for row in range(board.rows):
        made += [_say(row_name(row), LEFT - 15, down(row), "edge"), _say(row_name(row), LEFT + board.columns * PITCH + 15, down(row), "edge")]
    return made


def _strips(board, cuts, mirrored):
    made = []
    for row in range(board.rows):
        ends = [0] + sorted(hole[1] for hole in cuts if hole[0] == row) + [board.columns + 1]
        for a, b in zip(ends, ends[1:]):
            if b - a > 1:
                left, right = a + 0.58, b - 0.58
                if mirrored:
                    left, right = board.columns + 1 - right, board.columns + 1 - left
                made.append(_rect(row - 0.38, row + 0.38, left, right, "strip", 0))
    return made + [tag("rect", x=LEFT, y=TOP, width=board.columns * PITCH, height=board.rows * PITCH, fill="url(#holes)")]


def _cross(row, column, size):
    x, y = at(column), down(row)
    return tag("path", d=f"M{x - size:.1f} {y - size:.1f}l{2 * size:.1f} {2 * size:.1f}M{x - size:.1f} {y + size:.1f}l{2 * size:.1f} {-2 * size:.1f}", class_="cut")


def numbers(board):
    """The wires that leave the board, numbered from the top left."""
    return {item.name: k for k, item in enumerate(sorted(board.of("lead"), key=lambda i: i.holes), 1)}


def lead_text(name):
    """A wire's far end in words."""
    body, _, pin = name.partition(".")
    kinds = {"J1": "board", "J2": "terminal", "J3": "foot switch", "D8": "blue lamp", "D9": "orange lamp", "D10": "white lamp",
             "BZ1": "buzzer", "MK1": "capsule"}
    pins = {"A": "long leg", "K": "short leg"}
    return f"{kinds[body]} {pins.get(pin, pin) if body != 'J1' else pin}"


def above(board, circuit, step=None):
    """From above: everything, or what is there after a step with what is new in black and the rest pale."""
    shown = [item for item in board.items if step is None or item.step <= step]
    count = numbers(board)
    leads = sorted((item for item in shown if item.kind == "lead" and step in (None, item.step)), key=lambda i: count[i.name])
    rows = -(-len(leads) // COLUMNS_OF_LEGEND)
    title = "All parts, from above" if step is None else f"Step {step + 1}: {board.steps[step]}"
    saying = ("From above; strips run left to right underneath. Crosses: strip cut. Double lines: wire links. Numbered rings: wires that leave the board."
              if step is None else "From above. Black: new in this step; pale: there already. Thick end of a body: band or metal side; + and leg 1 marked.")
    made = _frame(board, title, saying, rows_of_legend=rows)
    cuts = [item.holes[0] for item in board.of("cut")]
    made += _strips(board, cuts, False) + [_cross(*hole, 5) for hole in cuts]
    pen = Pen(circuit, count)
    for new in (False, True):
        group = [text for kind in ("link", "part", "chip", "lead") for item in shown
                 if item.kind == kind and (step is None or item.step == step) == new for text in pen.item(item)]
        if group:
            made += [f'<g class="{"now" if new else "before"}">', *group, "</g>"]
    # Once more what a chip hides; other bodies keep their names legible.
    rooms = [box(chip, circuit) for chip in board.of("chip")]
    made += [_cross(*hole, 5) for hole in cuts if any(a < hole[0] < b and c < hole[1] < d for a, b, c, d in rooms)]
    for k, item in enumerate(leads):
        column, row = divmod(k, rows)
        made.append(tag("text", f"{count[item.name]} {hole_name(item.holes[0])}: {lead_text(item.name)}",
                        x=LEFT + column * board.columns * PITCH // COLUMNS_OF_LEGEND,
                        y=TOP + board.rows * PITCH + 40 + row * LEGEND_ROW, class_="say"))
    return "\n".join(made + ["</svg>", ""])


def track_side(board):
    """From below, mirrored: where strips are cut, and every soldered hole."""
    cuts = [item.holes[0] for item in board.of("cut")]
    made = _frame(board, "Track side, board turned over left to right",
                  f"Column 1 is on the right. Crosses: cut the strip here ({len(cuts)} cuts). Black dots: soldered.", True)
    made += _strips(board, cuts, True)
    for item in board.of("part", "chip", "lead", "link"):
        holes = chip_holes(item.name, item.holes[0]).values() if item.kind == "chip" else item.holes
        made += [_dot((row, board.columns + 1 - column), 4.2) for row, column in holes]
    made += [_cross(row, board.columns + 1 - column, 9) for row, column in cuts]
    return "\n".join(made + ["</svg>", ""])
