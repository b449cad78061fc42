"""Design of one bar by ACI 318-19 chapter 17 and by ACI 440.1R-15, written from the clauses, and the split of the ratio.

Prints the numbers that compare-designs.test.ts expects. The split takes every order of the assumptions one by one.
"""
from itertools import permutations
from math import log, exp, pi, sqrt

d, f_u, f_c, edge, tau, tau_uncr = 15.9, 840.0, 30.0, 150.0, 7.0, 10.5
psi, lb, inch = 0.00689475729316836, 4.4482216152605, 25.4
C_E = 0.7
area = pi / 4 * d**2


def bond_318(h):
    c = 10 * d * sqrt(tau_uncr / psi / 1100)
    side = min(edge, c)
    return (side + c) / (2 * c) * min(1, 0.7 + 0.3 * side / c) * tau * pi * d * h


def cone_318(h):
    side = min(edge, 1.5 * h)
    edge_factor = min(1, 0.7 + 0.3 * side / (1.5 * h))
    return (side + 1.5 * h) / (3 * h) * edge_factor * 17 * sqrt(f_c / psi) * (h / inch) ** 1.5 * lb


def bond_440(h, short, cap, c_e):
    diameters = h / d
    used = max(diameters, 20) if short else diameters
    stress = sqrt(f_c / psi) * (13.6 * used + min(edge / d, 3.5) * used + 340) * psi
    return min(stress, c_e * f_u if cap else float("inf")) * diameters / used * area


def mixture(h, on):
    c_e = C_E if "environment" in on else 1
    bond = bond_440(h, "short_embedment" in on, "bar_cap" in on, c_e) if "bond_model" in on else bond_318(h)
    cone = float("inf") if "concrete" in on else cone_318(h)
    phi_bond, phi_bar = (1, 0.55) if "reduction" in on else (0.65, 0.65)
    return min(phi_bond * bond, 0.65 * cone, phi_bar * c_e * f_u * area)


ids = ["bond_model", "short_embedment", "bar_cap", "environment", "concrete", "reduction"]
for h in (160.0, 400.0):
    logs = dict.fromkeys(ids, 0.0)
    orders = list(permutations(ids))
    for order in orders:
        on = set()
        for one in order:
            before = mixture(h, on)
            on.add(one)
            logs[one] += log(mixture(h, on) / before) / len(orders)
    print(h, mixture(h, set()), mixture(h, set(ids)), mixture(h, set(ids)) / mixture(h, set()))
    print({one: exp(value) for one, value in logs.items()})

# The least embedment of 40 kN at the design level, both linear there, and where the curves cross beyond 20 diameters.
slope = 0.65 * bond_318(1.0)
print("40 kN", 40e3 / slope, 40e3 / (bond_440(160.0, True, True, C_E) / 160))
low, high = 320.0, 345.0
for _ in range(100):
    middle = (low + high) / 2
    low, high = (middle, high) if bond_440(middle, True, True, C_E) > slope * middle else (low, middle)
print("crossing", low)
# 10.3 for the stress C_E f_u: nominal development of the bar, and the embedment whose stress is 0.55 of it.
for share in (1, 0.55):
    print("develops", d * (share * C_E * f_u / psi / sqrt(f_c / psi) - 340) / (13.6 + 3.5))
print("develops 318", f_u * area / bond_318(1.0))
