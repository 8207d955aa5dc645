"""Nodal equations of the circuit for small signals, many draws of its parts at once (numpy; checked against ngspice).

An op-amp is one pole with an output resistance, a pair of transistors follows its base, a fuse is a resistor: the bridge's
loops make what the transistors do otherwise as small as ngspice's transient runs show.
"""
import numpy as np

OPAMP_OHM = 200.0
FOLLOWER_OHM = 0.5
PIN_OHM = 25.0
SUPPLY_OHM = 0.1
OPEN_SIEMENS = 1e-12
DC_GAIN = 4e5
GAIN_BANDWIDTH_HZ = 1e6
FUSE_OHM = 3.0
# Not on the way of a measurement.
ASIDE = ("mic_", "foot_", "pin_", "pass_", "fail_", "busy_", "buzzer_", "adc_microphone")


class Draw:
    """Values of the parts: arrays of one number a draw, over the nominal ones."""

    def __init__(self, circuit, count=1):
        self.count = count
        self.of = {}
        for part in circuit.parts.values():
            if any(net.startswith(ASIDE) for net in part.nets):
                continue
            if part.letters in "RC":
                self.of[part.name] = np.full(count, part.number)
            elif part.letters == "F":
                self.of[part.name] = np.full(count, FUSE_OHM)
            elif part.letters == "U":
                self.of[part.name] = np.full(count, GAIN_BANDWIDTH_HZ)
        self.rejection = {}

    def copy(self):
        other = object.__new__(Draw)
        other.count, other.rejection = self.count, dict(self.rejection)
        other.of = {name: values.copy() for name, values in self.of.items()}
        return other


class Solved:
    """What the two channels show, as a line in the current that leaves the plus terminal.

    All arrays are draws x frequencies: volt and ampere phasors for a drive of 1 V at the pin.
    """

    def __init__(self, nets, open_x, unit_x):
        self.nets, self.open_x, self.unit_x = nets, open_x, unit_x

    def at(self, net, ampere=0):
        k = self.nets[net]
        return self.open_x[..., k] + ampere * self.unit_x[..., k]

    def current(self, ohm):
        """Ampere into a load of `ohm` (broadcast against draws x frequencies)."""
        idle = self.at("terminal_plus") - self.at("terminal_minus")
        p, m = self.nets["terminal_plus"], self.nets["terminal_minus"]
        source = -(self.unit_x[..., p] - self.unit_x[..., m])
        return idle / (source + ohm)

    def channel(self, net, ohm):
        return self.at(net, self.current(ohm))

    def open(self, net):
        return self.at(net)


def solve(circuit, draw, hertz, source="pwm", beside=()):
    """Solves for a drive of 1 V at the pin (or inside an op-amp, by its name) and for 1 A drawn at the terminals.

    `beside`: what is there besides the parts, as (net, net, siemens for each frequency).
    """
    hertz = np.atleast_1d(np.asarray(hertz, float))
    s = 2j * np.pi * hertz
    names = [n for n in circuit.nets() if n != "gnd" and not n.startswith(ASIDE)]
    nets = {name: k for k, name in enumerate(names)}
    size = len(names)
    y = np.zeros((draw.count, len(hertz), size, size), complex)
    y[..., range(size), range(size)] += OPEN_SIEMENS

    def stamp(a, b, siemens):
        for one, two in ((a, b), (b, a)):
            if one in nets:
                y[..., nets[one], nets[one]] += siemens
                if two in nets:
                    y[..., nets[one], nets[two]] -= siemens

    def control(out, siemens, *terms):
        for net, factor in terms:
            if net in nets:
                y[..., nets[out], nets[net]] -= siemens * factor

    for part in circuit.parts.values():
        if any(net.startswith(ASIDE) for net in part.nets):
            continue
        if part.letters in "RF":
            stamp(*part.nets, 1 / draw.of[part.name][:, None])
        elif part.letters == "C":
            stamp(*part.nets, s[None, :] * draw.of[part.name][:, None])
        elif part.letters == "U":
            plus, minus, _, _, out = part.nets
            gain = 1 / (1 / DC_GAIN + s[None, :] / (2 * np.pi * draw.of[part.name][:, None]))
            half = draw.rejection.get(part.name, np.zeros(draw.count))[:, None] / 2
            stamp(out, "gnd", 1 / OPAMP_OHM)
            control(out, 1 / OPAMP_OHM, (plus, gain * (1 + half)), (minus, -gain * (1 - half)))
        elif part.letters == "Q" and part.value == "BD139":
            stamp(part.nets[2], "gnd", 1 / FOLLOWER_OHM)
            control(part.nets[2], 1 / FOLLOWER_OHM, (part.nets[1], 1.0))
    for a, b, siemens in beside:
        stamp(a, b, siemens)
    stamp("supply_5v", "gnd", 1 / SUPPLY_OHM)
    stamp("pwm", "gnd", 1 / PIN_OHM)
    right = np.zeros((draw.count, len(hertz), size, 2), complex)
    if source == "pwm":
        right[..., nets["pwm"], 0] = 1 / PIN_OHM
    else:
        right[..., nets[circuit[source].nets[4]], 0] = 1 / OPAMP_OHM
    right[..., nets["terminal_plus"], 1] = -1
    right[..., nets["terminal_minus"], 1] = 1
    x = np.linalg.solve(y, right)
    return Solved(nets, x[..., 0], x[..., 1])


def loop_gain(circuit, name, hertz, beside=(), bandwidth=GAIN_BANDWIDTH_HZ):
    """What an op-amp hears of its own output, times its gain: Bode's loop gain, positive for negative feedback."""
    draw = Draw(circuit)
    for other in draw.of:
        if circuit[other].letters == "U":
            draw.of[other] = np.full(1, bandwidth)
    draw.of[name] = np.full(1, 1e-9)
    solved = solve(circuit, draw, hertz, name, beside)
    plus, minus = circuit[name].nets[:2]
    gain = 1 / (1 / DC_GAIN + 1j * np.asarray(hertz) / bandwidth)
    heard = (solved.open(minus) if minus != "gnd" else 0) - (solved.open(plus) if plus != "gnd" else 0)
    return (heard * gain)[0]


def phase_margin(hertz, loop):
    """Degrees that the loop gain is away from -1 in angle where it falls through 1 for the last time."""
    above = np.nonzero(np.abs(loop) >= 1)[0]
    if len(above) == 0:
        return 180.0
    if loop[0].real < 0 and abs(loop[0].imag) < abs(loop[0].real):
        # Positive feedback from the start.
        return -180.0
    return float(180 - abs(np.degrees(np.unwrap(np.angle(loop))[above[-1]])))
