#!/usr/bin/env python3
"""Holds the layout to the netlist and the build guide to both: "ok: ..." or "FAILED: ..." a line, and a status of 1 when one failed.

check.py            checks; mistakes put into the layout must be found out
check.py --write    the same, and writes the pictures and the guide's tables
"""
import argparse
import re
import sys

from board import HERE, Board, Circuit, CircuitError, Copper, complaints, hole_name, pins  # makes the folder `proof` known to what follows

import guide
import picture
import prove
import signals

LAYOUT = HERE / "board.txt"
# A strip of 2 mm, 0.54 mm from the next on either side: coplanar strips, C/l = e0 e K(k')/K(k) with k = s/(s + 2w) = 0.12 and
# e about 2.3 give 0.45 pF/cm to each neighbour (common form, from memory).
HOLE_PICOFARAD = 2 * 0.45 * 0.254
# MCP6001/2/4: common-mode input capacitance (data sheet; from memory).
INPUT_PICOFARAD = 6.0
# What is wrong, the line (a pattern), what stands there instead, words that the complaint must have.
MISTAKES = (
    ("a missing cut between two legs of a chip", r"(?m)^(cut .*) G14", r"\1", "Short: "),
    ("a missing cut elsewhere", r"(?m)^(cut .*) AE39", r"\1", "Short: "),
    ("a cut too many", r"(?m)^cut ", "cut B12 ", "Open: terminal_minus"),
    ("a link moved by one hole to the next strip", r"(?m)^link sense_in ([A-Z]+)(\d+) (\S+)$", r"link sense_in A\2 \3", "Open: sense_in"),
    ("a link left out", r"(?m)^link mid .*\n", "", "Open: mid"),
    ("a wire of the board in a wrong hole", r"(?m)^lead J1.A0 \S+", "lead J1.A0 AB2", "Short: "),
    ("a diode turned round", r"(?m)^part D1 (\S+) (\S+)", r"part D1 \2 \1", "Short: "),
    ("a surge diode turned round", r"(?m)^part D6 (\S+) (\S+)", r"part D6 \2 \1", "Short: "),
    ("an electrolytic capacitor turned round", r"(?m)^part C11 (\S+) (\S+)", r"part C11 \2 \1", "Short: "),
    ("a transistor turned round", r"(?m)^part Q1 (\S+) (\S+) (\S+)", r"part Q1 \1 \3 \2", "Short: "),
    ("a transistor with other legs", r"(?m)^part Q3 (\S+) (\S+) (\S+)", r"part Q3 \2 \1 \3", "middle leg of Q3"),
    ("a chip one strip too low", r"(?m)^chip U1 E12", "chip U1 F12", "Short: "),
    ("a part left out", r"(?m)^part R25 .*\n", "", "R25 is not on the board"),
    ("a part twice", r"(?m)^(part R25 .*)\n", r"\1\n\1\n", "R25 is on the board 2 times"),
    ("a lead left out", r"(?m)^lead J2.red .*\n", "", "J2.red is not on the board"),
    ("two bodies in one place", r"(?m)^part R3 B7 F7", "part R3 B6 F6", "take the same room"),
    ("a leg in a hole where the strip is cut", r"(?m)^part R13 \S+ \S+", "part R13 Q21 U21", "where the strip is cut"),
    ("a part that its legs do not let span", r"(?m)^part C1 K6 M6", "part C1 K6 AC6", "its legs reach"),
    ("a hole beyond the edge", r"(?m)^part R13 \S+ \S+", "part R13 Q50 U50", "is off the board"),
    ("a hole that is none", r"(?m)^part R13 \S+ \S+", "part R13 13Q U13", "is no hole"),
)


def said(board, circuit):
    """What the guide's own sentences say of wires and holes, made from the layout; each must stand in it."""
    wire = picture.numbers(board)
    hole = {item.name: hole_name(item.holes[0]) for item in board.of("lead")}
    drive = next(hole_name(item.holes[0]) for item in board.of("part") if item.name == "C1")
    pin = {name: f"J1.{name}" for name in ("2", "4", "5", "6", "7", "9", "A0", "A1", "A2", "5V", "GND")}
    number = {name: wire[key] for name, key in pin.items()}
    return (
        f"5V ({hole['J1.5V']}) to GND ({hole['J1.GND']})", f"ohm from {hole['J1.5V']} to {hole['J1.GND']}",
        f"take wires {number['5V']} and {number['GND']} to the board's 5V and GND", f"on ground (wire {number['GND']})",
        f"*wire {number['9']} stays off the board's pin 9*", f"ohm from wire {number['9']} to {drive}", f"wire {number['9']} to pin 9",
        f"wires {number['A0']}, {number['A1']}, {number['A2']} to A0, A1, A2", f"Wires {number['A2']}, {number['A0']} and {number['A1']} stay off",
        f"wires {number['6']}, {number['5']}, {number['4']} and {number['7']} go to pins 6, 5, 4, 7",
        f"({number['4']} blue, {number['5']} orange, {number['6']} white), {number['7']} sounds the buzzer",
        f"Wire {number['2']} to pin 2", f"the case's leg goes to wire {wire['MK1.case']}",
        f"{board.columns} by {board.rows} are used",
    )


def stray(board, circuit):
    """Picofarad at each summing input: the op-amp's own and what its strips have to their two neighbours, by net."""
    copper, holes = Copper(board), {}
    strips = {copper.strip[hole] for _, hole, net in pins(board, circuit)[0] if net in signals.SUMS}
    net_of = {copper.piece(hole): net for _, hole, net in pins(board, circuit)[0] if net in signals.SUMS}
    for hole, strip in copper.strip.items():
        if strip in strips:
            net = net_of[copper.piece(hole)]
            holes[net] = holes.get(net, 0) + 1
    return {net: INPUT_PICOFARAD + count * HOLE_PICOFARAD for net, count in holes.items()}


class Report:
    """Counts and prints."""

    def __init__(self):
        self.failed = 0

    def say(self, fine, text):
        self.failed += not fine
        print(f"{'ok' if fine else 'FAILED'}: {text}")


def found(text, circuit):
    try:
        return complaints(Board.read(text), circuit)
    except CircuitError as error:
        return [str(error)]


def mistakes(text, circuit, report):
    for what, pattern, instead, words in MISTAKES:
        changed, count = re.subn(pattern, instead, text, count=1)
        said = found(changed, circuit)
        fitting = [line for line in said if words in line]
        if count != 1 or changed == text:
            report.say(False, f"the layout has no line for the mistake '{what}'")
        elif fitting:
            report.say(True, f"found out: {what} ({fitting[0]})")
        else:
            report.say(False, f"not found out: {what}; the check said: {' / '.join(said) or 'nothing'}")


def pictures(board, circuit):
    made = {"above.svg": picture.above(board, circuit), "track-side.svg": picture.track_side(board)}
    made.update({f"step-{k + 1}.svg": picture.above(board, circuit, k) for k in range(len(board.steps))})
    return made


def hold(path, new, write, report, same):
    """Writes a generated file where asked, and says whether it is what the layout gives."""
    if write:
        path.write_text(new, encoding="utf-8")
    old = path.read_text(encoding="utf-8") if path.exists() else ""
    report.say(same(old, new), f"{path.name} is what the layout gives" if same(old, new)
               else f"{path.name} is not what the layout gives; run hardware-notes/layout/check.py --write and read the difference")


def main():
    parser = argparse.ArgumentParser(description="Holds the layout and the build guide to the netlist.")
    parser.add_argument("--write", action="store_true", help="write the pictures and the guide's tables")
    write = parser.parse_args().write
    report = Report()
    try:
        circuit, text = Circuit.read(), LAYOUT.read_text(encoding="utf-8")
        board = Board.read(text, LAYOUT.name)
        wrong = complaints(board, circuit)
        for line in wrong:
            report.say(False, line)
        if wrong:
            return 1
        report.say(True, f"the layout is the netlist: {len(circuit.nets())} nets, {len(board.of('part', 'chip'))} parts,"
                         f" {len(board.of('cut'))} cuts, {len(board.of('link'))} links")
        loads, most = stray(board, circuit), 1e12 * signals.STRAY_FARAD
        worst = max(loads, key=loads.get)
        report.say(set(loads) == set(signals.SUMS) and loads[worst] <= most,
                   f"stray capacitance at the summing inputs: {loads[worst]:.1f} pF at {worst} (the phase margins allow {most:.0f})")
        mistakes(text, circuit, report)
        for name, new in pictures(board, circuit).items():
            hold(HERE / name, new, write, report, lambda old, made: old == made)
        # Solvers differ in the last digit.
        page = guide.PAGE.read_text(encoding="utf-8")
        missing = [text for text in said(board, circuit) if text not in page]
        report.say(not missing, f"the guide's sentences name the layout's wires and holes{': not ' + repr(missing) if missing else ''}")
        hold(guide.PAGE, guide.page(board, circuit), write, report, lambda old, made: prove.alike(old, made, 0.005))
    except (CircuitError, OSError) as error:
        report.say(False, str(error))
    return 1 if report.failed else 0


if __name__ == "__main__":
    sys.exit(main())
