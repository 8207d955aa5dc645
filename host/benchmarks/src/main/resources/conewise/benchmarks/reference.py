"""The three tasks of AnalysisBenchmark in NumPy and SciPy: prints a name and microseconds a line."""

import time

import numpy as np
from scipy import optimize, signal

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

# A vented box of two like drivers in parallel, 150 points, eight unknowns (Small 1972, 1973): the model
# takes a batch of unknowns at once, so that all differences of the Jacobian are one call.
BULK = 1.204 * 343.2**2
box_hz = 10 * 40 ** (np.arange(150) / 149)
box_w = 2 * np.pi * box_hz
stated = np.array([32, 6, 0.45, 0.05, 7, 0.02, 34, 12])
box_volume, vent_q, exponent = 0.06, 60, 0.7


def curves(batch):
    fs, qms, qes, vas, re, lossy, fb, ql = (stated * np.exp(batch)).T[:, :, None]
    ws, wb = 2 * np.pi * fs, 2 * np.pi * fb
    mass = BULK / (ws**2 * vas)
    cone = ws * mass / qms + 1j * (box_w * mass - BULK / (box_w * vas))
    vent = BULK / (wb**2 * box_volume)
    air = 2 * np.pi * 40 * box_volume / BULK / ql + 1j * box_w * box_volume / BULK
    air = air + 1 / (wb * vent / vent_q + 1j * box_w * vent)
    coil = lossy * (1j * box_w) ** exponent
    return (re + coil + ws * mass * re / qes / (cone + 2 / air)) / 2


box_truth = curves(np.full((1, 8), np.log(1.08)))[0]
box_noise = 0.005
box_measured = box_truth * (
    1 + box_noise * (rng.standard_normal(150) + 1j * rng.standard_normal(150))
)


def left_over(ratio):
    return np.concatenate([ratio.real, ratio.imag], axis=-1) / box_noise


def residuals(x):
    return np.concatenate([left_over(np.log(curves(x[None])[0] / box_measured)), x / 0.3])


def jacobian(x):
    step = 1e-6
    both = np.concatenate([x + step * np.eye(8), x - step * np.eye(8)])
    ratio = np.log(curves(both) / box_measured)
    slopes = left_over((ratio[:8] - ratio[8:]) / (2 * step))
    return np.concatenate([slopes.T, np.eye(8) / 0.3])


def box_fit():
    return optimize.least_squares(residuals, np.zeros(8), jac=jacobian, method="lm")


print("curve", best(lambda: curves(np.zeros((1, 8))), 200))
print("fit", best(box_fit, 20))
