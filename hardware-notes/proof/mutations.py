#!/usr/bin/env python3
"""Shows that the proof can fail: each wrong value here must break the limit that it is about."""
import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import drawing
import prove
import signals
from circuit import FOLDER, HOME, Circuit, Findings, Part

PROVE = Path(__file__).resolve().parent / "prove.py"
RED_GROUNDED = "abuse 8"
BLACK_GROUNDED = "abuse 7"

# What is wrong, the card, what stands there instead (nothing: removed), part of the proof, words of the limit that must break.
MUTATIONS = (
    ("sense resistor of 100 ohm", "R10", "R10 sense_in terminal_plus 100", "scales", "sense resistor"),
    ("a feedback resistor of the voltage channel 10 % high", "R14", "R14 voltage_out voltage_low 82.5k", "scales", "gain of"),
    ("a resistor at half supply of the current channel 10 % low", "R17", "R17 current_high mid 67.5k", "scales", "common"),
    ("a resistor at half supply of the voltage channel 10 % high", "R12", "R12 voltage_high mid 82.5k", "scales", "(voltage)"),
    ("an input resistor of the current channel 10 % high", "R18", "R18 terminal_plus current_low 27.4k", "scales", "gain of"),
    ("a feedback resistor of the bridge 10 % high", "R7", "R7 sense_in plus_sum 16.5k", "scales", "highest level"),
    ("a capacitor of a channel's filter ten times too large", "C5", "C5 adc_current gnd 470n", "scales", "corner"),
    ("a capacitor of the wave filter ten times too small", "C1", "C1 drive_node gnd 470p", "scales,ripple", "wave filter"),
    ("channel inputs exchanged", "XU2A", "XU2A voltage_low voltage_high supply_5v gnd voltage_out mcp6004", "margins", "phase margin"),
    ("base resistors of 2.2k", "R8", "R8 plus_op plus_base 2.2k", "loads", "distortion"),
    ("no clamp diodes", "D3", None, RED_GROUNDED, "backwards"),
    ("no clamp diode to ground", "D4", None, RED_GROUNDED, "backwards"),
    ("a wire for the fuse at the black terminal", "XF2", "R98 bridge_minus terminal_minus 0.01", RED_GROUNDED, "clamp diode"),
    ("a wire for the fuse at the red terminal", "XF1", "R98 bridge_plus sense_in 0.01", BLACK_GROUNDED, "sense resistor"),
    ("no surge diode", "XD6", None, RED_GROUNDED, "bridge's supply"),
    ("a wire for the diode towards the board", "D5", "R98 supply_5v bridge_feed 0.01", RED_GROUNDED, "board's 5 V"),
)


def mutant(card, instead):
    text = (FOLDER / "netlist.cir").read_text(encoding="utf-8")
    changed, count = re.subn(rf"(?m)^{card} .*$", instead or "*", text)
    if count != 1:
        raise SystemExit(f"FAILED: the netlist has {count} cards {card}; a mutation needs one")
    return changed


def caught(mutation):
    what, card, instead, only, words = mutation
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "netlist.cir"
        path.write_text(mutant(card, instead), encoding="utf-8")
        run = subprocess.run([sys.executable, str(PROVE), "--netlist", str(path), "--only", only],
                             capture_output=True, text=True, timeout=120, check=False)
    failures = [line for line in run.stdout.splitlines() if line.startswith("FAILED: ")]
    fitting = [line for line in failures if words in line]
    if run.returncode == 1 and fitting:
        return True, f"ok: found out: {what} ({fitting[0][8:]})"
    return False, f"FAILED: not found out: {what}; the proof said: {' / '.join(failures) or run.stderr.strip() or 'nothing'}"


def files():
    """What files say of one another: (what is wrong, whether it is found out)."""
    circuit = Circuit.read()
    parts = list(circuit.parts.values())
    turned = [Part(p.name, p.nets[::-1], p.value) if p.name == "D1" else p for p in parts]
    moved = [Part(p.name, ("gnd", p.nets[1]), p.value) if p.name == "R12" else p for p in parts]
    budget = (HOME / "error-budget.md").read_text(encoding="utf-8")
    return (
        ("a value that parts.csv has otherwise", circuit.having("R11", "47k").complaints()),
        ("a part that parts.csv lacks", Circuit([*parts, Part("R98", ("mid", "gnd"), "1k")], circuit.table).complaints()),
        ("a net with one end", circuit.without("R24").complaints()),
        ("a part that the picture lacks", drawing.complaints(Circuit([*parts, Part("R98", ("mid", "gnd"), "1k")], circuit.table))),
        ("a part that only the picture has", drawing.complaints(circuit.without("C12"))),
        ("a diode drawn the wrong way round", drawing.complaints(Circuit(turned, circuit.table))),
        ("a resistor drawn on another net", drawing.complaints(Circuit(moved, circuit.table))),
        ("op-amps of 10 MHz in the bridge", too_fast(circuit)),
        ("a stale figure in a table", not prove.alike(budget, budget.replace("| all | ", "| all | 1"))),
    )


def too_fast(circuit):
    """What the ringing's limit says of op-amps that are faster than the bill's."""
    findings = Findings()
    signals.ringing(circuit, findings, (10e6,))
    return findings.broken


def main():
    picture = [(bool(found), f"{'ok: found out' if found else 'FAILED: not found out'}: {what}") for what, found in files()]
    with ThreadPoolExecutor(2) as pool:
        results = picture + list(pool.map(caught, MUTATIONS))
    for _, line in results:
        print(line)
    return 0 if all(fine for fine, _ in results) else 1


if __name__ == "__main__":
    sys.exit(main())
