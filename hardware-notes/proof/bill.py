"""The bill of materials from parts.csv and extras.csv."""
import re

from circuit import rows

PRICED = "2026-11"
HEAD = f"""# Bill of materials

Made by `proof/prove.py --write` from `circuit/netlist.cir`, `circuit/parts.csv` and `circuit/extras.csv`; do not edit.
Prices are estimates for single pieces in US$, {PRICED}, without tax, postage and the board's USB cable; no shop was asked. Every part is
through-hole. The alternates fit the same holes unless it says "other legs".
"""


def total(chosen=lambda row: True):
    return (sum(len(r["refs"].split()) * float(r["usd_each"]) for r in rows("parts.csv") if chosen(r))
            + sum(int(r["quantity"]) * float(r["usd_each"]) for r in rows("extras.csv")))


def text(findings):
    """The page; holds the price to its limit."""
    findings.hold("price_usd", total())
    lines = [HEAD, "| quantity | parts | what | value | tolerance | rating | package | example | alternate | US$ |",
             "|---|---|---|---|---|---|---|---|---|---|"]
    for row in rows("parts.csv"):
        refs = row["refs"].split()
        tolerance = f"{row['tolerance_percent']} %" if row["tolerance_percent"] else ""
        what = row["part"] + (" (microphone only)" if row["fitted"] == "microphone" else "")
        value = row["value"] if refs[0][0] in "RCQ" or re.match(r"1N|mcp", row["value"]) else ""
        lines.append(f"| {len(refs)} | {' '.join(refs)} | {what} | {unit(refs[0], value)} | {tolerance} | {row['rating']} |"
                     f" {row['package']} | {row['example']} | {row['alternate']} | {len(refs) * float(row['usd_each']):.2f} |")
    for row in rows("extras.csv"):
        lines.append(f"| {row['quantity']} | | {row['part']} | | | | | {row['example']} | {row['alternate']} |"
                     f" {int(row['quantity']) * float(row['usd_each']):.2f} |")
    needed = total(lambda row: row["fitted"] == "always")
    lines += ["", f"**US$ {needed:.2f}** without the microphone, **US$ {total():.2f}** with it (limit 25).", ""]
    return "\n".join(lines)


def unit(ref, value):
    """15k becomes 15 kohm, 4.7n becomes 4.7 nF."""
    match = re.fullmatch(r"([0-9.]+)([pnukM]?)", value)
    if not match or ref[0] not in "RC":
        return value.upper()
    return f"{match.group(1)} {match.group(2)}{'ohm' if ref[0] == 'R' else 'F'}"
