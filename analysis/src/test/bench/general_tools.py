"""Times what a person with general tools would do to the trace of SweepBenchmark, on one thread.

Median filter, Savitzky-Golay filter, peaks, and a parabola through the readings about each peak, of which the median is
the high spot. Needs numpy and scipy. Run from the top, on the core on which the benchmark runs:

    taskset -c 1 python3 analysis/src/test/bench/general_tools.py
"""

import os

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[threads] = "1"

import statistics
import time

import numpy as np
from scipy import signal

Q_MM = 0.001
INTERVAL_S = 0.0005


def trace(readings):
    """Five passes over a round of 10 mm, then a stop on the crest, as in SweepBenchmark."""
    share = np.arange(readings) / readings
    x = np.where(share < 0.8, 2 * np.cos(2 * np.pi * 2.5 * share / 0.8 + 0.3), 0.05)
    exact = 0.2 - (10 - np.sqrt(100 - x * x)) + 0.0005 * np.random.default_rng(11).standard_normal(readings)
    return np.arange(readings) * INTERVAL_S, np.round(exact / Q_MM) * Q_MM


def high_spot(time_s, reading_mm):
    smooth = signal.savgol_filter(signal.medfilt(reading_mm, 5), 21, 2)
    fall = smooth.max() - smooth.min()
    apart = max(1, len(smooth) // 20)
    peaks, _ = signal.find_peaks(smooth, prominence=0.3 * fall, distance=apart)
    tops = []
    for peak in peaks:
        near = slice(max(0, peak - apart), peak + apart)
        t = time_s[near] - time_s[peak]
        a, b, c = np.polyfit(t, reading_mm[near], 2)
        tops.append(c - b * b / (4 * a))
    return statistics.median(tops)


for readings in (1_000, 10_000, 100_000, 1_000_000, 10_000_000):
    time_s, reading_mm = trace(readings)
    high_spot(time_s, reading_mm)
    took_s = []
    while len(took_s) < 3 or sum(took_s) < 2:
        begin_s = time.perf_counter()
        high_spot(time_s, reading_mm)
        took_s.append(time.perf_counter() - begin_s)
    best_s = statistics.median(took_s)
    print(f"{readings:>9} readings: {1e3 * best_s:10.2f} ms, {1e-6 * readings / best_s:6.2f} million a second")
