"""CSA S806-12, 9.3 development of straight FRP bars, recomputed. N, mm, MPa.
"""
import json
from math import sqrt, pi

CASES = []


def add(id_, code, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": code, "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


def length(p):
    d, A = p["bar_diameter_mm"], p["bar_area_mm2"]
    dc = p["cover_mm"] + d / 2.0                                   # 9.3.2, centre to nearest surface
    if p.get("centre_spacing_mm") is not None:
        dc = min(dc, 2.0 / 3.0 * p["centre_spacing_mm"])           # two thirds of the centre spacing
    dcs = min(dc, 2.5 * d)
    root = min(sqrt(p["concrete_strength_MPa"]), 5.0)
    k1 = 1.3 if p["concrete_below_bar_mm"] > 300.0 else 1.0        # 9.3.3 location
    k2 = {"normal": 1.0, "semi_low_density": 1.2, "low_density": 1.3}[p["concrete_density"]]
    k3 = 0.8 if A <= 300.0 else 1.0
    k4 = {"glass": 1.0, "carbon": 1.0, "aramid": 1.25}[p["fibre"]]
    k5 = {"sand_coated": 1.0, "ribbed": 1.05, "indented": 1.8}[p["surface"]]
    k = k1 * k2 * k3 * k4 * k5
    ld = 1.15 * k / dcs * p["bar_stress_MPa"] / root * A           # 9.3.2
    return dict(dc_mm=dc, dcs_mm=dcs, sqrt_fc=root, k1=k1, k2=k2, k3=k3, k4=k4, k5=k5, k_product=k, ld_equation_mm=ld,
                below_300_mm=ld < 300.0, implied_bond_stress_MPa=dcs * root / (1.15 * k * pi * d))


B = {"concrete_strength_basis": "cylinder_specified", "level": "design"}
p = dict(B, fibre="glass", surface="sand_coated", bar_diameter_mm=15.9, bar_area_mm2=199.0, bar_stress_MPa=550.0, concrete_strength_MPa=22.0, cover_mm=25.0,
         centre_spacing_mm=120.0, concrete_below_bar_mm=100.0, concrete_density="normal")
v = length(p)
add("S1", "csa-s806-12", "9.3.2", "Sand-coated glass bar, bottom, small cover, root of strength below 5.", p, v, {"length_mm": v["ld_equation_mm"]})
p = dict(B, fibre="glass", surface="ribbed", bar_diameter_mm=22.2, bar_area_mm2=387.0, bar_stress_MPa=480.0, concrete_strength_MPa=45.0, cover_mm=70.0,
         centre_spacing_mm=75.0, concrete_below_bar_mm=420.0, concrete_density="normal")
v = length(p)
add("S2", "csa-s806-12", "9.3.2", "Ribbed glass top bar, two thirds of the spacing governs, root of strength limited to 5.", p, v, {"length_mm": v["ld_equation_mm"]})
p = dict(B, fibre="aramid", surface="indented", bar_diameter_mm=12.7, bar_area_mm2=129.0, bar_stress_MPa=700.0, concrete_strength_MPa=24.0, cover_mm=40.0,
         centre_spacing_mm=None, concrete_below_bar_mm=150.0, concrete_density="semi_low_density")
v = length(p)
add("S3", "csa-s806-12", "9.3.2", "Indented aramid bar in semi-low-density concrete, dcs limited to 2.5 db.", p, v, {"length_mm": v["ld_equation_mm"]})
p = dict(B, fibre="carbon", surface="sand_coated", bar_diameter_mm=9.5, bar_area_mm2=71.0, bar_stress_MPa=290.0, concrete_strength_MPa=40.0, cover_mm=25.0,
         centre_spacing_mm=None, concrete_below_bar_mm=350.0, concrete_density="low_density")
v = length(p)
add("S4", "csa-s806-12", "9.3.2", "Small carbon top bar in low-density concrete: the equation value is below 300 mm, reported uncut.", p, v, {"length_mm": v["ld_equation_mm"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
