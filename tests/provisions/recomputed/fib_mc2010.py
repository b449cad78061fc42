"""fib Model Code 2010, 6.1 bond, recomputed. N, mm, MPa.
"""
import json
from math import sqrt, pi

CASES = []


def add(id_, code, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": code, "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


def eta4(fyk):
    return {400: 1.2, 500: 1.0, 600: 0.85, 700: 0.75, 800: 0.68}[fyk]


def basic(p):
    e1 = {"ribbed": 1.75, "epoxy_coated": 1.4, "plain": 0.9}[p["surface"]]
    e2 = 1.0 if p["good_bond"] else 0.7
    e3 = 1.0 if p["bar_diameter_mm"] <= 25.0 else (25.0 / p["bar_diameter_mm"]) ** 0.3
    e4 = eta4(p["bar_yield_strength_MPa"])
    f = e1 * e2 * e3 * e4 * sqrt(p["concrete_strength_MPa"] / 25.0) / p["partial_factor_bond"]   # 6.1-20
    return dict(eta1=e1, eta2=e2, eta3=e3, eta4=e4, fbd0_MPa=f, force_at_embedment_N=f * pi * p["bar_diameter_mm"] * p["embedment_mm"])


def split(p, exponent):
    d, fcm = p["bar_diameter_mm"], p["concrete_mean_strength_MPa"]
    cm, cx = p["cmin_mm"], p["cmax_mm"]
    return fcm, d, (cm / d) ** exponent * (cx / cm) ** 0.1 + p["km"] * min(p["Ktr"], 0.05)


B = {"concrete_strength_basis": "cylinder_characteristic"}
p = dict(B, quantity="basic_bond_strength", surface="ribbed", good_bond=True, bar_diameter_mm=28.0, bar_yield_strength_MPa=500, concrete_strength_MPa=35.0, partial_factor_bond=1.5, embedment_mm=600.0, level="design")
v = basic(p)
add("F1", "fib-mc2010", "6.1.3.2, Eq. 6.1-20", "Design basic bond strength of a thick ribbed bar in good bond conditions.", p, v, {"stress_MPa": v["fbd0_MPa"]})
p = dict(B, quantity="basic_bond_strength", surface="epoxy_coated", good_bond=False, bar_diameter_mm=20.0, bar_yield_strength_MPa=600, concrete_strength_MPa=28.0, partial_factor_bond=1.5, embedment_mm=450.0, level="design")
v = basic(p)
add("F2", "fib-mc2010", "6.1.3.2, Eq. 6.1-20", "Design basic bond strength of an epoxy-coated bar of higher grade in other bond conditions.", p, v, {"stress_MPa": v["fbd0_MPa"]})

M = {"concrete_strength_basis": "cylinder_mean", "level": "mean"}
p = dict(M, quantity="anchorage_mean_stress", bar_diameter_mm=16.0, embedment_mm=350.0, concrete_mean_strength_MPa=38.0, cmin_mm=30.0, cmax_mm=55.0, km=12.0, Ktr=0.012)
fcm, d, br = split(p, 0.25)
a, b, c = (fcm / 25.0) ** 0.25, (350.0 / d) ** 0.55, (25.0 / d) ** 0.2
f = 54.0 * a * b * c * br                                          # 6.1-19
v = dict(strength_term=a, length_term=b, diameter_term=c, bracket=br, fstm_MPa=f, force_N=f * pi * d * d / 4.0, mean_bond_stress_MPa=f * d / (4.0 * 350.0))
add("F3", "fib-mc2010", "6.1.3.2, Eq. 6.1-19", "Mean stress developed by a ribbed bar with cover and stirrups.", p, v, {"stress_MPa": f})
p = dict(M, quantity="anchorage_mean_stress", bar_diameter_mm=25.0, embedment_mm=620.0, concrete_mean_strength_MPa=52.0, cmin_mm=45.0, cmax_mm=140.0, km=0.0, Ktr=0.0)
fcm, d, br = split(p, 0.25)
a, b, c = (fcm / 25.0) ** 0.25, (620.0 / d) ** 0.55, (25.0 / d) ** 0.2
f = 54.0 * a * b * c * br
v = dict(strength_term=a, length_term=b, diameter_term=c, bracket=br, fstm_MPa=f, force_N=f * pi * d * d / 4.0, mean_bond_stress_MPa=f * d / (4.0 * 620.0))
add("F4", "fib-mc2010", "6.1.3.2, Eq. 6.1-19", "Mean stress developed by a thick bar in strong concrete without stirrups.", p, v, {"stress_MPa": f})
p = dict(M, quantity="splitting_bond_stress", bar_diameter_mm=20.0, good_bond=False, concrete_mean_strength_MPa=33.0, cmin_mm=32.0, cmax_mm=60.0, km=6.0, Ktr=0.02)
fcm, d, br = split(p, 0.33)
e2 = 0.7
a, c = (fcm / 25.0) ** 0.25, (25.0 / d) ** 0.2
f = e2 * 6.5 * a * c * br                                          # 6.1-5
tmax = 1.25 * sqrt(fcm)                                            # Table 6.1-1, other bond conditions
s = 1.8 * (f / tmax) ** (1.0 / 0.4)
v = dict(eta2=e2, strength_term=a, diameter_term=c, bracket=br, tau_split_MPa=f, tau_bmax_MPa=tmax, splitting_governs=f < tmax, slip_at_splitting_mm=s)
add("F5", "fib-mc2010", "6.1.1.2, Eq. 6.1-5", "Splitting bond stress of the local law in other bond conditions, with stirrups.", p, v, {"stress_MPa": f})
p = dict(M, quantity="local_bond_stress", bar_diameter_mm=16.0, good_bond=True, concrete_mean_strength_MPa=38.0, slip_mm=0.35)
tmax = 2.5 * sqrt(38.0)
t = tmax * (0.35 / 1.0) ** 0.4                                     # 6.1-1
add("F6", "fib-mc2010", "6.1.1.1, Table 6.1-1", "Local bond stress on the ascending branch, pull-out, good bond conditions.", p, dict(tau_bmax_MPa=tmax, s1_mm=1.0, alpha=0.4, tau_MPa=t), {"stress_MPa": t})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
