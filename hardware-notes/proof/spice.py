"""Writes ngspice decks of the circuit and runs them. The models of the parts stand here, once."""
import re
import subprocess
import tempfile
from pathlib import Path

import numpy as np

from circuit import CircuitError

TIMEOUT_SECONDS = 300

# BD139/BD140: least and most current gain of group 16 (100 and 250 at 150 mA) where each is the worst case; IKF makes it fall above 0.5 A.
# PTC fuses: I = V / R(T) with a heat capacity that makes a fuse of least resistance trip exactly as late as the data sheet
# allows (0.5 A: 4 s; 1 A: 2.2 s), a surface of 125 C that gives off the tripped power (0.38 W; 0.40 W), and R that
# has doubled at 110 C and grows e-fold every 4 K: common form, from memory.
MODELS = """
.model BD139 NPN(IS=2e-14 BF={beta} NF=1 VAF=100 IKF=0.6 RB=1 RE=0.05 RC=0.2 CJE=200p CJC=40p TF=1n BR=10)
.model BD140 PNP(IS=2e-14 BF={beta} NF=1 VAF=100 IKF=0.6 RB=1 RE=0.05 RC=0.2 CJE=200p CJC=60p TF=2n BR=10)
.model BC547 NPN(IS=2e-14 BF=300 VAF=80)
.model 1N5819 D(IS=1u N=1.05 RS=0.05 BV=40 CJO=110p)
.model 1N5817 D(IS=3u N=1.05 RS=0.04 BV=20 CJO=150p)
.model 1N4148 D(IS=4n N=1.9 RS=0.6 CJO=2p BV=100)
.model clamp D(IS=1e-14 RS=20)
.model clip D(IS=1e-12)
.model surge D(IS=1e-12 N=1.2 RS=0.04 BV=6.8 IBV=10m CJO=4n)
.model blue D(IS=1e-18 N=3.4 RS=8)
.subckt tvs_6v8 a k
D1 a k surge
.ends
.subckt led_blue a k
D1 a k blue
.ends
.subckt led_orange a k
D1 a k blue
.ends
.subckt led_white a k
D1 a k blue
.ends
.subckt capsule a c
I1 a c 0.3m
.ends
.subckt buzzer a b
R1 a b 150
.ends
* One pole of 1 MHz, 0.6 V/us, 112 dB, 25 mV from the rails, 200 ohm (23 mA shorted at mid-scale's 4.6 V), clamps at the inputs, 28 nV/rtHz (R1).
.subckt opamp p m v g o offset=0
Vp p pc 0
Vm m mc 0
D1 pc v clamp
D2 g pc clamp
D3 mc v clamp
D4 g mc clamp
C3 pc g 6p
C4 mc g 6p
R1 pc pn 47k
B1 g x I=60u*tanh({628u*quick}*(V(pn)-V(mc)+offset)/60u)
R2 x mid 634meg
R5 v mid 1meg
R6 mid g 1meg
C1 x g 100p
D5 x v clip
D6 g x clip
B3 c g V=0.5*(sqrt((V(x)-0.025)*(V(x)-0.025)+1e-6)-sqrt((V(x)-V(v)+0.025)*(V(x)-V(v)+0.025)+1e-6)+V(v))
R7 c o 200
C2 o g 10p
R3 o g 1g
.ends
.subckt mcp6002 p m v g o
X1 p m v g o opamp offset={off}
.ends
.subckt mcp6004 p m v g o
X1 p m v g o opamp offset={off}
.ends
.subckt ptc a b r=2.5 c=20m g=3.7m
B1 a b I=V(a,b)/(r*(1+exp((V(t)-110)/4)/(1+1e-5*exp((V(t)-110)/4))))
B2 0 t I=V(a,b)*V(a,b)/(r*(1+exp((V(t)-110)/4)/(1+1e-5*exp((V(t)-110)/4))))
C1 t 0 {c}
R1 t ta {1/g}
Va ta 0 {ambient}
.ends
.subckt ptc_010 a b
X1 a b ptc r={fuse} c={0.02*fuseheat} g=3.7m
.ends
.subckt ptc_020 a b
X1 a b ptc r=1.5 c=33m g=3.9m
.ends
"""
OUTSIDE = {"J", "MK", "BZ"}


class Spice:
    """A deck of one circuit: its parts, what is put around it, and what is asked."""

    def __init__(self, circuit, off=0.0, fuse=2.5, fuse_heat=1.0, ambient=23, linear=False, rough=False,
                 megahertz=1.0, beta=130):
        """`off`: offset of each op-amp in volt; `rough`: for abuse, with the op-amps ten times slower and transistors of most gain.
        `megahertz`: the op-amps' gain-bandwidth product; `beta`: the transistors' gain."""
        options = ("reltol=5e-3 abstol=1e-6 vntol=1e-4 chgtol=1e-12 method=gear itl4=50 gmin=1e-10" if rough
                   else "reltol=1e-4 abstol=1e-9 vntol=1e-7")
        self.lines = ["conewise", f".options {options} rshunt=1e12",
                      f".param off={off} fuse={fuse} fuseheat={fuse_heat} ambient={ambient}"
                      f" quick={0.1 if rough else megahertz} beta={250 if rough else beta}", MODELS]
        for part in circuit.parts.values():
            self.lines.append(_linear(part) if linear else _card(part))
            if part.letters == "F" and not linear:
                self.lines.append(f".ic v(x{part.name.lower()}.x1.t)={ambient}")

    def add(self, *lines):
        self.lines += [line for line in lines if line]
        return self

    def run(self, analysis, vectors, before=""):
        """The vectors asked for as columns, the first being time or frequency."""
        with tempfile.TemporaryDirectory() as folder:
            out = Path(folder) / "out.txt"
            deck = Path(folder) / "deck.cir"
            deck.write_text("\n".join(
                self.lines + [".control", "set wr_singlescale", "set wr_vecnames=0", "set numdgt=12", before,
                              analysis, f"wrdata {out} {' '.join(vectors)}", "quit", ".endc", ".end", ""]),
                encoding="ascii")
            try:
                said = subprocess.run(["ngspice", "-b", str(deck)], capture_output=True, text=True,
                                      timeout=TIMEOUT_SECONDS, cwd=folder, check=False)
            except subprocess.TimeoutExpired as late:
                raise CircuitError(f"ngspice took more than {TIMEOUT_SECONDS} s for '{analysis}'.") from late
            if not out.exists():
                raise CircuitError("ngspice gave no result for '" + analysis + "': "
                                   + " / ".join((said.stderr + said.stdout).strip().splitlines()[-6:]))
            table = np.atleast_2d(np.loadtxt(out, skiprows=_heads(out)))
            wanted = _end(analysis)
            if wanted is not None and table[-1, 0] < 0.999 * wanted:
                raise CircuitError(f"ngspice gave up at {table[-1, 0]:.4g} s of {wanted:g} s in '{analysis}'.")
            return table


def _end(analysis):
    """Where an analysis in time must end, in seconds."""
    words = analysis.split()
    if words[0] != "tran":
        return None
    match = re.fullmatch(r"([0-9.e+-]+)([num]?)", words[2])
    return float(match.group(1)) * {"n": 1e-9, "u": 1e-6, "m": 1e-3, "": 1.0}[match.group(2)]


def _heads(path):
    first = path.read_text().split("\n", 1)[0].split()
    try:
        float(first[0])
        return 0
    except ValueError:
        return 1


def _card(part):
    if part.letters in OUTSIDE:
        return f"* {part.name}"
    if part.letters in "RC":
        return f"{part.name} {' '.join(part.nets)} {part.number:.12g}"
    if part.letters in ("U", "F") or part.value.startswith(("tvs", "led")):
        return f"X{part.name} {' '.join(part.nets)} {part.value}"
    return f"{part.name} {' '.join(part.nets)} {part.value}"


def _linear(part):
    """For small signals: the transistors follow their bases, a fuse is a resistor, clamps and lamps are not there."""
    if part.letters == "Q" and part.value == "BD139":
        return f"E{part.name} e{part.name} gnd {part.nets[1]} gnd 1\nR{part.name} e{part.name} {part.nets[2]} 0.5"
    if part.letters == "F":
        return f"R{part.name} {' '.join(part.nets)} 3"
    if part.letters in ("Q", "D"):
        return f"* {part.name}"
    return _card(part)
