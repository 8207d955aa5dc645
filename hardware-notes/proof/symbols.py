"""Signs of the parts: where their pins are and how they look (IEC 60617 in spirit, from memory)."""
from html import escape

TURN = {"r": (1, 0), "l": (-1, 0), "d": (0, 1), "u": (0, -1)}
BACK = {"r": "l", "l": "r", "u": "d", "d": "u"}
WAY = {v: k for k, v in TURN.items()}
BOARD = ("5V", "GND", "9", "A0", "A1", "A2", "2", "4", "5", "6", "7")
INK = 'fill="none" stroke="black" stroke-width="1.8"'
BLUE, ORANGE = "#0072B2", "#D55E00"


def pins(part, x, y, way):
    """Place and outward side of each pin, in the order of the part's nets."""
    if part.letters == "U":
        plus, minus = ((x - 40, y - 20), (x - 40, y + 20)) if way == "p" else ((x - 40, y + 20), (x - 40, y - 20))
        return [(plus, "l"), (minus, "l"), ((x, y - 30), "u"), ((x, y + 30), "d"), ((x + 40, y), "r")]
    if part.letters == "Q":
        top, bottom = ((x, y - 40), "u"), ((x, y + 40), "d")
        collector, emitter = (bottom, top) if part.value == "BD140" else (top, bottom)
        return [collector, ((x - 40, y), "l"), emitter]
    if part.letters == "J":
        if len(part.nets) > 3:
            half = (len(part.nets) + 1) // 2
            return [((x - 30, y - 50 + 24 * k), "l") if k < half else ((x + 90, y - 50 + 24 * (k - half)), "r")
                    for k in range(len(part.nets))]
        return [((x - 30, y - 10 + 24 * k), "l") for k in range(len(part.nets))]
    dx, dy = TURN[way]
    return [((x - 30 * dx, y - 30 * dy), BACK[way]), ((x + 30 * dx, y + 30 * dy), way)]


def draw(part, x, y, way):
    body = {"U": _opamp, "Q": _transistor, "J": _connector}.get(part.letters, _two_ends)
    return f'<g data-part="{part.name}">{body(part, x, y, way)}</g>'


def _text(x, y, words, anchor="middle", extra=""):
    return f'<text x="{x:g}" y="{y:g}" text-anchor="{anchor}" {extra}>{escape(words)}</text>'


def _two_ends(part, x, y, way):
    dx, dy = TURN[way]
    angle = {"r": 0, "d": 90, "l": 180, "u": 270}[way]
    lead = '<path d="M-30 0H-16M16 0H30"/>'
    shapes = {
        "R": '<rect x="-16" y="-6" width="32" height="12" fill="white"/>' + lead,
        "F": '<rect x="-16" y="-7" width="32" height="14" fill="white"/><path d="M-14 12H-6L10 -12"/>' + lead,
        "C": '<path d="M-30 0H-3M3 0H30M-3 -11V11M3 -11V11"/>',
        "D": '<path d="M-30 0H-9M9 0H30M-9 -9V9L9 0ZM9 -9V9"/>',
        "MK": '<circle r="14" fill="white"/><path d="M-30 0H-14M14 0H30M14 -14V14"/>',
        "BZ": '<path d="M-16 -12H16V4A16 16 0 0 1 -16 4Z" fill="white"/><path d="M-30 0H-16M16 0H30"/>',
    }
    shape = shapes[part.letters]
    if part.value == "tvs_6v8":
        shape += '<path d="M9 -9H5M9 9H13"/>'
    elif part.value.startswith("1N58"):
        shape += '<path d="M9 -9H5V-6M9 9H13V6"/>'
    elif part.value.startswith("led"):
        shape += f'<path stroke="{ORANGE}" d="M-2 -12L6 -20M5 -12L13 -20"/>'
    polar = part.letters == "C" and part.value in ("10u", "22u", "47u", "220u")
    plus = _text(x - 12 * dx + (-12 if dy else 0), y - 12 * dy + (-10 if dx else 4), "+") if polar else ""
    sign = f'<g transform="translate({x} {y}) rotate({angle})" {INK}>{shape}</g>'
    if dx:
        high = 24 if part.value.startswith("led") else 16
        return sign + plus + (f'<text x="{x}" y="{y - high}" text-anchor="middle"><tspan font-weight="bold">{part.name}</tspan>'
                              f" {escape(spoken(part))}</text>")
    beside = x + (20 if part.letters in ("MK", "BZ") else 16)
    return (sign + plus + _text(beside, y - 2, part.name, "start", 'font-weight="bold"')
            + _text(beside, y + 13, spoken(part), "start"))


def spoken(part):
    """The value as a person reads it."""
    if part.letters == "R":
        return part.value if part.value[-1] in "kM" else part.value + " \u03a9"
    if part.letters == "C":
        return part.value.replace("u", "\u00b5") + "F"
    return {"ptc_010": "0.10 A", "ptc_020": "0.20 A", "tvs_6v8": "6.8 V", "led_blue": "pass: blue",
            "led_orange": "fail: orange", "led_white": "busy: white", "capsule": "electret", "buzzer": "buzzer",
            "mcp6002": "MCP6002", "mcp6004": "MCP6004"}.get(part.value, part.value)


def _opamp(part, x, y, way):
    plus, minus = (-20, 20) if way == "p" else (20, -20)
    shape = f'<path d="M-28 -36V36L34 0Z" fill="white"/><path d="M-40 {plus}H-28M-40 {minus}H-28M34 0H40M0 -30V-20M0 20V30"/>'
    return (f'<g transform="translate({x} {y})" {INK}>{shape}</g>' + _text(x - 20, y + plus + 5, "+")
            + _text(x - 20, y + minus + 5, "\u2212") + _text(x - 4, y + 5, part.name, extra='font-weight="bold"')
            + _text(x + 13, y + 46, spoken(part), "start", 'font-size="10"'))


def _transistor(part, x, y, way):
    del way
    pnp = part.value == "BD140"
    # Arrow on the emitter: outwards for NPN, inwards for PNP.
    emitter = -1 if pnp else 1
    arrow = (f"M-9 {emitter * 13}L-2 {emitter * 10}L-6 {emitter * 19}Z" if pnp
             else "M-2 21L-9 17L-3 12Z")
    shape = (f'<path d="M-40 0H-16M-16 -16V16M-16 -7L0 -24V-40M-16 7L0 24V40"/><path d="{arrow}" fill="black"/>')
    return (f'<g transform="translate({x} {y})" {INK}>{shape}</g>'
            + _text(x + 10, y - 4, part.name, "start", 'font-weight="bold"') + _text(x + 10, y + 11, part.value, "start"))


def _connector(part, x, y, way):
    del way
    places = pins(part, x, y, "r")
    names = BOARD if len(part.nets) > 3 else ("red", "black") if part.value == "terminals" else ("tip", "sleeve")
    right = x + 60 if len(part.nets) > 3 else x + 70
    top, bottom = min(p[0][1] for p in places) - 16, max(p[0][1] for p in places) + 14
    out = f'<rect x="{x}" y="{top}" width="{right - x}" height="{bottom - top}" rx="4" fill="white" stroke="black" stroke-width="1.8"/>'
    for name, ((px, py), side) in zip(names, places):
        edge = x if side == "l" else right
        out += f'<path d="M{px} {py}H{edge}" {INK}/>' + _text(edge + (6 if side == "l" else -6), py + 4, name,
                                                             "start" if side == "l" else "end")
    title = {"board": "board", "terminals": "box", "jack": "foot switch"}[part.value]
    return out + _text((x + right) / 2, top - 6, f"{part.name} {title}", extra='font-weight="bold"')


def power(net, place, side):
    x, y = place
    if net == "gnd":
        turn = {"d": 0, "l": 90, "u": 180, "r": -90}[side]
        return (f'<g data-net="gnd" transform="translate({x} {y}) rotate({turn})" {INK}>'
                '<path d="M0 0V8M-10 8H10M-6 12H6M-2 16H2"/></g>')
    dx, dy = TURN[side]
    words = _text(x + 14 * dx, y + 14 * dy + (4 if dx else 0), "5 V", {"r": "start", "l": "end"}.get(side, "middle"),
                  f'fill="{ORANGE}" font-weight="bold"')
    return f'<g data-net="{net}"><path d="M{x} {y}L{x + 8 * dx} {y + 8 * dy}" {INK}/>{words}</g>'


def flag(net, place, side):
    """A net's name in a frame that points at its place."""
    x, y = place
    width = 6.6 * len(net) + 10
    if side in "lr":
        turn = 1 if side == "r" else -1
        shape = f"M{x} {y}L{x + 8 * turn} {y - 9}H{x + (8 + width) * turn}V{y + 9}H{x + 8 * turn}Z"
        words = _text(x + (8 + width / 2) * turn, y + 4, net, "middle", f'font-size="12" fill="{BLUE}"')
    else:
        turn = 1 if side == "d" else -1
        shape = f"M{x} {y}L{x - 8} {y + 7 * turn}H{x - width / 2}V{y + 25 * turn}H{x + width / 2}V{y + 7 * turn}H{x + 8}Z"
        words = _text(x, y + 16 * turn + 4, net, "middle", f'font-size="12" fill="{BLUE}"')
    return f'<g data-net="{net}"><path d="{shape}" fill="white" stroke="{BLUE}" stroke-width="1.2"/>{words}</g>'


def name(net, place):
    """A net's name under a wire, where the picture joins all of it."""
    words = _text(place[0], place[1] + 13, net, "middle", f'font-size="11" fill="{BLUE}"')
    return f'<g data-net="{net}">{words}</g>'
