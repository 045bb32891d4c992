#!/usr/bin/env python3
"""Voltage drop and fault current on two buses, worked by pandapower, a general-purpose solver of electrical networks.

    python network_solver.py            prints the vectors as JSON
    python network_solver.py FILE       compares them with FILE; fails where one differs

A single-phase circuit is given to the solver as the balanced three-phase network of the same voltage to earth whose conductors
have the impedance of the single-phase circuit's loop: each of its phases is that circuit, and the solver needs no more.
Which cases are of the same model as the program's, and which are not, is said in network_solver.rs.
"""

import json
import math
import sys
import warnings

warnings.filterwarnings("ignore")

import numpy
import pandapower
import pandapower.shortcircuit

TO_EARTH = 230.0  # volts
BETWEEN_LINES = TO_EARTH * math.sqrt(3.0) / 1000.0  # kilovolts
C_MIN = 0.95

LENGTHS = [0.1, 5.0, 12.0, 20.0, 40.0, 60.0, 100.0]
# Loop resistance at working temperature, ohms a kilometre: mV/A/m as tabulated for flat twin-and-earth and for armoured cable.
DROPS = {"twin-and-earth": {6: 7.3, 10: 4.4, 16: 2.8}, "armoured": {6: 7.9, 10: 4.7, 16: 2.9}}
# r1 + r2 at 20 degrees, ohms a kilometre, of line and protective conductor.
LOOPS = {(6, 2.5): 10.49, (10, 4): 6.44, (16, 6): 4.23, (10, 10): 3.66, (25, 16): 1.877}
CURRENTS = [16.0, 32.0]
EXTERNAL = [0.35, 0.8]


def two_buses(length, r, x):
    net = pandapower.create_empty_network(f_hz=50)
    start = pandapower.create_bus(net, BETWEEN_LINES)
    end = pandapower.create_bus(net, BETWEEN_LINES)
    pandapower.create_line_from_parameters(
        net, start, end, length / 1000.0, r_ohm_per_km=r, x_ohm_per_km=x, c_nf_per_km=0.0, max_i_ka=1.0
    )
    return net, start, end


def drop(length, r, x, current, constant):
    """Volts dropped to earth with a load of unity power factor: of constant current, or of constant power."""
    net, start, end = two_buses(length, r, x)
    pandapower.create_ext_grid(net, start, vm_pu=1.0)
    share = 100 if constant == "current" else 0
    power = 3.0 * TO_EARTH * current / 1e6
    pandapower.create_load(net, end, p_mw=power, q_mvar=0.0, const_i_p_percent=share, const_i_q_percent=share)
    pandapower.runpp(net, init="flat", tolerance_mva=1e-12, max_iteration=100, numba=False)
    volts = TO_EARTH * (1.0 - net.res_bus.vm_pu[end])
    return volts, net.res_line.i_from_ka[0] * 1000.0


def fault(length, r, external):
    """Amperes of the least fault to earth at the far end, the conductors at 70 degrees."""
    net, start, end = two_buses(length, r, 0.0)
    short_circuit_power = C_MIN * BETWEEN_LINES**2 / external  # MVA of a source with that impedance
    pandapower.create_ext_grid(net, start, s_sc_min_mva=short_circuit_power, rx_min=1e6)
    net.line["endtemp_degree"] = 70.0
    pandapower.shortcircuit.calc_sc(net, fault="3ph", case="min", lv_tol_percent=6, bus=end)
    return net.res_bus_sc.ikss_ka[end] * 1000.0


def vectors():
    drops = [
        {"cable": cable, "size": size, "length": length, "current": current, "volts": drop(length, r, 0.0, current, "current")[0]}
        for cable, sizes in DROPS.items()
        for size, r in sizes.items()
        for length in LENGTHS
        for current in CURRENTS
    ]
    faults = [
        {"line": line, "protective": protective, "length": length, "external": external, "amps": fault(length, r, external)}
        for (line, protective), r in LOOPS.items()
        for length in LENGTHS
        for external in EXTERNAL
    ]
    # 25 mm2 armoured: r 1.85 and x 0.160 ohms a kilometre, tabulated as z 1.90.
    with_reactance = [
        {"size": 25, "length": length, "current": 32.0, "volts": drop(length, 1.85, 0.160, 32.0, "current")[0]}
        for length in LENGTHS
    ]
    constant_power = []
    for length in LENGTHS:
        volts, amps = drop(length, 7.3, 0.0, 32.0, "power")
        constant_power.append({"size": 6, "length": length, "current": 32.0, "volts": volts, "amps": amps})
    return {
        "made_with": {"pandapower": pandapower.__version__, "numpy": numpy.__version__},
        "drops": drops,
        "faults": faults,
        "with_reactance": with_reactance,
        "constant_power": constant_power,
    }


def differences(ours, kept, path=""):
    """Where two trees of numbers differ by more than a solver's rounding."""
    if isinstance(kept, dict):
        if not isinstance(ours, dict) or ours.keys() != kept.keys():
            return [path + ": other keys"]
        return [line for key in kept for line in differences(ours[key], kept[key], f"{path}.{key}")]
    if isinstance(kept, list):
        if len(ours) != len(kept):
            return [path + ": another length"]
        return [line for at, one in enumerate(kept) for line in differences(ours[at], one, f"{path}[{at}]")]
    if isinstance(kept, float):
        return [] if math.isclose(ours, kept, rel_tol=1e-7, abs_tol=1e-9) else [f"{path}: {ours} is not {kept}"]
    return [] if ours == kept else [f"{path}: {ours!r} is not {kept!r}"]


def main():
    made = json.loads(json.dumps(vectors()))
    if len(sys.argv) == 1:
        print(json.dumps(made, indent=1))
        return
    with open(sys.argv[1], encoding="utf-8") as file:
        kept = json.load(file)
    found = differences(made, kept)
    for line in found:
        print(line, file=sys.stderr)
    print(f"{len(made['drops']) + len(made['faults'])} vectors made again by pandapower {pandapower.__version__}")
    sys.exit(1 if found else 0)


if __name__ == "__main__":
    main()
