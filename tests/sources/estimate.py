#!/usr/bin/env python3
"""The estimate, worked by NumPy and SciPy from the model that `tests/estimate.rs` writes out.

    python estimate.py MODEL            checks the program's figures; fails where one is off
    python estimate.py MODEL --speed HOME=MICROSECONDS …    how long NumPy takes for the same accuracy as the program in that time

Nothing of the program's arithmetic is here: a PERT is SciPy's Beta; sums are convolutions by Fourier transform on a grid of half a
pound; mixtures are sums of those; the simulation draws facts, times and prices one by one.
"""

import itertools
import json
import sys
import time

import numpy
import scipy
from scipy.stats import beta

STEP = 50.0  # pence a step of the grid
SEEDS = 20
JOBS = 2000

# What the program must reach, in shares of the width of the band.
QUANTILES = 0.005
DRIVERS = 0.01


def shapes(low, likely, high):
    """Malcolm, Roseboom, Clark and Fazar, Operations Research 7 (1959), as a Beta on low to high."""
    return 1.0 + 4.0 * (likely - low) / (high - low), 1.0 + 4.0 * (high - likely) / (high - low)


class Model:
    def __init__(self, path):
        with open(path, encoding="utf-8") as file:
            whole = json.load(file)
        self.lines, self.paces, self.homes = whole["lines"], whole["paces"], whole["homes"]
        self.a_minute = whole["hour"] / 60.0
        self.call_out = whole["call_out"]
        self.step, self.with_vat = whole["step"], 1.0 + whole["vat"]

    def spreads(self, home, item, quantity, pace):
        """The three-point estimates, in pence, that an item adds: labour and materials."""
        if item == "charge-point":
            return [(home["charge_point"] * quantity,) * 3]
        if item == "call-out":
            return [(self.call_out * quantity,) * 3]
        line = self.lines[item]
        return [
            tuple(minutes * self.a_minute * pace * quantity for minutes in line["minutes"]),
            tuple(pence * quantity for pence in line["pence"]),
        ]


class Grid:
    """Distributions as their Fourier transforms on one grid; adding costs is multiplying transforms."""

    def __init__(self, most):
        self.count = 1 << int(numpy.ceil(numpy.log2(most / STEP + 2)))
        self.edges = (numpy.arange(self.count + 1) - 0.5) * STEP
        self.known = {}

    def of(self, spread):
        if spread not in self.known:
            low, likely, high = spread
            mass = numpy.zeros(self.count)
            if high - low <= 0.0:
                # Parted between two steps, so that the mean is kept.
                at = likely / STEP
                before = int(at)
                mass[before], mass[before + 1] = 1.0 - (at - before), at - before
            else:
                # Each small stretch of the Beta lies at its own mean; parted likewise.
                a, b = shapes(low, likely, high)
                cells = numpy.linspace(0.0, 1.0, 2 + int(8 * (high - low) / STEP))
                share = numpy.diff(beta.cdf(cells, a, b))
                middle = (low + (high - low) * 0.5 * (cells[1:] + cells[:-1])) / STEP
                before = middle.astype(int)
                numpy.add.at(mass, before, share * (1.0 - (middle - before)))
                numpy.add.at(mass, before + 1, share * (middle - before))
            self.known[spread] = numpy.fft.rfft(mass)
        return self.known[spread]

    def back(self, transform):
        return numpy.fft.irfft(transform, self.count)

    def quantile(self, mass, probability):
        """Mass at a point stands for the step around it."""
        reached = numpy.cumsum(mass)
        at = int(numpy.searchsorted(reached, probability))
        before = reached[at - 1] if at else 0.0
        return self.edges[at] + STEP * (probability - before) / (reached[at] - before)


def exact(model, home):
    """Quantiles and mean of the whole, and of every fact the band at each of its values and the share of variance it explains."""
    slowest = max(pace for _, pace in model.paces)
    most = 0.0
    for part in [home["always"]] + [
        max((case["items"] for case in group["cases"]), key=lambda items: sum_of(model, home, items, slowest))
        for group in home["groups"]
    ]:
        most += sum_of(model, home, part, slowest)
    grid = Grid(most + 1000.0 * STEP)

    def together(items, pace):
        product = 1.0
        for item, quantity in items:
            for spread in model.spreads(home, item, quantity, pace):
                if spread[2] > 0.0:
                    product = product * grid.of(spread)
        return product

    always = [together(home["always"], pace) for _, pace in model.paces]
    groups = [
        [[together(case["items"], pace) for _, pace in model.paces] for case in group["cases"]]
        for group in home["groups"]
    ]

    def mixed(group, weights, place):
        return sum(weight * case[place] for weight, case in zip(weights, group) if weight > 0.0)

    unknown = [[case["weight"] for case in group["cases"]] for group in home["groups"]]
    now = [[mixed(group, weights, place) for place in range(len(model.paces))] for group, weights in zip(groups, unknown)]

    def whole(changed, with_group):
        mass = 0.0
        for place, (weight, _) in enumerate(model.paces):
            product = always[place]
            for at, group in enumerate(now):
                product = product * (with_group[place] if at == changed else group[place])
            mass = mass + weight * product
        return grid.back(mass)

    def told(mass):
        cost = numpy.arange(grid.count) * STEP
        mean = float((mass * cost).sum())
        return mean, float((mass * (cost - mean) ** 2).sum()), [grid.quantile(mass, p) for p in (0.1, 0.5, 0.9)]

    mean, variance, quantiles = told(whole(None, None))
    drivers = {}
    for at, group in enumerate(home["groups"]):
        for driver in home["drivers"]:
            fact = driver["fact"]
            if not any(fact in case["facts"] for case in group["cases"]):
                continue
            bands, left = [], 0.0
            for value, weight in enumerate(driver["weights"]):
                weights = []
                for case in group["cases"]:
                    if fact not in case["facts"]:
                        weights.append(case["weight"])
                    else:
                        weights.append(case["weight"] / weight if case["facts"][fact] == value else 0.0)
                known = [mixed(groups[at], weights, place) for place in range(len(model.paces))]
                _, conditional, (low, _, high) = told(whole(at, known))
                bands.append((low, high))
                left += weight * conditional
            width = sum(weight * (high - low) for weight, (low, high) in zip(driver["weights"], bands))
            drivers[fact] = (quantiles[2] - quantiles[0] - width, 1.0 - left / variance, bands)
    return mean, quantiles, drivers


def sum_of(model, home, items, pace):
    return sum(spread[2] for item, quantity in items for spread in model.spreads(home, item, quantity, pace))


def draws(model, home, count, chance):
    """What so many jobs of a home cost: everything drawn for itself."""
    weights, paces = zip(*model.paces)
    pace = chance.choice(paces, size=count, p=weights)
    total = numpy.zeros(count)

    def add(items, jobs):
        for item, quantity in items:
            if item in ("charge-point", "call-out"):
                total[jobs] += model.spreads(home, item, quantity, 1.0)[0][0]
                continue
            labour, materials = model.spreads(home, item, quantity, 1.0)
            for (low, likely, high), factor in ((labour, pace[jobs]), (materials, 1.0)):
                if high - low <= 0.0:
                    total[jobs] += likely * factor
                else:
                    a, b = shapes(low, likely, high)
                    total[jobs] += (low + (high - low) * chance.beta(a, b, size=len(jobs))) * factor

    add(home["always"], numpy.arange(count))
    cases = []
    for group in home["groups"]:
        weights = numpy.array([case["weight"] for case in group["cases"]])
        drawn = chance.choice(len(weights), size=count, p=weights / weights.sum())
        cases.append(drawn)
        for case in numpy.unique(drawn):
            add(group["cases"][case]["items"], numpy.flatnonzero(drawn == case))
    return total, cases


def coverage(model):
    """The share of jobs inside their bands, by seed: each job of another home, as its price comes out. Then the same for the bands
    as they are shown: with VAT, rounded outwards to the step."""
    shares, shown = [], []
    for seed in range(SEEDS):
        chance = numpy.random.default_rng(seed)
        inside = inside_shown = 0
        for home, jobs in zip(itertools.cycle(model.homes), spread_over(JOBS, len(model.homes))):
            total, _ = draws(model, home, jobs, chance)
            low, _, high = home["quantiles"]
            inside += int(((low < total) & (total <= high)).sum())
            low = numpy.floor(low * model.with_vat / model.step) * model.step
            high = numpy.ceil(high * model.with_vat / model.step) * model.step
            inside_shown += int(((low < total * model.with_vat) & (total * model.with_vat <= high)).sum())
        shares.append(inside / JOBS)
        shown.append(inside_shown / JOBS)
    return shares, shown


def spread_over(jobs, homes):
    return [jobs // homes + (1 if at < jobs % homes else 0) for at in range(homes)]


def check(model):
    faults = []
    worst = {"quantile": 0.0, "driver": 0.0, "explains": 0.0, "mean": 0.0}
    for home in model.homes[:EXACT]:
        mean, quantiles, drivers = exact(model, home)
        width = quantiles[2] - quantiles[0]
        for name, ours, theirs in zip(("10 %", "50 %", "90 %"), home["quantiles"], quantiles):
            off = abs(ours - theirs) / width
            worst["quantile"] = max(worst["quantile"], off)
            if off > QUANTILES:
                faults.append(f"{home['name']}: {name} {ours:.0f}p, SciPy {theirs:.0f}p, {off:.2%} of the width")
        worst["mean"] = max(worst["mean"], abs(home["mean"] - mean) / mean)
        if abs(home["mean"] - mean) > 1e-4 * mean:
            faults.append(f"{home['name']}: mean {home['mean']}, SciPy {mean}")
        for driver in home["drivers"]:
            narrows, explains, bands = drivers[driver["fact"]]
            off = abs(driver["by"] - narrows) / width
            worst["driver"] = max(worst["driver"], off)
            if off > DRIVERS:
                faults.append(f"{home['name']}: {driver['fact']} narrows by {driver['by']}p, SciPy {narrows:.0f}p")
            worst["explains"] = max(worst["explains"], abs(driver["explains"] - explains))
            if abs(driver["explains"] - explains) > 0.01:
                faults.append(f"{home['name']}: {driver['fact']} explains {driver['explains']}, SciPy {explains:.3f}")
            for ours, theirs in zip(driver["bands"], bands):
                for one, other in zip(ours, theirs):
                    if abs(one - other) > 2.0 * DRIVERS * width:
                        faults.append(f"{home['name']}: {driver['fact']} band {ours}, SciPy {theirs}")
    shares, shown = coverage(model)
    mean = sum(shares) / len(shares)
    if abs(mean - 0.8) > 0.02:
        faults.append(f"{mean:.1%} of jobs inside the band")
    if EXACT > len(model.homes) or not any(home["drivers"] for home in model.homes[:EXACT]):
        faults.append("the model has too few homes, or none with an unsure fact")
    print(f"NumPy {numpy.__version__}, SciPy {scipy.__version__}; {EXACT} homes exactly, {len(model.homes)} drawn")
    print("worst, in shares of the band's width:", {name: f"{value:.3%}" for name, value in worst.items()})
    print(f"{JOBS} jobs, {SEEDS} seeds: {mean:.2%} inside the band ({min(shares):.1%} to {max(shares):.1%})")
    print(f"as it is shown, rounded outwards: {sum(shown) / len(shown):.2%}")
    return faults


def band_and_drivers(model, home, count, chance):
    """What an estimate by drawing takes: the band, then every fact's expected narrowing by the same draws."""
    total, cases = draws(model, home, count, chance)
    low, high = numpy.quantile(total, (0.1, 0.9))
    worth = {}
    for driver in home["drivers"]:
        for group, drawn in zip(home["groups"], cases):
            values = numpy.array([case["facts"].get(driver["fact"], -1) for case in group["cases"]])
            if (values < 0).all():
                continue
            known = values[drawn]
            width = 0.0
            for value, weight in enumerate(driver["weights"]):
                ends = numpy.quantile(total[(known == value) | (known < 0)], (0.1, 0.9))
                width += weight * (ends[1] - ends[0])
            worth[driver["fact"]] = high - low - width
    return (low, high), worth


def speed(model, name, mine):
    """How long NumPy takes on one thread for draws that are as exact as the program; `mine` is the program's time in microseconds."""
    home = next(home for home in model.homes if home["name"] == name)
    most = 10_000_000
    parts = [draws(model, home, most // 20, numpy.random.default_rng(1_000 + part))[0] for part in range(20)]
    truth = numpy.quantile(numpy.concatenate(parts), (0.1, 0.9))

    def off(ends):
        return float(((numpy.array(ends) - truth) ** 2).mean())

    ours = off([home["quantiles"][0], home["quantiles"][2]])
    tried = 4_000
    squares = [
        off(numpy.quantile(draws(model, home, tried, numpy.random.default_rng(seed))[0], (0.1, 0.9))) for seed in range(50)
    ]
    count = min(int(tried * sum(squares) / 50.0 / ours), most // 5)
    took = []
    for seed in range(5):
        begun = time.perf_counter()
        band_and_drivers(model, home, count, numpy.random.default_rng(seed))
        took.append((time.perf_counter() - begun) * 1e6)
    median = sorted(took)[2]
    print(f"{name}: ours is off by {ours ** 0.5:.0f}p (RMS of 10 % and 90 %, against {most} draws); so are {count} draws")
    print(f"NumPy {median / 1e3:.0f} ms for band and drivers, ours {mine / 1e3:.2f} ms: {median / mine:.0f} times")


# Homes worked exactly; all are drawn from.
EXACT = 43


def main():
    model = Model(sys.argv[1])
    if sys.argv[2:3] == ["--speed"]:
        for pair in sys.argv[3:]:
            name, mine = pair.split("=")
            speed(model, name, float(mine))
        return 0
    faults = check(model)
    for fault in faults:
        print(fault, file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
