"""The error budget: |Z| and phase of drawn jigs before and after calibration, a table for each cause and for all."""
import numpy as np

import linear
from signals import CODES, LEVELS, PIN_PEAK, SUPPLY

SEED, DRAWS = 20261126, 400
HERTZ = np.array([10.0, 20.0, 50.0, 100.0, 200.0, 400.0])
LOADS_OHM = (0.5, 1, 2, 4, 8, 20, 50, 100, 200)
ANGLES_DEGREE = (-60, 0, 60)
STANDARD_OHM = 10.0
# A converter at 250 kHz: 0.5 codes of bend (data sheet, integral nonlinearity, typical) and 0.4 codes of noise
# (common practice), one second of 7812 pairs for each tone.
BEND_CODES, NOISE_CODES, PAIRS = 0.5, 0.4, 7812
# The host lowers the level to use at most four fifths of the converter's range.
USED_RANGE = 0.8
# Between calibration and use.
KELVIN = 10.0
# MCP6001/2/4: 4.5 mV, 60 dB common-mode rejection at least, gain-bandwidth product within 40 % (from memory).
OFFSET_VOLT, REJECTION, BANDWIDTH_SHARE = 4.5e-3, 1e-3, 0.4
CAUSES = ("resistors", "capacitors", "amplifiers", "fuses", "converter", "warming", "standard")


def draw_jigs(circuit, random, causes, count, precision=None):
    """Parts drawn evenly within their tolerances; `precision`: another tolerance for the channels' resistors."""
    draw = linear.Draw(circuit, count)
    for name, values in draw.of.items():
        even = random.uniform(-1, 1, count)
        letter = circuit[name].letters
        if letter in "RC" and ("resistors" if letter == "R" else "capacitors") in causes:
            share = circuit.tolerance(name)
            if precision and name in ("R11", "R12", "R13", "R14", "R16", "R17", "R18", "R19"):
                share = precision
            values *= 1 + share * even
        elif letter == "F" and "fuses" in causes:
            values[:] = 5 + 2.5 * even
        elif letter == "U" and "amplifiers" in causes:
            values *= 1 + BANDWIDTH_SHARE * even
            draw.rejection[name] = REJECTION * random.uniform(-1, 1, count)
    return draw


def warmed(circuit, draw, random):
    other = draw.copy()
    for name, values in other.of.items():
        if circuit[name].letters in "RC":
            values *= 1 + KELVIN * circuit.drift(name) * random.uniform(-1, 1, draw.count)
    return other


class Reader:
    """What the host reads: code phasors of both channels through a bent, noisy converter."""

    def __init__(self, random, causes, count):
        self.random = random
        self.on = "converter" in causes
        self.phases = random.uniform(0, 2 * np.pi, (3, count))
        offset = OFFSET_VOLT * 4 / SUPPLY * CODES if "amplifiers" in causes else 0.0
        self.offset = random.uniform(-offset, offset, (2, count)) if offset else np.zeros((2, count))

    def ratio(self, solved, ohm):
        """Voltage over current in ohm, draws x frequencies, by the protocol's nominal scales."""
        peak = [CODES / SUPPLY * PIN_PEAK * solved.channel(f"adc_{n}", ohm) for n in ("voltage", "current")]
        largest = np.maximum(*np.abs(peak))
        level = np.minimum(1.0, USED_RANGE * CODES / 2 / largest)
        volt, ampere = (self._read(level * p, k) for k, p in enumerate(peak))
        return 10.0 * volt / ampere

    def _read(self, phasor, channel):
        if not self.on:
            return phasor
        size, turn = np.abs(phasor), np.exp(1j * np.angle(phasor))
        angle = 2 * np.pi * np.arange(32) / 32
        code = (CODES / 2 + self.offset[channel][:, None, None] + size[..., None] * np.cos(angle)) / CODES
        bend = sum(a * np.sin(2 * np.pi * f * code + p[:, None, None])
                   for a, f, p in zip((0.6, 0.25, 0.15), (0.8, 2.3, 5.1), self.phases)) * BEND_CODES
        size = size + 2 * (bend * np.exp(-1j * angle)).mean(axis=-1)
        sigma = np.sqrt((NOISE_CODES**2 + 1 / 12) * 2 / PAIRS)
        noise = self.random.normal(0, sigma, (2,) + phasor.shape)
        return size * turn + noise[0] + 1j * noise[1]


def run(circuit, causes, count=DRAWS, seed=SEED, precision=None):
    """Errors before and after: dict of (|Z| percent, degrees) arrays, loads x draws x frequencies."""
    random = np.random.default_rng(seed)
    cold = draw_jigs(circuit, random, causes, count, precision)
    reader = Reader(random, causes, count)
    then = linear.solve(circuit, cold, HERTZ)
    now = linear.solve(circuit, warmed(circuit, cold, random), HERTZ) if "warming" in causes else then
    standard = STANDARD_OHM * (1 + (0.001 * random.uniform(-1, 1, (count, 1)) if "standard" in causes else 0))
    opened = reader.ratio(then, 1e9)
    shorted = reader.ratio(then, 0.0)
    known = reader.ratio(then, standard)
    before, after = [], []
    for ohm in LOADS_OHM:
        for degree in ANGLES_DEGREE:
            truth = ohm * np.exp(1j * np.radians(degree))
            seen = reader.ratio(now, truth)
            # One-port correction by open, short and a standard (published form, see docs/model.md).
            z = STANDARD_OHM * (opened - known) * (seen - shorted) / ((opened - seen) * (known - shorted))
            before.append(_errors(seen / truth))
            after.append(_errors(z / truth))
    return np.array(before), np.array(after)


def _errors(ratio):
    return [100 * (np.abs(ratio) - 1), np.degrees(np.angle(ratio))]


def _worst(errors, chosen):
    """Largest and 95th of 100 of what is chosen: |Z| in percent, phase in degrees."""
    part = np.abs(errors[chosen])
    return [part[:, 0].max(), np.percentile(part[:, 0], 95), part[:, 1].max(), np.percentile(part[:, 1], 95)]


def proof(circuit, findings, count=DRAWS):
    """Holds the whole budget to its limits and returns the tables' rows."""
    every = [i for i in range(len(LOADS_OHM) * 3)]
    target = [i for i in every if 1 <= LOADS_OHM[i // 3] <= 100]
    causes = []
    for title, chosen, precision in (
        [(name, (name,), None) for name in CAUSES]
        + [("resistors, the channels' of 0.1 %", ("resistors",), 0.001), ("all", CAUSES, None),
           ("all, the channels' resistors of 0.1 %", CAUSES, 0.001)]):
        before, after = run(circuit, chosen, count, SEED, precision)
        causes.append((title, _worst(before, target), _worst(after, target)))
        if title == "all":
            whole = before, after
    before, after = whole
    findings.hold("before_z_percent", _worst(before, target)[0])
    findings.hold("before_degree", _worst(before, target)[2])
    findings.hold("after_z_percent", _worst(after, target)[0])
    findings.hold("after_degree", _worst(after, target)[2])
    loads = []
    for k, ohm in enumerate(LOADS_OHM):
        chosen = range(3 * k, 3 * k + 3)
        loads.append((ohm, _worst(before, chosen), _worst(after, chosen)))
    return causes, loads


def spice_sample(circuit, findings):
    """Three drawn jigs by ngspice: its voltage over current against the solution used above."""
    from circuit import Circuit, Part
    from spice import Spice

    random = np.random.default_rng(SEED)
    draw = draw_jigs(circuit, random, ("resistors", "capacitors"), 3)
    solved = linear.solve(circuit, draw, HERTZ)
    for k in range(3):
        parts = [Part(p.name, p.nets, f"{draw.of[p.name][k] * 1e12:.9f}p")
                 if p.letters in "RC" and p.name in draw.of else p for p in circuit.parts.values()]
        for ohm in (1.0, 50.0):
            deck = Spice(Circuit(parts, circuit.table), linear=True).add(
                "V5 v5 gnd 5", "Rv5 v5 supply_5v 0.1", "Vpwm pin gnd dc 2.5 ac 1", "Rpin pin pwm 25",
                f"Rload terminal_plus terminal_minus {ohm}")
            for column, hertz in enumerate(HERTZ[[0, -1]]):
                t = deck.run(f"ac lin 1 {hertz} {hertz}", ["v(adc_voltage)", "v(adc_current)"])[0]
                mine = solved.channel("adc_voltage", ohm) / solved.channel("adc_current", ohm)
                theirs = (t[1] + 1j * t[2]) / (t[3] + 1j * t[4])
                findings.hold("solvers_percent", 100 * abs(mine[k, -1 if column else 0] / theirs - 1), "(drawn jig)")
