"""The three tasks of AnalysisBenchmark in NumPy and SciPy: prints a name and microseconds a line."""

import time

import numpy as np
from scipy import signal

PAIRS = 8192
INTERVAL = 128e-6
rng = np.random.default_rng(1)


def best(task, repeats):
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        task()
        times.append(time.perf_counter() - start)
    return 1e6 * sorted(times)[len(times) // 2]


def played(hz):
    t = INTERVAL * np.arange(PAIRS)
    phase = rng.uniform(0, 6, len(hz))
    volt = sum(6 * np.cos(2 * np.pi * f * t + p) for f, p in zip(hz, phase))
    ampere = sum(np.cos(2 * np.pi * f * (t + INTERVAL / 2) + p) for f, p in zip(hz, phase))
    return (t, volt + 0.01 * rng.standard_normal(PAIRS)), (
        t + INTERVAL / 2,
        ampere + 0.002 * rng.standard_normal(PAIRS),
    )


def fit(channel, hz):
    t, x = channel
    angle = 2 * np.pi * np.outer(t, hz)
    design = np.hstack([np.cos(angle), np.sin(angle), np.ones((len(t), 1))])
    solution, residual, _, _ = np.linalg.lstsq(design, x, rcond=None)
    return solution[: len(hz)] - 1j * solution[len(hz) : 2 * len(hz)], residual


def impedance(capture, hz):
    return fit(capture[0], hz)[0] / fit(capture[1], hz)[0]


tone_hz = np.array([34 / 1.048576])
comb_hz = np.arange(10, 131) / 1.048576
tone = played(tone_hz)
comb = played(comb_hz)
ampere = rng.standard_normal(60 * 48000)
volt = 6 * ampere + 0.1 * rng.standard_normal(len(ampere))


def spectra():
    segment = 131072
    cross = signal.csd(ampere, volt, 48e3, nperseg=segment)[1]
    power = signal.welch(ampere, 48e3, nperseg=segment)[1]
    other = signal.welch(volt, 48e3, nperseg=segment)[1]
    return cross / power, np.abs(cross) ** 2 / (power * other)


print("oneTone", best(lambda: impedance(tone, tone_hz), 50))
print("comb", best(lambda: impedance(comb, comb_hz), 5))
print("minuteOfNoise", best(spectra, 3))
