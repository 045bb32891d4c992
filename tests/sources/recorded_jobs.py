#!/usr/bin/env python3
"""Intervals of a counted share, a Beta after counting, and a regression with a prior, worked by SciPy and NumPy.

    python recorded_jobs.py            prints the vectors as JSON
    python recorded_jobs.py FILE       compares them with FILE; fails where one differs
"""

import json
import math
import sys

import numpy
import scipy
import scipy.stats

ASSUMED_HOMES = 20.0


def interval(hits, tries, confidence):
    ends = scipy.stats.binomtest(hits, tries).proportion_ci(confidence_level=confidence, method="exact")
    return {"hits": hits, "tries": tries, "confidence": confidence, "low": float(ends.low), "high": float(ends.high)}


def counted(assumed, hits, tries):
    beta = scipy.stats.beta(assumed * ASSUMED_HOMES + hits, (1.0 - assumed) * ASSUMED_HOMES + tries - hits)
    return {
        "assumed": assumed,
        "hits": hits,
        "tries": tries,
        "mean": float(beta.mean()),
        "low": float(beta.ppf(0.1)),
        "high": float(beta.ppf(0.9)),
    }


def regression(rows, size, seed):
    """A weighted least-squares problem with the prior put in as rows of its own, by QR rather than by normal equations."""
    chance = numpy.random.default_rng(seed)
    of = chance.normal(size=(rows, size)).round(3)
    seen = chance.normal(size=rows).round(3)
    spread = (0.1 + chance.random(rows)).round(3)
    priors = (0.1 + chance.random(size)).round(3)
    stacked = numpy.vstack([of / spread[:, None], numpy.diag(1.0 / priors)])
    target = numpy.concatenate([seen / spread, numpy.zeros(size)])
    means = numpy.linalg.lstsq(stacked, target, rcond=None)[0]
    covariance = numpy.linalg.inv(stacked.T @ stacked)
    return {
        "of": of.tolist(),
        "seen": seen.tolist(),
        "spread": spread.tolist(),
        "priors": priors.tolist(),
        "means": means.tolist(),
        "deviations": numpy.sqrt(numpy.diag(covariance)).tolist(),
        "deviation_of_sum": float(math.sqrt(covariance.sum())),
    }


def vectors():
    counts = [(0, 1), (1, 1), (0, 10), (3, 10), (8, 10), (10, 10), (24, 30), (30, 30), (48, 60), (40, 60), (160, 200), (1, 500)]
    return {
        "made_with": {"scipy": scipy.__version__, "numpy": numpy.__version__},
        "intervals": [interval(hits, tries, confidence) for hits, tries in counts for confidence in (0.8, 0.95)],
        "counted": [
            counted(assumed, hits, tries)
            for assumed in (0.02, 0.3, 0.85)
            for hits, tries in ((0, 0), (0, 5), (3, 5), (5, 5), (40, 60))
        ],
        "regressions": [regression(1, 1, 1), regression(3, 5, 2), regression(20, 4, 3), regression(60, 12, 4)],
    }


def differences(ours, kept, path=""):
    """Where two trees of numbers differ by more than rounding."""
    if isinstance(kept, dict):
        if not isinstance(ours, dict) or ours.keys() != kept.keys():
            return [path + ": other keys"]
        return [line for key in kept for line in differences(ours[key], kept[key], f"{path}.{key}")]
    if isinstance(kept, list):
        if len(ours) != len(kept):
            return [path + ": another length"]
        return [line for at, one in enumerate(kept) for line in differences(ours[at], one, f"{path}[{at}]")]
    if isinstance(kept, float):
        return [] if math.isclose(ours, kept, rel_tol=1e-9, abs_tol=1e-12) else [f"{path}: {ours} is not {kept}"]
    return [] if ours == kept else [f"{path}: {ours!r} is not {kept!r}"]


def main():
    made = json.loads(json.dumps(vectors()))
    if len(sys.argv) == 1:
        print(json.dumps(made))
        return
    with open(sys.argv[1], encoding="utf-8") as file:
        kept = json.load(file)
    found = differences(made, kept)
    for line in found:
        print(line, file=sys.stderr)
    print(f"{len(made['intervals'])} intervals made again by SciPy {scipy.__version__}")
    sys.exit(1 if found else 0)


if __name__ == "__main__":
    main()
