"""ACI 318M-19 (SI form): Chapter 17 anchorage and 25.4.2, recomputed from the clauses. N, mm, MPa, rounded SI coefficients.

Axis 1 is normal to edges 1 and 3, axis 2 is normal to edges 2 and 4. A null edge is far away.
"""
import json
from math import pi, sqrt, inf

CASES = []


def add(id_, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": "aci318-19m", "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


def geometry(p):
    e = [inf if p.get("edge_%d_mm" % k) is None else p["edge_%d_mm" % k] for k in (1, 2, 3, 4)]
    return (e, p.get("group_bars_along_axis_1", 1), p.get("group_bars_along_axis_2", 1),
            p.get("spacing_axis_1_mm", 0.0), p.get("spacing_axis_2_mm", 0.0))


def lam_a(kind, lam):                                              # Table 17.2.4.1, lightweight only
    return 1.0 if lam >= 1.0 else {"cast": 1.0, "concrete": 0.8, "bond": 0.6}[kind] * lam


def area(e, n1, n2, s1, s2, r):
    L1 = min(e[0], r) + (n1 - 1) * s1 + min(e[2], r)
    L2 = min(e[1], r) + (n2 - 1) * s2 + min(e[3], r)
    A0 = (2.0 * r) ** 2
    return L1, L2, min(L1 * L2, n1 * n2 * A0), A0


def breakout(p):
    e, n1, n2, s1, s2 = geometry(p)
    h, fc = p["embedment_mm"], p["concrete_strength_MPa"]
    cast = p["installation"] == "cast_in_headed"
    near = [c for c in e if c < 1.5 * h]
    hp = h
    if len(near) >= 3:                                             # 17.6.2.1.2
        hp = min(h, max(max(near) / 1.5, max(s1 if n1 > 1 else 0.0, s2 if n2 > 1 else 0.0) / 3.0))
    r = 1.5 * hp
    L1, L2, A, A0 = area(e, n1, n2, s1, s2, r)                     # 17.6.2.1
    kc = 10.0 if cast else 7.0                                     # 17.6.2.2.1
    lam = lam_a("cast" if cast else "concrete", p["lightweight_factor"])
    Nb = kc * lam * sqrt(fc) * hp ** 1.5
    e1 = 1.0 / (1.0 + p.get("eccentricity_axis_1_mm", 0.0) / r)    # 17.6.2.3
    e2 = 1.0 / (1.0 + p.get("eccentricity_axis_2_mm", 0.0) / r)
    cmin = min(e)
    ed = 1.0 if cmin >= r else 0.7 + 0.3 * cmin / r                # 17.6.2.4
    cN = 1.0 if p["cracked"] else (1.25 if cast else 1.4)          # 17.6.2.5
    cp = 1.0                                                       # 17.6.2.6
    if not cast and not p["cracked"] and not p.get("supplementary_reinforcement", False):
        cac = p.get("critical_edge_cac_mm", 2.0 * h)               # Table 17.9.5
        cp = 1.0 if cmin >= cac else min(1.0, max(cmin, 1.5 * h) / cac)
    N = A / A0 * e1 * e2 * ed * cN * cp * Nb
    return dict(edges_within_1p5hef=len(near), hef_used_mm=hp, extent_axis_1_mm=L1, extent_axis_2_mm=L2, ANc_mm2=A, ANco_mm2=A0,
                kc=kc, lambda_a=lam, Nb_N=Nb, psi_ec_N_axis_1=e1, psi_ec_N_axis_2=e2, psi_ed_N=ed, psi_c_N=cN, psi_cp_N=cp, Ncb_N=N)


def bond(p):
    e, n1, n2, s1, s2 = geometry(p)
    d, h = p["bar_diameter_mm"], p["embedment_mm"]
    tc, tu = p["bond_strength_characteristic_cracked_MPa"], p["bond_strength_characteristic_uncracked_MPa"]
    c = 10.0 * d * sqrt(tu / 7.6)                                  # 17.6.5.1.2b, SI form
    L1, L2, A, A0 = area(e, n1, n2, s1, s2, c)
    lam = lam_a("bond", p["lightweight_factor"])
    Nba = lam * (tc if p["cracked"] else tu) * pi * d * h          # 17.6.5.2.1
    e1 = 1.0 / (1.0 + p.get("eccentricity_axis_1_mm", 0.0) / c)    # 17.6.5.3
    e2 = 1.0 / (1.0 + p.get("eccentricity_axis_2_mm", 0.0) / c)
    cmin = min(e)
    ed = 1.0 if cmin >= c else 0.7 + 0.3 * cmin / c                # 17.6.5.4
    cp = 1.0                                                       # 17.6.5.5
    if not p["cracked"] and not p.get("supplementary_reinforcement", False):
        cac = p.get("critical_edge_cac_mm", 2.0 * h)
        cp = 1.0 if cmin >= cac else min(1.0, max(cmin, c) / cac)
    N = A / A0 * e1 * e2 * ed * cp * Nba
    return dict(cNa_mm=c, extent_axis_1_mm=L1, extent_axis_2_mm=L2, ANa_mm2=A, ANao_mm2=A0, lambda_a=lam, Nba_N=Nba,
                psi_ec_Na_axis_1=e1, psi_ec_Na_axis_2=e2, psi_ed_Na=ed, psi_cp_Na=cp, Na_N=N)


def edge_shear(p):
    e, _, n, _, s = geometry(p)
    d, h, ha, fc = p["bar_diameter_mm"], p["embedment_mm"], p["member_thickness_mm"], p["concrete_strength_MPa"]
    side, c = (e[1], e[3]), e[0]
    if max(side) < 1.5 * c and ha < 1.5 * c:                       # 17.7.2.1.2
        c = min(c, max(max(side) / 1.5, ha / 1.5, (s if n > 1 else 0.0) / 3.0))
    r = 1.5 * c
    w, t = min(side[0], r) + (n - 1) * s + min(side[1], r), min(ha, r)
    A0 = 4.5 * c * c                                               # 17.7.2.1
    A = min(w * t, n * A0)
    lam = lam_a("cast" if p["installation"] == "cast_in_headed" else "concrete", p["lightweight_factor"])
    le = min(h, 8.0 * d)
    Va = 0.6 * (le / d) ** 0.2 * sqrt(d) * lam * sqrt(fc) * c ** 1.5    # 17.7.2.2.1a
    Vb = 3.7 * lam * sqrt(fc) * c ** 1.5                                # 17.7.2.2.1b
    ec = 1.0 / (1.0 + p.get("shear_eccentricity_mm", 0.0) / r)          # 17.7.2.3
    ed = 1.0 if min(side) >= r else 0.7 + 0.3 * min(side) / r           # 17.7.2.4
    cV = 1.4 if not p["cracked"] else p.get("psi_c_V_cracked", 1.0)     # 17.7.2.5
    hV = max(1.0, sqrt(r / ha))                                         # 17.7.2.6
    V = A / A0 * ec * ed * cV * hV * min(Va, Vb)
    return dict(ca1_used_mm=c, width_mm=w, depth_mm=t, AVc_mm2=A, AVco_mm2=A0, lambda_a=lam, le_mm=le, Vb_a_N=Va, Vb_b_N=Vb,
                psi_ec_V=ec, psi_ed_V=ed, psi_c_V=cV, psi_h_V=hV, Vcb_N=V)


def development(p):
    d, fc, fy = p["bar_diameter_mm"], p["concrete_strength_MPa"], p["bar_yield_strength_MPa"]
    root = min(sqrt(fc), 8.3)                                      # 25.4.1.4
    pt = 1.3 if p["concrete_below_bar_mm"] > 300.0 else 1.0
    te = min(pt * p["psi_e"], 1.7)
    Ktr = 0.0
    if p.get("transverse_area_mm2"):
        Ktr = 40.0 * p["transverse_area_mm2"] / (p["transverse_spacing_mm"] * p["bars_developed_in_plane"])
    raw = (p["cb_mm"] + Ktr) / d
    conf = min(raw, 2.5)
    psi = te * p["psi_s"] * p["psi_g"]
    v = dict(sqrt_fc=root, psi_t=pt, psi_t_psi_e=te, psi_product=psi, Ktr_mm=Ktr, confinement_raw=raw, confinement=conf)
    if "embedment_mm" in p:
        fs = 1.1 * p["lightweight_factor"] * root * conf * (p["embedment_mm"] / d) / psi
        v.update(stress_uncapped_MPa=fs, stress_MPa=min(fs, fy))
    else:
        ld = fy / (1.1 * p["lightweight_factor"] * root) * psi / conf * d    # 25.4.2.4a
        v.update(ld_uncapped_mm=ld, ld_mm=max(ld, 300.0))                    # 25.4.2.1
    return v


B = {"concrete_strength_basis": "cylinder_specified"}

p = dict(B, mode="breakout_tension", installation="adhesive", bar_diameter_mm=16.0, embedment_mm=130.0, concrete_strength_MPa=27.5,
         edge_1_mm=95.0, edge_2_mm=160.0, edge_3_mm=None, edge_4_mm=None, cracked=True, lightweight_factor=1.0, level="nominal")
v = breakout(p)
add("M1", "17.6.2", "Breakout of one adhesive bar near a corner in cracked concrete (same bar as in the inch-pound file).", p, v, {"force_N": v["Ncb_N"]})

p = dict(B, mode="breakout_tension", installation="adhesive", bar_diameter_mm=14.0, embedment_mm=115.0, concrete_strength_MPa=35.0,
         edge_1_mm=90.0, edge_2_mm=None, edge_3_mm=None, edge_4_mm=145.0, group_bars_along_axis_1=2, group_bars_along_axis_2=2,
         spacing_axis_1_mm=125.0, spacing_axis_2_mm=160.0, eccentricity_axis_1_mm=22.0, eccentricity_axis_2_mm=14.0, cracked=False,
         supplementary_reinforcement=False, critical_edge_cac_mm=230.0, lightweight_factor=0.85, level="nominal")
v = breakout(p)
add("M2", "17.6.2", "Breakout of a 2 by 2 adhesive group, two eccentricities, two edges, uncracked lightweight concrete, splitting factor.", p, v, {"force_N": v["Ncb_N"]})

p = dict(B, mode="breakout_tension", installation="adhesive", bar_diameter_mm=20.0, embedment_mm=190.0, concrete_strength_MPa=30.0, edge_1_mm=130.0,
         edge_2_mm=140.0, edge_3_mm=165.0, edge_4_mm=None, cracked=True, lightweight_factor=1.0, level="nominal")
v = breakout(p)
add("M3", "17.6.2.1.2", "Breakout of one adhesive bar at the end of a narrow member, three near edges.", p, v, {"force_N": v["Ncb_N"]})

p = dict(B, mode="bond_tension", installation="adhesive", bar_material="glass FRP", bar_diameter_mm=12.7, embedment_mm=100.0, concrete_strength_MPa=28.0,
         bond_strength_characteristic_cracked_MPa=7.0, bond_strength_characteristic_uncracked_MPa=11.0, edge_1_mm=70.0, edge_2_mm=None, edge_3_mm=None,
         edge_4_mm=None, cracked=True, lightweight_factor=1.0, level="nominal")
v = bond(p)
add("M4", "17.6.5", "Bond of one adhesive FRP bar near one edge in cracked concrete (same bar as in the inch-pound file).", p, v, {"force_N": v["Na_N"]})

p = dict(B, mode="bond_tension", installation="adhesive", bar_diameter_mm=20.0, embedment_mm=220.0, concrete_strength_MPa=32.0,
         bond_strength_characteristic_cracked_MPa=5.0, bond_strength_characteristic_uncracked_MPa=9.5, edge_1_mm=None, edge_2_mm=150.0, edge_3_mm=None,
         edge_4_mm=None, group_bars_along_axis_1=3, group_bars_along_axis_2=1, spacing_axis_1_mm=170.0, spacing_axis_2_mm=0.0,
         eccentricity_axis_1_mm=40.0, cracked=True, lightweight_factor=0.75, level="design", strength_reduction_factor=0.55, anchor_category=2)
v = bond(p)
v["phi_Na_N"] = 0.55 * v["Na_N"]                                   # Table 17.5.3(b), category 2, none
add("M5", "17.6.5, 17.5.3", "Design bond of three bars in a line along an edge, eccentric, cracked lightweight concrete.", p, v, {"force_N": v["phi_Na_N"]})

p = dict(B, mode="edge_shear", installation="adhesive", bar_diameter_mm=16.0, embedment_mm=140.0, concrete_strength_MPa=26.0, edge_1_mm=110.0,
         edge_2_mm=130.0, edge_3_mm=None, edge_4_mm=None, member_thickness_mm=150.0, cracked=True, psi_c_V_cracked=1.0, lightweight_factor=1.0, level="nominal")
v = edge_shear(p)
add("M6", "17.7.2", "Edge breakout in shear of one adhesive bar near a corner in a thin cracked member (same bar as in the inch-pound file).", p, v, {"force_N": v["Vcb_N"]})

p = dict(B, mode="edge_shear", installation="adhesive", bar_diameter_mm=25.0, embedment_mm=220.0, concrete_strength_MPa=30.0, edge_1_mm=150.0,
         edge_2_mm=140.0, edge_3_mm=None, edge_4_mm=None, group_bars_along_axis_1=1, group_bars_along_axis_2=3, spacing_axis_1_mm=0.0,
         spacing_axis_2_mm=120.0, shear_eccentricity_mm=35.0, member_thickness_mm=190.0, cracked=False, lightweight_factor=1.0, level="nominal")
v = edge_shear(p)
add("M7", "17.7.2", "Edge breakout in shear of three thick bars along the edge, eccentric, thin uncracked member, second basic strength governs.", p, v, {"force_N": v["Vcb_N"]})

p = dict(B, mode="development_length", bar_material="steel, Grade 420", bar_diameter_mm=22.2, bar_yield_strength_MPa=420.0, concrete_strength_MPa=32.0, cb_mm=42.0,
         concrete_below_bar_mm=350.0, psi_e=1.2, psi_s=1.0, psi_g=1.0, lightweight_factor=0.75, transverse_area_mm2=142.0, transverse_spacing_mm=200.0,
         bars_developed_in_plane=4, level="design")
v = development(p)
add("M8", "25.4.2.4", "Development length of an epoxy-coated top bar in lightweight concrete with stirrups.", p, v, {"length_mm": v["ld_mm"]})

p = dict(B, mode="developed_stress", bar_material="steel, Grade 420", bar_diameter_mm=15.9, bar_yield_strength_MPa=420.0, concrete_strength_MPa=40.0, cb_mm=31.0,
         concrete_below_bar_mm=150.0, psi_e=1.0, psi_s=0.8, psi_g=1.0, lightweight_factor=1.0, embedment_mm=260.0, level="nominal")
v = development(p)
add("M9", "25.4.2.4 inverse", "Stress developed at a given embedment, small cover.", p, v, {"stress_MPa": v["stress_MPa"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
