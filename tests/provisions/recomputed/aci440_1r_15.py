"""ACI 440.1R-15, Chapter 10 (bond and development), recomputed in the inch-pound form.

Inputs are SI, converted exactly at entry. The SI form with 0.083 is kept beside each result.
"""
import json
from math import sqrt, pi

MM = 25.4                      # mm per in.
LBF = 4.4482216152605          # N per lbf
PSI = 6894.757293168e-6        # MPa per psi
CASES = []


def add(id_, code, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": code, "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


def common(p):
    d, fc = p["bar_diameter_mm"] / MM, p["concrete_strength_MPa"] / PSI
    C = p["cover_mm"] + p["bar_diameter_mm"] / 2.0                 # 10.1: centre of bar to surface
    if p.get("centre_spacing_mm") is not None:
        C = min(C, p["centre_spacing_mm"] / 2.0)                   # or half the centre spacing
    raw = C / MM / d
    alpha = 1.5 if p["concrete_below_bar_mm"] / MM > 12.0 else 1.0 # 10.1 bar location
    ffu = p["guaranteed_strength_MPa"] * p["environmental_factor"] # 6.2
    return d, fc, min(raw, 3.5), alpha, ffu, dict(db_in=d, fc_psi=fc, C_mm=C, C_over_db_raw=raw, C_over_db=min(raw, 3.5), alpha=alpha, ffu_MPa=ffu)


def stress(p):
    d, fc, r, alpha, ffu, v = common(p)
    q = p["embedment_mm"] / MM / d
    raw = sqrt(fc) / alpha * (13.6 * q + r * q + 340.0)            # 10.1, developable stress
    v.update(le_over_db=q, twenty_db_met=q >= 20.0, ffe_uncapped_MPa=raw * PSI,
             ffe_uncapped_SI_form_MPa=0.083 * sqrt(p["concrete_strength_MPa"]) / alpha * (13.6 * q + r * q + 340.0),
             ffe_MPa=min(raw * PSI, ffu))
    v["force_at_nominal_area_N"] = v["ffe_MPa"] * p["bar_area_mm2"]
    return v


def length(p):
    d, fc, r, alpha, ffu, v = common(p)
    f = min(ffu, p["required_stress_MPa"]) if p.get("required_stress_MPa") is not None else ffu
    raw = (alpha * (f / PSI) / sqrt(fc) - 340.0) / (13.6 + r) * d  # 10.3
    si = (alpha * f / (0.083 * sqrt(p["concrete_strength_MPa"])) - 340.0) / (13.6 + r) * p["bar_diameter_mm"]
    v.update(ffr_MPa=f, ld_mm=raw * MM, ld_SI_form_mm=si, twenty_db_mm=20.0 * p["bar_diameter_mm"], limit_below_20db=raw < 20.0 * d)
    return v


B = {"concrete_strength_basis": "cylinder_specified", "bar_material": "glass FRP"}
p = dict(B, bar_diameter_mm=15.9, bar_area_mm2=199.0, guaranteed_strength_MPa=653.0, environmental_factor=0.8, concrete_strength_MPa=35.0, cover_mm=38.0,
         centre_spacing_mm=None, concrete_below_bar_mm=120.0, embedment_mm=400.0, level="design")
v = stress(p)
add("G1", "aci440.1r-15", "440.1R-15 10.1", "Developable stress of a bottom GFRP bar, cover governs.", p, v, {"stress_MPa": v["ffe_MPa"]})
p = dict(B, bar_diameter_mm=12.7, bar_area_mm2=129.0, guaranteed_strength_MPa=745.0, environmental_factor=0.7, concrete_strength_MPa=28.0, cover_mm=60.0,
         centre_spacing_mm=70.0, concrete_below_bar_mm=450.0, embedment_mm=330.0, level="design")
v = stress(p)
add("G2", "aci440.1r-15", "440.1R-15 10.1", "Developable stress of a top GFRP bar in exterior exposure, half spacing governs C.", p, v, {"stress_MPa": v["ffe_MPa"]})
p = dict(B, bar_diameter_mm=9.5, bar_area_mm2=71.0, guaranteed_strength_MPa=827.0, environmental_factor=0.7, concrete_strength_MPa=45.0, cover_mm=50.0,
         centre_spacing_mm=None, concrete_below_bar_mm=100.0, embedment_mm=430.0, level="design")
v = stress(p)
add("G3", "aci440.1r-15", "440.1R-15 10.1", "Developable stress limited by the bar strength, C/db limited to 3.5.", p, v, {"stress_MPa": v["ffe_MPa"]})
p = dict(B, bar_diameter_mm=19.1, bar_area_mm2=284.0, guaranteed_strength_MPa=641.0, environmental_factor=0.8, concrete_strength_MPa=40.0, cover_mm=40.0,
         centre_spacing_mm=150.0, concrete_below_bar_mm=350.0, required_stress_MPa=430.0, level="design")
v = length(p)
add("G4", "aci440.1r-15", "440.1R-15 10.3", "Development length of a top GFRP bar for a stress below its strength.", p, v, {"length_mm": v["ld_mm"]})
p = dict(B, bar_material="carbon FRP", bar_diameter_mm=12.7, bar_area_mm2=129.0, guaranteed_strength_MPa=1600.0, environmental_factor=0.9, concrete_strength_MPa=50.0, cover_mm=30.0,
         centre_spacing_mm=None, concrete_below_bar_mm=80.0, level="design")
v = length(p)
add("G5", "aci440.1r-15", "440.1R-15 10.3", "Development length of a carbon FRP bar at its design strength, exterior exposure.", p, v, {"length_mm": v["ld_mm"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
