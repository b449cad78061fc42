"""EN 1992-1-1:2004 8.4 and EN 1992-1-1:2023 11.4.2, anchorage of bonded bars, recomputed. N, mm, MPa.
"""
import json
from math import sqrt, pi

CASES = []


def add(id_, code, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": code, "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


def fctm(fck):                                                     # 2004 Table 3.1, fck up to 50
    return 0.30 * fck ** (2.0 / 3.0)


def anchorage2004(p):
    fck, d = p["concrete_strength_MPa"], p["bar_diameter_mm"]
    fctk = 0.7 * fctm(fck)
    fctd = p.get("alpha_ct", 1.0) * fctk / p["partial_factor_concrete"]      # 3.1.6(2)
    e1 = 1.0 if p["good_bond"] else 0.7                                      # 8.4.2(2)
    e2 = 1.0 if d <= 32.0 else (132.0 - d) / 100.0
    fbd = 2.25 * e1 * e2 * fctd                                              # 8.2
    v = dict(fctm_MPa=fctm(fck), fctk_005_MPa=fctk, fctd_MPa=fctd, eta1=e1, eta2=e2, fbd_MPa=fbd)
    if "bar_stress_MPa" in p:
        v["lb_rqd_mm"] = d / 4.0 * p["bar_stress_MPa"] / fbd                 # 8.3
        if "cd_mm" in p:                                                     # 8.4.4, straight bar, alpha2 only
            a2 = min(1.0, max(0.7, 1.0 - 0.15 * (p["cd_mm"] - d) / d))
            v["alpha2"] = a2
            v["lb_min_mm"] = max(0.3 * v["lb_rqd_mm"], 10.0 * d, 100.0)      # 8.6
            v["lbd_mm"] = max(a2 * v["lb_rqd_mm"], v["lb_min_mm"])           # 8.4
    else:
        v["force_N"] = fbd * pi * d * p["embedment_mm"]
        v["stress_MPa"] = v["force_N"] / (pi * d * d / 4.0)
    return v


def anchorage2023(p):
    d, s = p["bar_diameter_mm"], p["bar_stress_MPa"]
    n = 1.0 if s <= 435.0 else 1.5
    t = dict(klb=p["klb"], kcp=p["kcp"], n_sigma=n, stress_term=(s / 435.0) ** n, strength_term=(25.0 / p["concrete_strength_MPa"]) ** 0.5,
             diameter_term=(d / 20.0) ** (1.0 / 3.0), cover_term=(1.5 * d / p["cd_mm"]) ** 0.5)
    l = p["klb"] * p["kcp"] * d * t["stress_term"] * t["strength_term"] * t["diameter_term"] * t["cover_term"]    # 11.3
    t.update(lbd_equation_mm=l, ten_diameters_mm=10.0 * d, lbd_mm=max(l, 10.0 * d))
    return t


B = {"concrete_strength_basis": "cylinder_characteristic"}
X, Y = "en1992-1-1-2004", "en1992-1-1-2023"
p = dict(B, bar_diameter_mm=20.0, bar_stress_MPa=390.0, concrete_strength_MPa=30.0, good_bond=False, partial_factor_concrete=1.5, level="design")
v = anchorage2004(p)
add("B1", X, "8.4.2, 8.4.3", "Required basic anchorage length in poor bond conditions.", p, v, {"length_mm": v["lb_rqd_mm"]})
p = dict(B, bar_diameter_mm=40.0, bar_stress_MPa=435.0, concrete_strength_MPa=45.0, good_bond=True, partial_factor_concrete=1.5, level="design")
v = anchorage2004(p)
add("B2", X, "8.4.2, 8.4.3", "Required basic anchorage length of a thick bar, eta2 below one.", p, v, {"length_mm": v["lb_rqd_mm"]})
p = dict(B, bar_diameter_mm=16.0, bar_stress_MPa=350.0, concrete_strength_MPa=25.0, good_bond=True, partial_factor_concrete=1.5, cd_mm=30.0, level="design")
v = anchorage2004(p)
add("B3", X, "8.4.4", "Design anchorage length of a straight bar with the cover factor alpha2 (alpha1 and alpha3 to alpha5 taken as one).", p, v, {"length_mm": v["lbd_mm"]})
p = dict(B, bar_diameter_mm=14.0, embedment_mm=320.0, concrete_strength_MPa=35.0, good_bond=True, partial_factor_concrete=1.0, level="nominal")
v = anchorage2004(p)
add("B4", X, "8.4.2 without a partial factor", "Force carried by bond at a given embedment at characteristic level.", p, v, {"force_N": v["force_N"]})
p = dict(B, bar_diameter_mm=16.0, bar_stress_MPa=400.0, concrete_strength_MPa=35.0, cd_mm=35.0, klb=50.0, kcp=1.0, level="design")
v = anchorage2023(p)
add("B5", Y, "11.4.2", "Anchorage length below 435 MPa, good bond.", p, v, {"length_mm": v["lbd_mm"]})
p = dict(B, bar_diameter_mm=25.0, bar_stress_MPa=500.0, concrete_strength_MPa=40.0, cd_mm=45.0, klb=50.0, kcp=1.2, level="design")
v = anchorage2023(p)
add("B6", Y, "11.4.2", "Anchorage length above 435 MPa in poor bond conditions.", p, v, {"length_mm": v["lbd_mm"]})
p = dict(B, bar_diameter_mm=14.0, bar_stress_MPa=95.0, concrete_strength_MPa=50.0, cd_mm=45.0, klb=50.0, kcp=1.0, level="design")
v = anchorage2023(p)
add("B7", Y, "11.4.2", "Low stress and good cover: ten diameters govern.", p, v, {"length_mm": v["lbd_mm"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
