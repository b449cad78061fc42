"""JSCE 1997 recommendation for continuous fibre reinforcement, basic development length, recomputed. N, mm, MPa.
"""
import json
from math import pi

CASES = []


def add(id_, code, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": code, "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


def common(p):
    gc = p["partial_factor_concrete"]
    raw = 0.28 * p["bond_ratio_alpha2"] * p["concrete_strength_MPa"] ** (2.0 / 3.0) / gc
    fb = min(raw, 3.2)                                             # the limit is put on the final value
    kc = p["kc_cover_mm"] / p["bar_diameter_mm"]
    if p.get("transverse_area_mm2"):
        kc += 15.0 * p["transverse_area_mm2"] / (p["transverse_spacing_mm"] * p["bar_diameter_mm"]) * p["transverse_modulus_GPa"] / 200.0
    for lim, a in ((1.0, 1.0), (1.5, 0.9), (2.0, 0.8), (2.5, 0.7)):
        if kc <= lim:
            a1 = a
            break
    else:
        a1 = 0.6
    return fb, a1, dict(fbod_uncapped_MPa=raw, fbod_MPa=fb, kc=kc, alpha1=a1)


def length(p):
    fb, a1, v = common(p)
    v["ld_mm"] = a1 * p["bar_stress_MPa"] / (4.0 * fb) * p["bar_diameter_mm"]
    return v


B = {"concrete_strength_basis": "cylinder_characteristic"}
p = dict(B, bar_material="glass FRP", bar_diameter_mm=16.0, bar_stress_MPa=420.0, concrete_strength_MPa=30.0, bond_ratio_alpha2=1.0, partial_factor_concrete=1.3, kc_cover_mm=28.0, level="design")
v = length(p)
add("J1", "jsce-1997", "basic development length", "Glass bar with no transverse reinforcement, design value.", p, v, {"length_mm": v["ld_mm"]})
p = dict(B, bar_material="carbon FRP", bar_diameter_mm=12.0, bar_stress_MPa=900.0, concrete_strength_MPa=40.0, bond_ratio_alpha2=0.8, partial_factor_concrete=1.3, kc_cover_mm=20.0,
         transverse_area_mm2=78.5, transverse_spacing_mm=150.0, transverse_modulus_GPa=120.0, level="design")
v = length(p)
add("J2", "jsce-1997", "basic development length", "Carbon bar with weaker bond and FRP stirrups of lower modulus, design value.", p, v, {"length_mm": v["ld_mm"]})
p = dict(B, bar_material="glass FRP", bar_diameter_mm=19.0, bar_stress_MPa=380.0, concrete_strength_MPa=66.0, bond_ratio_alpha2=1.0, partial_factor_concrete=1.3, kc_cover_mm=55.0, level="design")
v = length(p)
add("J3", "jsce-1997", "basic development length", "Strong concrete: the bond strength limit of 3.2 MPa governs.", p, v, {"length_mm": v["ld_mm"]})
p = dict(B, bar_material="glass FRP", bar_diameter_mm=16.0, bar_area_mm2=201.0, embedment_mm=320.0, concrete_strength_MPa=28.0, bond_ratio_alpha2=0.9, partial_factor_concrete=1.0, kc_cover_mm=36.0, level="nominal")
fb, a1, v = common(p)
v["bond_stress_MPa"] = fb / a1
v["force_N"] = v["bond_stress_MPa"] * pi * 16.0 * 320.0
add("J4", "jsce-1997", "basic development length, inverse", "Nominal bond force at a given embedment, without a partial factor.", p, v, {"force_N": v["force_N"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
