"""What the circuit does with a signal: scales, transfer, phase, ripple, and every load within the parts' ratings."""
import numpy as np

import linear
from spice import Spice

CODES, SUPPLY, LEVELS, TICK_HZ = 1024, 5.0, 511, 15625.0
# The sample: the tick's interrupt 61 to 77 cycles after the overflow, the next edge of the converter's clock at 85, and
# 1.5 of its periods of 64 cycles (firmware; data sheet section 23.4).
SAMPLE_SECONDS = (85 + 96) / 16e6
PIN_PEAK = SUPPLY * LEVELS / CODES
LOADS_OHM = (0.001, 1, 2, 4, 8, 50, 1e6)
STRAY_FARAD = 11e-12
# The op-amps of the bill and their alternates.
SPEEDS_HZ = (1e6, 3e6)
SUMS = ("minus_sum", "plus_sum", "voltage_low", "voltage_high", "current_low", "current_high")


def scales(circuit, findings):
    """The numbers that the wire's protocol states, solved from the circuit; also written to solved.csv."""
    draw = linear.Draw(circuit)
    hertz = np.array([1e-3, 10.0, 400.0, 1000.0])
    solved = linear.solve(circuit, draw, hertz)
    ohm = 10.0
    volts = solved.channel("terminal_plus", ohm) - solved.channel("terminal_minus", ohm)
    ampere = solved.current(ohm)
    bridge = solved.channel("sense_in", ohm) - solved.channel("terminal_minus", ohm)
    gain_v = abs(solved.channel("voltage_out", ohm) / volts)[0, 0]
    gain_i = abs(solved.channel("current_out", ohm) / (bridge - volts))[0, 0]
    sense = abs((bridge - volts) / ampere)[0, 0]
    idle = solved.open("sense_in") - solved.open("terminal_minus")
    filter_s = _two_poles(hertz[2], idle[0, 0] / idle[0, 2])
    pole = {}
    for name in ("voltage", "current"):
        ratio = solved.channel(f"{name}_out", ohm) / solved.channel(f"adc_{name}", ohm)
        pole[name] = hertz[2] / ratio[0, 2].imag
    full = abs(idle[0, 0]) * PIN_PEAK
    findings.hold("gain", gain_v, "(voltage)")
    findings.hold("gain", gain_i, "(current)")
    findings.hold("gain_mismatch", 100 * (gain_i / gain_v - 1))
    findings.hold("sense_ohm", sense)
    findings.hold("full_volt", full)
    findings.hold("drive_delay_share", filter_s[0] / (2 / (2 * np.pi * 1500)))
    for name in pole:
        findings.hold("channel_pole_hz", pole[name], f"({name})")
    # Both terminals up together: the open terminals' current channel must stay still.
    idle_i = abs(solved.open("current_out") - solved.open("mid"))[0, 0]
    findings.hold("common_mode_percent", 100 * idle_i / (gain_i * abs(solved.open("terminal_plus")[0, 0])), "(current)")
    # And joined terminals, which move with the current together, the voltage channel.
    joined = abs(solved.channel("voltage_out", 0.0) - solved.channel("mid", 0.0))[0, 0]
    findings.hold("common_mode_percent", 100 * joined / (gain_v * abs(solved.channel("terminal_plus", 0.0)[0, 0])), "(voltage)")
    return [("gain_voltage", gain_v, ""), ("gain_current", gain_i, ""), ("sense_ohm", sense, "ohm"),
            ("full_volt", full, "V"), ("volt_per_level", full / LEVELS, "V"),
            ("volt_per_code", SUPPLY / CODES / gain_v, "V"), ("ampere_per_code", SUPPLY / CODES / gain_i / sense, "A"),
            ("drive_delay_seconds", filter_s[0], "s"), ("drive_natural_hz", filter_s[1], "Hz"),
            ("channel_pole_voltage_hz", pole["voltage"], "Hz"), ("channel_pole_current_hz", pole["current"], "Hz")]


def _two_poles(hertz, ratio):
    """1/T = 1 + a s + b s^2 at one frequency: the delay a and the natural frequency of b."""
    omega = 2 * np.pi * hertz
    return ratio.imag / omega, np.sqrt((1 - ratio.real) / omega**2) ** -1 / (2 * np.pi)


def transfer(circuit, findings):
    """Both channels by ngspice from 1 to 1000 Hz into 8 ohm, and numpy's own solution beside it."""
    deck = Spice(circuit, linear=True).add(
        "V5 v5 gnd 5", "Rv5 v5 supply_5v 0.1", "Vpwm pin gnd dc 2.5 ac 1", "Rpin pin pwm 25",
        "Rload terminal_plus terminal_minus 8")
    table = deck.run("ac dec 10 1 1000", ["v(adc_voltage)", "v(adc_current)"])
    hertz, volt, ampere = table[:, 0], table[:, 1] + 1j * table[:, 2], table[:, 3] + 1j * table[:, 4]
    for channel in (volt, ampere):
        level = 20 * np.log10(np.abs(channel / channel[0]))
        findings.hold("transfer_flat_db", level.min())
        findings.hold("transfer_flat_db", level.max())
    phase = np.degrees(np.angle(ampere / volt))
    findings.hold("channel_phase_degree", phase[np.argmax(np.abs(phase))])
    solved = linear.solve(circuit, linear.Draw(circuit), hertz)
    mine = solved.channel("adc_voltage", 8) / solved.channel("adc_current", 8)
    findings.hold("solvers_percent", 100 * np.abs(mine[0] * ampere / volt - 1).max(), "(V over I)")
    findings.hold("solvers_percent", 100 * np.abs(solved.channel("adc_voltage", 8)[0] / volt - 1).max(), "(V)")
    return list(zip(hertz, 20 * np.log10(np.abs(volt)), np.degrees(np.angle(-volt)), phase))


def margins(circuit, findings):
    """Phase margin of each amplifier with nothing, a coil, a crossover's capacitor and a long lead at the terminals."""
    hertz = np.logspace(-1, 7, 600)
    s = 2j * np.pi * hertz[None, :]
    stray = [(net, "gnd", s * STRAY_FARAD) for net in SUMS]
    loads = {"open": [], "4 ohm": [("terminal_plus", "terminal_minus", 0 * s + 0.25)],
             "3 ohm + 1 mH": [("terminal_plus", "terminal_minus", 1 / (3 + s * 1e-3))],
             "10 uF": [("terminal_plus", "terminal_minus", s * 1e-5)],
             "2 nF to ground": [("terminal_plus", "gnd", s * 2e-9), ("terminal_minus", "gnd", s * 2e-9)]}
    for name in ("U1A", "U1B", "U2A", "U2B", "U2C"):
        for load, parts in loads.items():
            for bandwidth in SPEEDS_HZ:
                loop = linear.loop_gain(circuit, name, hertz, stray + parts, bandwidth)
                findings.hold("phase_margin_degree", linear.phase_margin(hertz, loop),
                              f"({name}, {load}, op-amps of {bandwidth / 1e6:g} MHz)")


def ringing(circuit, findings, speeds_hz=SPEEDS_HZ):
    """The bridge with its transistors, by ngspice: what still swings 70 us after 20 mA jumped onto both terminals."""
    loads = {"open": [], "10 uF": ["Cload terminal_plus terminal_minus 10u"],
             "2 nF to ground": ["Ca terminal_plus gnd 2n", "Cb terminal_minus gnd 2n"]}
    for name, lines in loads.items():
        for bandwidth in speeds_hz:
            for pin in (2.5, 2.5 + PIN_PEAK):
                deck = Spice(circuit, megahertz=bandwidth / 1e6).add(
                    "V5 supply_5v gnd 5", f"Vpwm pin gnd {pin}", "Rpin pin pwm 25",
                    "Ia terminal_minus gnd PULSE(0 20m 20u 100n 100n 1 2)",
                    "Ib gnd terminal_plus PULSE(0 20m 20u 100n 100n 1 2)", *lines)
                table = deck.run("tran 100n 120u 0 100n", ["v(bridge_minus)", "v(bridge_plus)"])
                late = table[table[:, 0] > 90e-6]
                for column in (1, 2):
                    trend = np.polyval(np.polyfit(late[:, 0] - 90e-6, late[:, column], 3), late[:, 0] - 90e-6)
                    findings.hold("ringing_mv", 1e3 * np.ptp(late[:, column] - trend),
                                  f"({name}, op-amps of {bandwidth / 1e6:g} MHz)")


def ripple(circuit, findings):
    """What is left of the pulse width at the converter by ngspice, and what sampling it does to |Z| at most."""
    high = 513 / 1024 / TICK_HZ
    deck = Spice(circuit).add(
        "V5 supply_5v gnd 5", f"Vpwm pin gnd PULSE(0 5 0 20n 20n {high:.6e} {1 / TICK_HZ:.6e})", "Rpin pin pwm 25",
        "Rload terminal_plus terminal_minus 8")
    table = deck.run("tran 1u 6.4m 6m 1u", ["v(adc_voltage)", "v(adc_current)"])
    for column in (1, 2):
        findings.hold("ripple_codes", np.ptp(table[:, column]) / SUPPLY * CODES)
    k = np.arange(1, 31)
    solved = linear.solve(circuit, linear.Draw(circuit), np.concatenate([[100.0], k * TICK_HZ]))
    angle = 2 * np.pi * np.arange(64) / 64
    duty = 0.5 + 0.499 * np.sin(angle)
    # Pulse from 0 to duty: coefficient (1 - exp(-2 pi j k d)) / (2 pi j k).
    pulse = SUPPLY * (1 - np.exp(-2j * np.pi * np.outer(duty, k))) / (2j * np.pi * k)
    turn = np.exp(2j * np.pi * k * TICK_HZ * SAMPLE_SECONDS)
    omega = 2 * np.pi * np.concatenate([[100.0], k * TICK_HZ])
    for ohm, henry in ((1, 0), (1, 1e-3), (4, 0), (4, 2e-3), (20, 1e-3), (100, 0)):
        load = ohm + 1j * omega * henry
        channel = {}
        for name in ("adc_voltage", "adc_current"):
            t = solved.channel(name, load)[0]
            sampled = 2 * (pulse * t[1:] * turn).real.sum(axis=1)
            first = 2 * (sampled * np.exp(-1j * angle)).mean()
            channel[name] = first / (-1j * PIN_PEAK * t[0] * 0.998)
        error = abs((1 + channel["adc_voltage"]) / (1 + channel["adc_current"])) - 1
        findings.hold("ripple_error_percent", 100 * abs(error), f"({ohm} ohm, {henry * 1e3:g} mH)")


LOOKED_AT = ["v(adc_voltage)", "v(adc_current)", "v(plus_op)", "v(minus_op)", "v(plus_base)", "v(minus_base)",
             "v(bridge_plus)", "v(bridge_minus)", "v(bridge_supply)", "v(sense_in)", "v(terminal_plus)",
             "v(terminal_minus)", "i(V5)"]


def _drive(circuit, ohm, wave, supply, offset=0.0, fuse=2.5):
    return Spice(circuit, off=offset, fuse=fuse).add(
        f"V5 supply_5v gnd {supply}", f"Vpwm pin gnd {wave}", "Rpin pin pwm 25", f"Rload terminal_plus terminal_minus {ohm}")


def loads(circuit, findings):
    """The highest level into each load: at 5 V, and at 4.5 V with fuses aged to 7.5 ohm and offsets at their worst."""
    found = []
    for ohm in LOADS_OHM:
        for supply, offset, fuse in ((5.0, 0.0, 2.5), (4.5, 0.0045, 7.5)):
            peak = supply * LEVELS / CODES
            deck = _drive(circuit, ohm, f"SIN({supply / 2} {peak} 100)", supply, offset, fuse)
            table = deck.run("tran 50u 40m 20m 50u", LOOKED_AT)
            found.append((ohm, supply, _one_load(circuit, table, findings, supply, f"({ohm:g} ohm, {supply:g} V)")))
    supply = 5.25
    table = _drive(circuit, 0.001, f"DC {supply / 2 + supply * LEVELS / CODES}", supply).run(
        "tran 1m 60 30 50m", LOOKED_AT)
    got = dict(zip(LOOKED_AT, table[-1, 1:]))
    current = (got["v(sense_in)"] - got["v(terminal_plus)"]) / circuit["R10"].number
    findings.hold("fuse_rms_ma", 1e3 * abs(current) / np.sqrt(2), "(a tone into a short)")
    findings.hold("sense_steady_w", current**2 * circuit["R10"].number)
    findings.hold("usb_steady_ma", 1e3 * abs(got["i(V5)"]))
    findings.hold("transistor_steady_w", abs(current) * max(
        got["v(bridge_supply)"] - got["v(bridge_plus)"], got["v(bridge_minus)"]))
    return found


def opamp_current(circuit, half, op, base, out):
    """What the op-amp of a half of the bridge gives: into the bases and past the transistors."""
    to_base, past = ("R8", "R9") if half == "plus" else ("R4", "R5")
    return (op - base) / circuit[to_base].number + (op - out) / circuit[past].number


def _one_load(circuit, table, findings, supply, where):
    got = dict(zip(LOOKED_AT, table[:, 1:].T))
    codes = {n: got[f"v(adc_{n})"] / supply * CODES for n in ("voltage", "current")}
    for name, code in codes.items():
        findings.hold("converter_high_codes", code.max(), where)
        findings.hold("converter_low_codes", code.min(), where)
    for half in ("plus", "minus"):
        op, base, out = got[f"v({half}_op)"], got[f"v({half}_base)"], got[f"v(bridge_{half})"]
        findings.hold("opamp_swing_v", min(op.min(), supply - op.max()), where)
        findings.hold("opamp_drive_ma", 1e3 * np.abs(opamp_current(circuit, half, op, base, out)).max(), where)
        findings.hold("bridge_room_v", min(out.min(), (got["v(bridge_supply)"] - out).min()), where)
    even = np.linspace(table[0, 0], table[0, 0] + 0.02, 800, endpoint=False)
    drive = np.interp(even, table[:, 0], got["v(sense_in)"] - got["v(terminal_minus)"])
    lines = np.abs(np.fft.rfft(drive - drive.mean()))
    findings.hold("bridge_distortion_percent", 100 * np.sqrt((np.delete(lines, 2)[1:200]**2).sum()) / lines[2], where)
    current = (got["v(sense_in)"] - got["v(terminal_plus)"]) / 10
    return [np.ptp(codes["voltage"]) / 2, np.ptp(codes["current"]) / 2, 1e3 * np.abs(current).max(),
            min(got["v(bridge_plus)"].min(), (got["v(bridge_supply)"] - got["v(bridge_plus)"]).min())]


def bridge_limits(circuit):
    """Where the bridge gives up: voltage for a drive beyond its range, and current forced into the terminals (V, A)."""
    deck = _drive(circuit, 1e6, "PWL(0 2.5 20m 40)", 5.0)
    table = deck.run("tran 50u 20m 0 50u", LOOKED_AT)
    got = dict(zip(LOOKED_AT, table[:, 1:].T))
    volt = np.abs(got["v(sense_in)"] - got["v(terminal_minus)"]).max()
    deck = _drive(circuit, 1e6, "DC 2.5", 5.0).add("Iforce terminal_plus terminal_minus PWL(0 0 50m 1.5)")
    table = deck.run("tran 50u 50m 0 50u", LOOKED_AT)
    got = dict(zip(LOOKED_AT, table[:, 1:].T))
    moved = np.abs(got["v(sense_in)"] - got["v(terminal_minus)"]) > 0.05
    return [("bridge_volt", volt, "V"), ("bridge_ampere", 1.5 * table[np.argmax(moved), 0] / 0.05, "A")]


def noise(circuit, findings):
    """Thermal noise of the resistors and of the op-amps at the converter, by ngspice to 100 kHz, in codes rms."""
    deck = Spice(circuit, linear=True).add(
        "V5 v5 gnd 5", "Rv5 v5 supply_5v 0.1", "Vpwm pin gnd dc 2.5 ac 1", "Rpin pin pwm 25",
        "Rload terminal_plus terminal_minus 8")
    for net in ("adc_voltage", "adc_current"):
        table = deck.run(f"noise v({net}) Vpwm dec 20 1 100k", ["onoise_total"], "")
        findings.hold("noise_codes", table[-1, -1] / SUPPLY * CODES, f"({net})")


def microphone(circuit, findings):
    """The optional channel from the capsule's node to the converter, by ngspice: 100 Hz, and its lowest corner."""
    deck = Spice(circuit.without("R24", "XMK1"), linear=True).add(
        "V5 v5 gnd 5", "Rv5 v5 supply_5v 0.1", "Vmic mic_capsule gnd dc 2 ac 1", "Vpwm pwm gnd 2.5")
    table = deck.run("ac dec 20 1 1000", ["v(adc_microphone)"])
    size = np.abs(table[:, 1] + 1j * table[:, 2])
    at_100 = size[np.argmin(np.abs(table[:, 0] - 100))]
    findings.hold("microphone_gain", at_100)
    findings.hold("microphone_corner_hz", table[np.argmax(size > at_100 / np.sqrt(2)), 0])
