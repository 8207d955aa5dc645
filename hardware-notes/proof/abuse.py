"""What hurts a jig, by ngspice in time: each part's load against what it stands."""
import numpy as np

from signals import opamp_current
from spice import Spice

PROBES = ["v(terminal_plus)", "v(terminal_minus)", "v(sense_in)", "v(bridge_plus)", "v(bridge_minus)", "v(bridge_supply)",
          "v(supply_5v)", "v(plus_op)", "v(minus_op)", "i(Vd1)", "i(Vd2)", "i(Vd3)", "i(Vd4)", "i(Vd6)", "i(Vd5)",
          "i(Vq1)", "i(Vq2)", "i(Vq3)", "i(Vq4)", "i(Vf1)", "i(Vf2)", "v(voltage_high)", "v(voltage_low)",
          "v(current_high)", "v(current_low)", "v(adc_voltage)", "v(adc_current)", "v(plus_base)", "v(minus_base)",
          "v(plus_sum)", "v(minus_sum)"]
PROBED = {"D1": "d1", "D2": "d2", "D3": "d3", "D4": "d4", "D6": "d6", "D5": "d5", "Q1": "q1", "Q2": "q2", "Q3": "q3",
          "Q4": "q4", "F1": "f1", "F2": "f2"}
SURGE_WATT_1MS = 600.0

# Name, what is at the terminals, seconds, longest step, drive. An amplifier of 50 W gives 20 V rms into 8 ohm. What the
# last third of a run shows is below every steady rating, so that a longer run would show no more.
BATTERY = "PWL(0 0 50m 0 51m 14.4)"
SINE = "SIN(0 28.28 50 50m)"
HALF = "SIN(0 14.14 50 50m)"
MIDDLE = "PWL(0 0 40m 0 45m 14)"
LONG = (
    ("terminals shorted for ever", ["Rs terminal_plus terminal_minus 0.01"], 20, 5e-3, "DC"),
    ("14.4 V battery, + on red", [f"Vb b terminal_minus {BATTERY}", "Rb b terminal_plus 0.05"], 20, 5e-3, "mid"),
    ("14.4 V battery, + on black", [f"Vb terminal_minus b {BATTERY}", "Rb b terminal_plus 0.05"], 20, 5e-3, "mid"),
    ("black on the jig's ground", ["Vb b gnd PWL(0 2.5 50m 2.5 51m 0)", "Rb b terminal_minus 0.05"], 20, 5e-3, "mid"),
    ("red on the jig's ground", ["Vb b gnd PWL(0 2.5 50m 2.5 51m 0)", "Rb b terminal_plus 0.05"], 20, 5e-3, "mid"),
    ("cone pushed: 6 V peak at 5 Hz behind 3.2 ohm",
     ["Ve e terminal_minus SIN(0 6 5 50m)", "Re e terminal_plus 3.2"], 5, 2e-3, "mid"),
    ("amplifier, floating", [f"Va a terminal_minus {SINE}", "Ra a terminal_plus 0.1"], 1.5, 5e-4, "mid"),
    ("amplifier, black and jig on its ground",
     [f"Va a gnd {SINE}", "Ra a terminal_plus 0.1", "Rg terminal_minus gnd 0.1"], 10, 5e-4, "mid"),
    ("amplifier, red and jig on its ground",
     [f"Va a gnd {SINE}", "Ra a terminal_minus 0.1", "Rg terminal_plus gnd 0.1"], 1.5, 5e-4, "mid"),
    ("the same with the slowest fuses",
     [f"Va a gnd {SINE}", "Ra a terminal_minus 0.1", "Rg terminal_plus gnd 0.1"], 1.5, 5e-4, "slow"),
    ("bridged amplifier about 14 V, jig on its ground",
     [f"Va a ab {HALF}", f"Vab ab gnd {MIDDLE}", "Ra a terminal_plus 0.1",
      f"Vc ab c {HALF}", "Rc c terminal_minus 0.1"], 1.5, 5e-4, "mid"),
)
# IEC 61000-4-2: 150 pF through 330 ohm, 8 kV; the lead between has 0.2 uH.
STATIC = [("8 kV static on red", "terminal_plus", 8000), ("8 kV static on black", "terminal_minus", 8000),
          ("-8 kV static on red", "terminal_plus", -8000), ("-8 kV static on black", "terminal_minus", -8000)]


def _probed(circuit, spice_options):
    """A deck in which a 0 V source stands in the way of the currents asked for."""
    deck = Spice(circuit, **spice_options)
    for name, probe in PROBED.items():
        for index, line in enumerate(deck.lines):
            words = line.split()
            if words and words[0] in (name, "X" + name):
                at = 1 if name[0] in "DFQ" and name != "D6" else 1
                net = words[at]
                words[at] = f"n{probe}"
                deck.lines[index] = " ".join(words) + f"\nV{probe} {net} n{probe} 0"
                break
        else:
            deck.add(f"V{probe} n{probe} gnd 0")
    return deck.add("Rpin pin pwm 25", # A port that gives and does not take.
                    "Vusb usb0 gnd 5.25", "Dusb usb0 usb 1N5817", "Rusb usb supply_5v 0.3", "Rboard supply_5v gnd 150",
                    "Cboard supply_5v gnd 100u")


def long_case(circuit, case):
    """Time and probes. Fuses: least resistance and heat, or (slow) most of both within the data sheet's time to trip."""
    _, lines, seconds, step, drive = case
    fuse, heat = (4.5, 2.2) if drive == "slow" else (2.5, 1.0)
    level = 2.5 + 2.495 if drive == "DC" else 2.5
    deck = _probed(circuit, {"fuse": fuse, "fuse_heat": heat, "rough": True}).add(f"Vpwm pin gnd {level}", *lines)
    table = deck.run(f"tran {step} {seconds} 0 {step}", PROBES)
    return table[:, 0], dict(zip(PROBES, table[:, 1:].T))


def static_case(circuit, case):
    _, net, volt = case
    deck = _probed(circuit, {"rough": True}).add(
        "Vpwm pin gnd 2.5", f"Vgun g gnd PWL(0 0 100n 0 101n {volt})", "Cgun g g0 150p", "Rgun g0 g1 330",
        f"Lgun g1 {net} 0.2u", "Cstray terminal_plus gnd 20p", "Cstray2 terminal_minus gnd 20p",
        "Rload terminal_plus terminal_minus 1meg")
    table = deck.run("tran 1n 2u 0 2n", PROBES)
    return table[:, 0], dict(zip(PROBES, table[:, 1:].T))


def _integral(time, values):
    return float(np.sum((values[1:] + values[:-1]) / 2 * np.diff(time)))


def _rising(time, watt):
    """Junction above its surroundings: 10 K/W within 50 ms to the case, 90 K/W within 90 s from there (TO-126, from memory)."""
    best, fast, slow = 0.0, 0.0, 0.0
    for step, power in zip(np.diff(time), watt[1:]):
        fast += (power * 10 - fast) * (1 - np.exp(-step / 0.05))
        slow += (power * 90 - slow) * (1 - np.exp(-step / 90))
        best = max(best, fast + slow)
    return best


def weigh(circuit, time, got, findings, where, static=False):
    """Holds one run to every limit and returns its table row."""
    diodes = {n: np.maximum(got[f"i(Vd{n[1]})"], 0) for n in ("D1", "D2", "D3", "D4")}
    surge = np.abs(got["i(Vd6)"] * got["v(bridge_supply)"])
    late = time > 0.7 * time[-1]
    for name, ampere in diodes.items():
        findings.hold("clamp_square_a2s", _until_quiet(time, ampere**2), f"({name}, {where})")
        if static:
            continue
        findings.hold("clamp_peak_a", ampere.max(), f"({name}, {where})")
        findings.hold("clamp_steady_a", _mean(time, ampere, late), f"({name}, {where})")
    share = _surge_share(time, surge)
    findings.hold("surge_share", share, f"({where})")
    findings.hold("bridge_supply_v", got["v(bridge_supply)"].max(), f"({where})")
    findings.hold("board_supply_v", got["v(supply_5v)"].max(), f"({where})")
    inputs = 0.0
    for net, outside in (("voltage_high", "terminal_plus"), ("voltage_low", "terminal_minus"), ("current_high", "sense_in"),
                         ("current_low", "terminal_plus"), ("plus_sum", "sense_in"), ("minus_sum", "terminal_minus")):
        over = np.maximum(got[f"v({net})"] - got["v(supply_5v)"], -got[f"v({net})"])
        ohm = 15e3 if net.endswith("sum") else circuit["R11"].number
        current = np.where(over > 0.1, np.abs(got[f"v({outside})"] - got[f"v({net})"]) / ohm, 0)
        inputs = max(inputs, 1e3 * current.max())
    findings.hold("opamp_static_ma" if static else "opamp_input_ma", inputs, f"({where})")
    for name in ("voltage", "current"):
        over = np.maximum(got[f"v(adc_{name})"] - got["v(supply_5v)"], -got[f"v(adc_{name})"]).max()
        findings.hold("pin_input_ma", max(0.0, 1e3 * over / 2200), f"({where})")
    sense = (got["v(sense_in)"] - got["v(terminal_plus)"])**2 / circuit["R10"].number
    fuse = {n: np.abs(got[f"i(Vf{n[1]})"]) for n in ("F1", "F2")}
    drop = {"F1": np.abs(got["v(bridge_plus)"] - got["v(sense_in)"]),
            "F2": np.abs(got["v(bridge_minus)"] - got["v(terminal_minus)"])}
    if static:
        for name in fuse:
            findings.hold("fuse_ampere", fuse[name].max(), f"({name}, {where})")
        return {"peak": max(f.max() for f in fuse.values()), "tripped": [], "joule": _until_quiet(time, sense),
                "clamps": {n: a.max() for n, a in diodes.items()}, "surge": share, "inputs": inputs}
    for half, out in (("plus", "bridge_plus"), ("minus", "bridge_minus")):
        op, base = got[f"v({half}_op)"], got[f"v({half}_base)"]
        findings.hold("opamp_output_ma",
                      1e3 * np.abs(opamp_current(circuit, half, op, base, got[f"v({out})"])).max(), f"({half}, {where})")
    hottest = 0.0
    for name, out in (("Q1", "bridge_minus"), ("Q2", "bridge_minus"), ("Q3", "bridge_plus"), ("Q4", "bridge_plus")):
        across = got["v(bridge_supply)"] - got[f"v({out})"] if name in ("Q1", "Q3") else got[f"v({out})"]
        backwards = -got[f"i(V{name.lower()})"] * (1 if name in ("Q1", "Q3") else -1)
        findings.hold("backwards_a", backwards.max(), f"({name}, {where})")
        hottest = max(hottest, 40 + _rising(time, np.abs(got[f"i(V{name.lower()})"] * across)))
    findings.hold("junction_c", hottest, f"({where})")
    joule = _until_quiet(time, sense)
    findings.hold("sense_joule", joule, f"({where})")
    findings.hold("sense_steady_w", _mean(time, sense, late), f"({where})")
    usb = np.abs(got["i(Vd5)"]).max()
    findings.hold("usb_peak_a", usb, f"({where})")
    for name in ("F1", "F2"):
        findings.hold("fuse_volt", drop[name].max(), f"({name}, {where})")
        findings.hold("fuse_ampere", fuse[name].max(), f"({name}, {where})")
    rms = max(np.sqrt(_mean(time, f**2, late)) for f in fuse.values())
    tripped = [n for n, f in fuse.items() if np.max(drop[n][late]) > 2.0 and np.sqrt(_mean(time, f**2, late)) < 0.12]
    findings.hold("fault_steady_ma", 1e3 * rms, f"({where})")
    return {"peak": max(f.max() for f in fuse.values()), "late": rms, "tripped": tripped,
            "after": _trip_time(time, fuse, tripped), "joule": joule, "hottest": hottest,
            "clamps": {n: a.max() for n, a in diodes.items()}, "surge": share, "usb": usb, "inputs": inputs}


def _mean(time, values, chosen):
    t = time[chosen]
    return _integral(t, values[chosen]) / (t[-1] - t[0])


def _until_quiet(time, watt):
    """Energy in the first five seconds, what a rating for an overload speaks of."""
    chosen = time <= 5
    return _integral(time[chosen], watt[chosen])


def _surge_share(time, watt):
    """The surge diode's energy against 600 W x sqrt(1 ms x t) for t of conduction, its rating line."""
    on = watt > 1.0
    if not on.any():
        return 0.0
    steps = np.diff(time, prepend=time[0])
    energy, lasting = np.cumsum(watt * on * steps), np.cumsum(on * steps)
    # Beyond 1 s of conduction the steady rating speaks.
    fine = (lasting > 0) & (lasting <= 1)
    return float((energy[fine] / (SURGE_WATT_1MS * np.sqrt(1e-3 * np.maximum(lasting[fine], 1e-6)))).max())


def _trip_time(time, fuse, tripped):
    """When the current of a tripped fuse was last above a third of its peak, in seconds from the start of the abuse."""
    last = [time[np.nonzero(fuse[n] > fuse[n].max() / 3)[0][-1]] - 0.05 for n in tripped]
    return max(last, default=0.0)


def proof(circuit, findings, cases=LONG, static=STATIC):
    """Runs every case, holds it to the limits and returns the table's rows: name, figures, whether all held."""
    rows = []
    for case in list(cases) + list(static):
        before = len(findings.broken)
        run, still = (static_case, True) if case in static else (long_case, False)
        time, got = run(circuit, case)
        row = weigh(circuit, time, got, findings, case[0], still)
        rows.append((case[0], row, len(findings.broken) == before))
    return rows
