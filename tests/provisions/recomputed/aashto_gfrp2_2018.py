"""AASHTO GFRP-2 (2018), 2.9.7.4 development of straight GFRP bars, recomputed in ksi and in.

Inputs are SI, converted exactly at entry.
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


KSI = PSI * 1000.0


def length(p):
    d, fc = p["bar_diameter_mm"] / MM, p["concrete_strength_MPa"] / KSI
    alpha = 1.5 if p["concrete_below_bar_mm"] / MM > 12.0 else 1.0
    ffu = p["guaranteed_strength_MPa"] * p["environmental_factor"]
    f = min(ffu, p["required_stress_MPa"]) if p.get("required_stress_MPa") is not None else ffu
    C = p["cover_mm"] + p["bar_diameter_mm"] / 2.0
    if p.get("centre_spacing_mm") is not None:
        C = min(C, p["centre_spacing_mm"] / 2.0)
    raw = C / p["bar_diameter_mm"]
    r = min(raw, 3.5)
    a = d * (31.6 * alpha * (f / KSI) / sqrt(fc) - 340.0) / (13.6 + r)    # 2.9.7.4.1
    return dict(db_in=d, fc_ksi=fc, alpha=alpha, ffu_MPa=ffu, ffr_ksi=f / KSI, C_mm=C, C_over_db_raw=raw, C_over_db=r, equation_mm=a * MM,
                twenty_db_mm=20.0 * p["bar_diameter_mm"], ld_mm=max(a * MM, 20.0 * p["bar_diameter_mm"]))


B = {"concrete_strength_basis": "cylinder_specified", "bar_material": "glass FRP", "level": "design"}
p = dict(B, bar_diameter_mm=15.9, guaranteed_strength_MPa=647.0, environmental_factor=0.7, concrete_strength_MPa=31.0, cover_mm=38.0, centre_spacing_mm=None, concrete_below_bar_mm=140.0)
v = length(p)
add("H1", "aashto-gfrp2-2018", "2.9.7.4.1", "Development length of a bottom bar in exposed concrete.", p, v, {"length_mm": v["ld_mm"]})
p = dict(B, bar_diameter_mm=19.1, guaranteed_strength_MPa=641.0, environmental_factor=0.7, concrete_strength_MPa=38.0, cover_mm=50.0, centre_spacing_mm=90.0, concrete_below_bar_mm=600.0)
v = length(p)
add("H2", "aashto-gfrp2-2018", "2.9.7.4.1", "Development length of a top bar, half spacing governs C.", p, v, {"length_mm": v["ld_mm"]})
p = dict(B, bar_diameter_mm=12.7, guaranteed_strength_MPa=745.0, environmental_factor=0.8, concrete_strength_MPa=45.0, cover_mm=60.0, centre_spacing_mm=None, concrete_below_bar_mm=100.0, required_stress_MPa=310.0)
v = length(p)
add("H3", "aashto-gfrp2-2018", "2.9.7.4.1", "Reduced required stress with C/db limited to 3.5: 20 db governs.", p, v, {"length_mm": v["ld_mm"]})
p = dict(B, bar_diameter_mm=25.4, guaranteed_strength_MPa=583.0, environmental_factor=0.8, concrete_strength_MPa=28.0, cover_mm=32.0, centre_spacing_mm=None, concrete_below_bar_mm=200.0)
v = length(p)
add("H4", "aashto-gfrp2-2018", "2.9.7.4.1", "Large bar with small cover.", p, v, {"length_mm": v["ld_mm"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
