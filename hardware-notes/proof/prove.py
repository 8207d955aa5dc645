#!/usr/bin/env python3
"""Proves the circuit: one line a limit, "ok: ..." or "FAILED: ...", and a status of 1 when one failed.

prove.py                     every limit, and that the generated files are those that the circuit gives
prove.py --write             the same, and writes the generated files
prove.py --long                every amplifier at the terminals for 10 s
prove.py --netlist FILE ...  another netlist, without the generated files; --only names the parts of the proof
"""
import argparse
import os
import re
import shutil
import sys
from concurrent.futures import ProcessPoolExecutor

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import abuse  # noqa: E402
import bill  # noqa: E402
import budget  # noqa: E402
import drawing  # noqa: E402
import pages  # noqa: E402
import signals  # noqa: E402
import spice  # noqa: E402
from circuit import HOME, Circuit, CircuitError, Findings  # noqa: E402

PARTS = {
    "scales": signals.scales, "transfer": signals.transfer, "margins": signals.margins, "ringing": signals.ringing, "ripple": signals.ripple,
    "loads": signals.loads, "noise": signals.noise, "microphone": signals.microphone,
    "limits": lambda circuit, findings: signals.bridge_limits(circuit),
    "budget": budget.proof, "sample": budget.spice_sample,
}
FAILED = "failed"
CASES = {f"abuse {k}": case for k, case in enumerate(abuse.LONG + tuple(abuse.STATIC))}


def run(netlist, name):
    """One part of the proof in a process of its own: what it returns, and the limits it held."""
    findings = Findings()
    try:
        circuit = Circuit.read(netlist)
        if name in CASES:
            static = CASES[name] in abuse.STATIC
            case = [CASES[name]]
            result = abuse.proof(circuit, findings, [] if static else case, case if static else [])
        else:
            result = PARTS[name](circuit, findings)
    except CircuitError as error:
        findings.broken.append(str(error))
        result = FAILED
    return name, result, findings.worst, findings.broken


def everything(netlist, names):
    findings, results = Findings(), {}
    # The long ones first.
    order = sorted(names, key=lambda n: (-CASES[n][2] if n in CASES and "amplifier" in CASES[n][0] else 0, n != "budget"))
    with ProcessPoolExecutor(2) as pool:
        for name, result, worst, broken in pool.map(run, [netlist] * len(order), order):
            results[name] = result
            findings.broken += broken
            for key, values in worst.items():
                findings.worst.setdefault(key, []).extend(values)
    return results, findings


def say(findings, complete):
    """A line for each limit; in a complete run a limit that nothing was held to is a failure."""
    failed = 0
    for key, row in findings.limits.items():
        values = [value for value, _, _ in findings.worst.get(key, [])]
        bad = [entry for entry in findings.broken if entry.startswith(row["what"])]
        if not values:
            if complete:
                print(f"FAILED: {row['what']}: nothing was held to this limit")
                failed += 1
            continue
        if all(fine for _, _, fine in findings.worst[key]):
            print(f"ok: {row['what']}: {min(values):.4g} to {max(values):.4g} {row['unit']}"
                  f" (allowed {row['low'] or 'any'} to {row['high'] or 'any'})")
        else:
            failed += 1
            print(f"FAILED: {bad[0]}" + (f" and {len(bad) - 1} more" if len(bad) > 1 else ""))
    known = tuple(row["what"] for row in findings.limits.values())
    for other in (b for b in findings.broken if not b.startswith(known)):
        failed += 1
        print(f"FAILED: {other}")
    return failed


def alike(old, new, share=0.03):
    """Whether two texts say the same, numbers within a share of each other (solvers differ in the last digits)."""
    if share == 0:
        return old == new
    pattern = re.compile(r"[0-9]+(?:\.[0-9]+)?(?:e-?[0-9]+)?")
    if pattern.sub("#", old) != pattern.sub("#", new):
        return False
    pairs = zip(map(float, pattern.findall(old)), map(float, pattern.findall(new)))
    return all(abs(a - b) <= max(share * max(abs(a), abs(b)), 0.021 if max(a, b) >= 0.02 else 0) for a, b in pairs)


def generated(circuit, results, findings):
    solved = "key,value,unit\n" + "".join(
        f"{key},{value:.6g},{unit}\n" for key, value, unit in results["scales"] + results["limits"])
    rows = [row for name in CASES for row in results[name]]
    return {"circuit/solved.csv": solved, "error-budget.md": pages.error_budget(*results["budget"]),
            "abuse.md": pages.abuse(rows), "proof.md": pages.proof_page(findings, results["loads"]),
            "bill-of-materials.md": bill.text(findings), "schematic.svg": drawing.svg(circuit)}


def main():
    parser = argparse.ArgumentParser(description="Proves the jig's circuit.")
    parser.add_argument("--write", action="store_true", help="write the generated files")
    parser.add_argument("--netlist", help="another netlist; the generated files are left alone")
    parser.add_argument("--only", help="parts of the proof, with commas between: " + ", ".join([*PARTS, "abuse N"]))
    parser.add_argument("--long", action="store_true", help="every amplifier for 10 s, and no page is written (minutes)")
    asked = parser.parse_args()
    if asked.long:
        spice.TIMEOUT_SECONDS = 600
        for name, case in CASES.items():
            if len(case) == 5:
                CASES[name] = (*case[:2], max(10, case[2]), *case[3:])
    if not shutil.which("ngspice"):
        print("FAILED: ngspice is missing; install the package ngspice")
        return 1
    names = asked.only.split(",") if asked.only else [*PARTS, *CASES]
    unknown = [name for name in names if name not in PARTS and name not in CASES]
    if unknown:
        print(f"FAILED: there is no part of the proof called {unknown[0]}; there are {', '.join([*PARTS, *CASES])}")
        return 1
    try:
        circuit = Circuit.read(asked.netlist)
    except (CircuitError, OSError) as error:
        print(f"FAILED: {error}")
        return 1
    failed = 0
    complete = not (asked.netlist or asked.only or asked.long)
    if complete:
        complaints = circuit.complaints() + drawing.complaints(circuit)
        failed += len(complaints)
        for complaint in complaints:
            print(f"FAILED: {complaint}")
        if not complaints:
            print("ok: netlist, parts table and picture name the same parts and nets")
    if "budget" in names:
        print(f"{budget.DRAWS} jigs drawn with seed {budget.SEED}")
    results, findings = everything(asked.netlist, names)
    if complete and FAILED not in results.values():
        made = generated(circuit, results, findings)
        for name, new in made.items():
            path = HOME / name
            if asked.write:
                path.write_text(new, encoding="utf-8")
            old = path.read_text(encoding="utf-8") if path.exists() else ""
            # A picture and a bill must be the same; the time at which a fuse trips hangs on a solver's steps.
            share = 0 if name in ("schematic.svg", "bill-of-materials.md") else 0.1 if name == "abuse.md" else 0.03
            if alike(old, new, share):
                print(f"ok: {name} is what the circuit gives")
            else:
                failed += 1
                print(f"FAILED: {name} is not what the circuit gives; run hardware-notes/proof/prove.py --write and read the difference")
    return 1 if failed + say(findings, complete) else 0


if __name__ == "__main__":
    sys.exit(main())
