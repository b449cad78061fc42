"""Concrete capacity method of 1995, mean level, recomputed from the published equations.

ccd-1995 uses the inch-pound coefficients 35, 40, 13 with cylinder strength; ccd-1995-cube uses the SI coefficients
13.5, 15.5, 1.0 with 200 mm cube strength. Uncracked values; cracked is 0.7 times. No thickness factor in shear.
Axis 1 is normal to edges 1 and 3, axis 2 is normal to edges 2 and 4. A null edge is far away.
"""
import json
from math import sqrt, inf

MM = 25.4
LBF = 4.4482216152605
PSI = 6894.757293168e-6
CASES = []


def add(id_, code, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": code, "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


def geometry(p):
    e = [inf if p.get("edge_%d_mm" % k) is None else p["edge_%d_mm" % k] for k in (1, 2, 3, 4)]
    return (e, p.get("group_bars_along_axis_1", 1), p.get("group_bars_along_axis_2", 1),
            p.get("spacing_axis_1_mm", 0.0), p.get("spacing_axis_2_mm", 0.0))


def basic_tension(p, cube):
    h, f = p["embedment_mm"], p["concrete_strength_MPa"]
    head = p["fastener"] == "headed"
    if cube:
        return (15.5 if head else 13.5) * sqrt(f) * h ** 1.5       # basic tension, SI
    return (40.0 if head else 35.0) * sqrt(f / PSI) * (h / MM) ** 1.5 * LBF


def tension(p, cube):
    e, n1, n2, s1, s2 = geometry(p)
    r = 1.5 * p["embedment_mm"]
    L1 = min(e[0], r) + (n1 - 1) * s1 + min(e[2], r)
    L2 = min(e[1], r) + (n2 - 1) * s2 + min(e[3], r)
    A0 = (2.0 * r) ** 2
    A = min(L1 * L2, n1 * n2 * A0)
    p1 = 1.0
    for a in (1, 2):
        p1 /= 1.0 + p.get("eccentricity_axis_%d_mm" % a, 0.0) / r
    p2 = min(1.0, 0.7 + 0.3 * min(e) / r)
    N0 = basic_tension(p, cube)
    k = 0.7 if p["cracked"] else 1.0
    return dict(extent_axis_1_mm=L1, extent_axis_2_mm=L2, AN_mm2=A, AN0_mm2=A0, psi_eccentricity=p1, psi_edge=p2, N0_N=N0,
                cracked_factor=k, N_N=A / A0 * p1 * p2 * k * N0)


def shear(p, cube):
    e, _, n, _, s = geometry(p)
    c, t, d, f = e[0], p["member_thickness_mm"], p["bar_diameter_mm"], p["concrete_strength_MPa"]
    l = min(p["embedment_mm"], 8.0 * d)
    if cube:
        V0 = 1.0 * (l / d) ** 0.2 * sqrt(d) * sqrt(f) * c ** 1.5
    else:
        V0 = 13.0 * (l / d) ** 0.2 * sqrt(d / MM) * sqrt(f / PSI) * (c / MM) ** 1.5 * LBF
    w, h = min(e[1], 1.5 * c) + (n - 1) * s + min(e[3], 1.5 * c), min(t, 1.5 * c)
    A0 = 4.5 * c * c
    A = min(w * h, n * A0)
    p4 = 1.0 / (1.0 + 2.0 * p.get("shear_eccentricity_mm", 0.0) / (3.0 * c))
    p5 = min(1.0, 0.7 + 0.3 * min(e[1], e[3]) / (1.5 * c))
    k = 0.7 if p["cracked"] else 1.0
    V = A / A0 * p4 * p5 * k * V0
    return dict(l_mm=l, V0_N=V0, width_mm=w, depth_mm=h, AV_mm2=A, AV0_mm2=A0, psi_eccentricity=p4, psi_edge=p5, cracked_factor=k, V_N=V,
                with_psi_h_V_N=V * max(1.0, sqrt(1.5 * c / t)))


SETS = [
    ("tension", "Cone of one post-installed bar near a corner, uncracked.",
     dict(fastener="post_installed", bar_diameter_mm=16.0, embedment_mm=110.0, edge_1_mm=85.0, edge_2_mm=140.0, edge_3_mm=None, edge_4_mm=None, cracked=False), 27.0),
    ("tension", "Cone of a 2 by 2 headed group with two eccentricities and one edge, cracked.",
     dict(fastener="headed", bar_diameter_mm=19.0, embedment_mm=140.0, edge_1_mm=None, edge_2_mm=None, edge_3_mm=120.0, edge_4_mm=None,
          group_bars_along_axis_1=2, group_bars_along_axis_2=2, spacing_axis_1_mm=160.0, spacing_axis_2_mm=130.0, eccentricity_axis_1_mm=24.0,
          eccentricity_axis_2_mm=17.0, cracked=True), 34.0),
    ("tension", "Cone of one post-installed FRP bar in the middle of a narrow strip, cracked.",
     dict(fastener="post_installed", bar_material="glass FRP", bar_diameter_mm=12.7, embedment_mm=95.0, edge_1_mm=None, edge_2_mm=80.0, edge_3_mm=None,
          edge_4_mm=100.0, cracked=True), 41.0),
    ("shear", "Edge breakout of one bar near a corner in a thin member, uncracked.",
     dict(bar_diameter_mm=16.0, embedment_mm=150.0, edge_1_mm=100.0, edge_2_mm=120.0, edge_3_mm=None, edge_4_mm=None, member_thickness_mm=130.0, cracked=False), 30.0),
    ("shear", "Edge breakout of two bars along the edge, eccentric, cracked, deep member.",
     dict(bar_diameter_mm=20.0, embedment_mm=120.0, edge_1_mm=130.0, edge_2_mm=None, edge_3_mm=None, edge_4_mm=150.0, group_bars_along_axis_1=1, group_bars_along_axis_2=2,
          spacing_axis_1_mm=0.0, spacing_axis_2_mm=170.0, shear_eccentricity_mm=28.0, member_thickness_mm=500.0, cracked=True), 25.0),
]
for k, (kind, what, q, f) in enumerate(SETS, 1):
    for cube in (False, True):
        p = dict(mode="cone_tension" if kind == "tension" else "edge_shear", concrete_strength_MPa=f / 0.85 if cube else f,
                 concrete_strength_basis="cube_200mm" if cube else "cylinder", level="mean", **q)
        v = tension(p, cube) if kind == "tension" else shear(p, cube)
        add(("KC%d" if cube else "K%d") % k, "ccd-1995-cube" if cube else "ccd-1995",
            "concrete capacity method 1995, %s" % kind, what, p, v, {"force_N": v["N_N" if kind == "tension" else "V_N"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
