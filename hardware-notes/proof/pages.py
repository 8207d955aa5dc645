"""Writes the generated pages: error budget, abuse, and every limit with what was found."""
from budget import ANGLES_DEGREE, DRAWS, HERTZ, KELVIN, PAIRS, SEED

MADE = "Made by `proof/prove.py --write` from `circuit/`; do not edit. Computed, not measured: no jig has been built yet.\n"


def _four(values):
    return " | ".join(f"{v:.2f}" for v in values)


def error_budget(causes, loads):
    lines = [
        "# Error budget", "", MADE,
        f"{DRAWS} jigs (seed {SEED}) have their parts drawn evenly within their tolerances. Each reads loads of",
        f"{', '.join(str(a) for a in ANGLES_DEGREE)} degrees at {', '.join(f'{h:g}' for h in HERTZ)} Hz, {PAIRS} pairs a tone, through a converter with a bend of 0.5 codes",
        "and a noise of 0.4, with the level that the host would choose. *Before* is what a fresh jig says by its nominal scales; *after* is what it says",
        f"once corrected by open, short and a 10 ohm resistor of 0.1 %, {KELVIN:g} K warmer or colder than it was calibrated. Every entry: the largest",
        "error of all jigs, loads and tones, and the one that 95 of 100 stay below.", "",
        "## By cause, 1 to 100 ohm", "",
        "| cause | before: Z %, largest | 95 of 100 | degrees, largest | 95 of 100 | after: Z %, largest | 95 of 100 | degrees, largest | 95 of 100 |",
        "|---|---|---|---|---|---|---|---|---|"]
    lines += [f"| {name} | {_four(before)} | {_four(after)} |" for name, before, after in causes]
    lines += [
        "", "*Resistors* holds gains, the sense resistor and what the difference amplifiers show of a voltage common to both inputs: with 1 % it is the largest",
        "error of a fresh jig, with 0.1 % it is gone, and after calibration it is gone either way, because it is linear. *Capacitors* are the two channels'",
        "filters drifting apart. *Warming* is what calibration cannot know; *converter* is what no calibration mends.", "",
        "## By load, all causes", "",
        "| ohm | before: Z %, largest | 95 of 100 | degrees, largest | 95 of 100 | after: Z %, largest | 95 of 100 | degrees, largest | 95 of 100 |",
        "|---|---|---|---|---|---|---|---|---|"]
    lines += [f"| {ohm:g} | {_four(before)} | {_four(after)} |" for ohm, before, after in loads]
    lines += ["", "Not in here: the lead and clip resistance that differs from the calibration's, hum, a loose clip, and a calibration resistor worse than 0.1 %",
              "(add its tolerance to |Z|). The table is of one tone at a time, as a thorough sweep plays them. A quick sweep shares the level among 120 tones: on virtual",
              "jigs with a bend of 0.3 codes its largest error is 0.9 % at 1 ohm and 0.8 % at 100 ohm, half of it noise and half the bend, and its intervals hold",
              "both ([docs/calibration.md](../docs/calibration.md); tested with the host).", ""]
    return "\n".join(lines)


def _takers(name, row):
    said = []
    if row["tripped"]:
        said.append(f"{' and '.join(row['tripped'])} trip{'s' if len(row['tripped']) == 1 else ''} after {_seconds(row['after'])}")
    clamps = [n for n, a in row["clamps"].items() if a > 0.1]
    if clamps:
        said.append(f"{', '.join(clamps)} clamp{'s' if len(clamps) == 1 else ''} up to {max(row['clamps'].values()):.2g} A")
    if row["surge"] > 0.01:
        said.append(f"D6 takes {100 * row['surge']:.0f} % of what it may")
    if row["joule"] > 0.5:
        said.append(f"R10 takes {row['joule']:.1f} J")
    return "; ".join(said) or "the bridge itself"


def _seconds(value):
    return f"{value:.2g} s"


def abuse(rows):
    lines = [
        "# Abuse", "", MADE,
        "Each row is a run of ngspice in time, with the fuses' heating in it. An amplifier of 50 W gives 20 V rms into 8 ohm at 50 Hz, behind 0.1 ohm; static is",
        "150 pF at 8 kV through 330 ohm (the contact discharge of IEC 61000-4-2). What each part stands is in `circuit/limits.csv`, with its source. One amplifier's run",
        "lasts 10 s, the others 1.5 s, batteries and shorts 20 s: in the last third of each every part bears for ever what it gets, so a longer run shows no more.", "",
        "| what happens | what takes it | peak A | at last mA | hottest junction C | from the 5 V, peak A | op-amp input mA | to replace |",
        "|---|---|---|---|---|---|---|---|"]
    for name, row, fine in rows:
        late = f"{1e3 * row['late']:.0f}" if "late" in row else ""
        hot = f"{row['hottest']:.0f}" if "hottest" in row else ""
        usb = f"{row['usb']:.2f}" if "usb" in row else ""
        lines.append(f"| {name} | {_takers(name, row)} | {row['peak']:.2g} | {late} | {hot} | {usb} | {row['inputs']:.1f} |"
                     f" {'nothing' if fine else 'a limit is broken'} |")
    lines += [
        "", "A fuse that has tripped stays so while the fault does, warm (125 C at its surface), and comes back within a minute once everything is unplugged; its resistance is then up",
        "to 7.5 ohm, which the bridge makes good since its feedback is taken from behind the fuses. Calibrate again afterwards.", "",
        "Beyond these runs: a larger amplifier than 50 W puts more than 2 mA into the inputs of U1 (through R3 and R7); U1 and U2 are in sockets for that",
        "reason and cost about US$ 1 together. The table is no leave to do any of this: see the cautions.", ""]
    return "\n".join(lines)


def _found(value):
    """Four digits; what is only a solver's last digits is not told."""
    return "under 0.003" if abs(value) < 0.003 else f"{value:.4g}"


def proof_page(findings, loads):
    lines = ["# What was proven", "", MADE, "## Limits", "", "| what | found | allowed | limit's source |", "|---|---|---|---|"]
    for key, row in findings.limits.items():
        values = [v for v, _, _ in findings.worst.get(key, [])]
        if not values or key == "price_usd":
            continue
        low, high = min(values), max(values)
        found = _found(low) if row["low"] and (not row["high"] or low == high) else _found(high)
        if row["low"] and row["high"] and _found(low) != _found(high):
            found = f"{_found(low)} to {_found(high)}"
        allowed = (f"{row['low']} to {row['high']}" if row["low"] and row["high"]
                   else f"at least {row['low']}" if row["low"] else f"at most {row['high']}")
        lines.append(f"| {row['what']} | {found} {row['unit']} | {allowed} {row['unit']} | {row['source']} |")
    lines += ["", "## The highest level into each load, 100 Hz", "",
              "At 4.5 V the fuses are aged to 7.5 ohm, the op-amps' offsets at their worst and the transistors' gain at its least.", "",
              "| load ohm | supply V | voltage codes peak | current codes peak | mA peak | room left to a transistor V |", "|---|---|---|---|---|---|"]
    for ohm, supply, (volt, ampere, current, room) in loads:
        name = "short" if ohm < 0.1 else "open" if ohm > 1e5 else f"{ohm:g}"
        lines.append(f"| {name} | {supply:g} | {volt:.0f} | {ampere:.0f} | {current:.1f} | {room:.2f} |")
    return "\n".join(lines + [""])
