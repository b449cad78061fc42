"""ACI CODE-440.11-22, development of straight GFRP bars in tension (25.4.2), recomputed in the inch-pound form.

Inputs are SI, converted exactly at entry. psi_t multiplies the bar stress only.
"""
import json
from math import sqrt

MM = 25.4                      # mm per in.
LBF = 4.4482216152605          # N per lbf
PSI = 6894.757293168e-6        # MPa per psi
CASES = []


def add(id_, code, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": code, "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


def length(p):
    d, fc = p["bar_diameter_mm"] / MM, p["concrete_strength_MPa"] / PSI
    root = min(sqrt(fc), 100.0)                                    # cap of 25.4.1.4 kind
    pt = 1.5 if p["concrete_below_bar_mm"] / MM > 12.0 else 1.0    # bar location factor
    ffu = 0.85 * p["guaranteed_strength_MPa"]                      # CE = 0.85
    f = min(ffu, p["required_stress_MPa"]) if p.get("required_stress_MPa") is not None else ffu
    raw = p["cb_mm"] / p["bar_diameter_mm"]
    r = min(raw, 3.5)
    a = d * (pt * (f / PSI) / root - 340.0) / (13.6 + r)           # 25.4.2.1(a)
    b, c = 20.0 * d, 12.0                                          # 25.4.2.1(b), (c)
    out = d * pt * ((f / PSI) / root - 340.0) / (13.6 + r)
    return dict(db_in=d, sqrt_fc_psi=root, psi_t=pt, ffu_MPa=ffu, ffr_MPa=f, cb_over_db_raw=raw, cb_over_db=r, equation_mm=a * MM,
                twenty_db_mm=b * MM, twelve_in_mm=c * MM, ld_mm=max(a, b, c) * MM, other_reading_psi_t_outside_mm=max(out, b, c) * MM)


B = {"concrete_strength_basis": "cylinder_specified", "bar_material": "glass FRP, D7957", "level": "design"}
p = dict(B, bar_diameter_mm=15.875, guaranteed_strength_MPa=647.0, concrete_strength_MPa=30.0, cb_mm=45.0, concrete_below_bar_mm=150.0)
v = length(p)
add("Q1", "aci440.11-22", "25.4.2.1", "Development length of a bottom bar at its design strength.", p, v, {"length_mm": v["ld_mm"]})
p = dict(B, bar_diameter_mm=19.05, guaranteed_strength_MPa=641.0, concrete_strength_MPa=38.0, cb_mm=75.0, concrete_below_bar_mm=400.0)
v = length(p)
add("Q2", "aci440.11-22", "25.4.2.1", "Development length of a top bar, cb/db limited to 3.5.", p, v, {"length_mm": v["ld_mm"]})
p = dict(B, bar_diameter_mm=12.7, guaranteed_strength_MPa=745.0, concrete_strength_MPa=55.0, cb_mm=40.0, concrete_below_bar_mm=120.0, required_stress_MPa=260.0)
v = length(p)
add("Q3", "aci440.11-22", "25.4.2.1(c)", "Low required stress: the smallest length of 12 in. governs over the equation and over 20 db.", p, v, {"length_mm": v["ld_mm"]})
p = dict(B, bar_diameter_mm=25.4, guaranteed_strength_MPa=583.0, concrete_strength_MPa=60.0, cb_mm=60.0, concrete_below_bar_mm=100.0, required_stress_MPa=330.0)
v = length(p)
add("Q4", "aci440.11-22", "25.4.2.1(b)", "Large bar, low stress: 20 db governs.", p, v, {"length_mm": v["ld_mm"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
