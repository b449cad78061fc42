"""Interactions, bends, bond laws and lookups with an equation at seeded arguments. Run: python3 functions.py > functions.json"""
from math import pi, sqrt
import numpy as np
from specimens import written

rng = np.random.default_rng(17)
cases = []
SHARE = {"cast_in_concrete": 1.0, "undercut_concrete": 1.0, "expansion_screw_adhesive_concrete": 0.8, "adhesive_bond": 0.6}     # 17.2.4.1


def case(code, rule, call, arguments, value, holds=None):
    cases.append({"code": code, "rule": rule, "call": call, "arguments": arguments, "value": value, "holds": holds})


for k in range(20):
    n, v = (round(float(x), 3) for x in rng.uniform(0.05, 1.05, 2))
    straight = n if v <= 0.2 else v if n <= 0.2 else n + v
    case("aci318-19", "17.8", "trilinearInteraction", [n, v], straight, straight <= (1.2 if min(n, v) > 0.2 else 1.0))
    case("aci318-19", "R17.8", "powerInteraction", [n, v], n ** (5 / 3) + v ** (5 / 3), n ** (5 / 3) + v ** (5 / 3) <= 1)
    case("en1992-4-2018", "table-7.3-steel", "steelInteraction", [n, v], n * n + v * v, n * n + v * v <= 1)
    case("en1992-4-2018", "table-7.3-power", "concreteInteraction", [n, v], n ** 1.5 + v ** 1.5, n ** 1.5 + v ** 1.5 <= 1)
    case("en1992-4-2018", "table-7.3-straight", "concreteInteraction", [n, v, "straight"], n + v, n + v <= 1.2 and max(n, v) <= 1)
    kind, lam, light = list(SHARE)[k % 4], round(float(rng.uniform(0.75, 1.0)), 3), bool(k % 3)
    case("lookup", "anchor-lightweight", "anchorLightweightFactor", [kind, lam, light], SHARE[kind] * lam if light else 1.0)
    rod, threads = round(float(rng.uniform(9.0, 40.0)), 2), int(rng.integers(6, 18))
    case("lookup", "threaded-area", "threadedArea", [rod, threads], pi / 4 * (rod / 25.4 - 0.9743 / threads) ** 2 * 25.4 ** 2)
    r, f = round(float(rng.uniform(2, 18)), 2), round(float(rng.uniform(300, 1200)), 1)
    case("aci440.1r-15", "bend", "bendStrength", [r, f], min((0.05 * r + 0.3) * f, f))
    fcm, good, ribs, share = round(float(rng.uniform(15, 90)), 1), bool(rng.random() < 0.5), round(float(rng.uniform(4, 12)), 2), round(float(rng.uniform(0.05, 1.4)), 3)
    tau, s1, s2 = (2.5 if good else 1.25) * sqrt(fcm), 1.0 if good else 1.8, 2.0 if good else 3.6
    s = round(share * ribs, 3)
    law = tau * (s / s1) ** 0.4 if s <= s1 else tau if s <= s2 else 0.4 * tau if s >= ribs else tau - 0.6 * tau * (s - s2) / (ribs - s2)
    case("fib-mc2010", "local-law", "bondStress", [s, fcm, good, ribs], law)
    stress = min(share, 1.0) * tau
    case("fib-mc2010", "slip-at-splitting", "slipAtSplitting", [stress, fcm, good, ribs], s1 * (stress / tau) ** 2.5)
print(written(cases))
