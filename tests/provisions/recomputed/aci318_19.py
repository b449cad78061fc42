"""ACI 318-19 (inch-pound): Chapter 17 anchorage and 25.4.2 development length, recomputed from the clauses.

Inputs are SI, converted exactly at entry (25.4 mm/in., 4.4482216152605 N/lbf, 6894.757293168 Pa/psi).
Axis 1 is normal to edges 1 and 3, axis 2 is normal to edges 2 and 4. A null edge is far away.
"""
import json
from math import pi, sqrt, inf

MM = 25.4                      # mm per in.
LBF = 4.4482216152605          # N per lbf
PSI = 6894.757293168e-6        # MPa per psi
CASES = []


def add(id_, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": "aci318-19", "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


def inch(x):
    return inf if x is None else x / MM


def geometry(p):
    """Edges 1..4 in inches, group spans and bar count."""
    e = [inch(p.get("edge_%d_mm" % k)) for k in (1, 2, 3, 4)]
    n1, n2 = p.get("group_bars_along_axis_1", 1), p.get("group_bars_along_axis_2", 1)
    s1, s2 = inch(p.get("spacing_axis_1_mm", 0.0)), inch(p.get("spacing_axis_2_mm", 0.0))
    return e, n1, n2, s1, s2


def lightweight(kind, lam):
    """Table 17.2.4.1; normal-weight concrete (lambda = 1) keeps 1.0."""
    if lam >= 1.0:
        return 1.0
    return {"cast": 1.0, "adhesive_concrete": 0.8, "adhesive_bond": 0.6}[kind] * lam


def breakout(p):
    e, n1, n2, s1, s2 = geometry(p)
    h, fc = inch(p["embedment_mm"]), p["concrete_strength_MPa"] / PSI
    cast, cracked = p["installation"] == "cast_in_headed", p["cracked"]
    v = {"hef_in": h, "fc_psi": fc}
    near = [c for c in e if c < 1.5 * h]
    hp = h
    if len(near) >= 3:                                             # 17.6.2.1.2
        smax = max(s1 if n1 > 1 else 0.0, s2 if n2 > 1 else 0.0)
        hp = min(h, max(max(near) / 1.5, smax / 3.0))
    v["edges_within_1p5hef"], v["hef_used_in"] = len(near), hp
    r = 1.5 * hp
    L1 = min(e[0], r) + (n1 - 1) * s1 + min(e[2], r)               # 17.6.2.1.1
    L2 = min(e[1], r) + (n2 - 1) * s2 + min(e[3], r)
    n = n1 * n2
    ANco = 9.0 * hp ** 2                                           # 17.6.2.1.4
    ANc = min(L1 * L2, n * ANco)
    v.update(extent_axis_1_in=L1, extent_axis_2_in=L2, ANc_in2=ANc, ANco_in2=ANco)
    lam = lightweight("cast" if cast else "adhesive_concrete", p["lightweight_factor"])
    kc = 24.0 if cast else 17.0                                    # 17.6.2.2.1
    Nb = kc * lam * sqrt(fc) * hp ** 1.5
    v.update(lambda_a=lam, kc=kc, Nb_lb=Nb)
    ec = 1.0                                                       # 17.6.2.3
    for a in (1, 2):
        f = 1.0 / (1.0 + inch(p.get("eccentricity_axis_%d_mm" % a, 0.0)) / (1.5 * hp))
        v["psi_ec_N_axis_%d" % a] = f
        ec *= f
    cmin = min(e)
    ed = 1.0 if cmin >= r else 0.7 + 0.3 * cmin / r                # 17.6.2.4
    cN = 1.0 if cracked else (1.25 if cast else 1.4)               # 17.6.2.5
    cp = 1.0                                                       # 17.6.2.6, true depth
    if not cast and not cracked and not p.get("supplementary_reinforcement", False):
        cac = inch(p.get("critical_edge_cac_mm", 2.0 * p["embedment_mm"]))   # Table 17.9.5, adhesive
        cp = 1.0 if cmin >= cac else min(1.0, max(cmin, 1.5 * h) / cac)
        v["cac_in"] = cac
    N = ANc / ANco * ec * ed * cN * cp * Nb
    v.update(psi_ec_N=ec, psi_ed_N=ed, psi_c_N=cN, psi_cp_N=cp, Ncb_lb=N, Ncb_N=N * LBF)
    return v


def bond(p):
    e, n1, n2, s1, s2 = geometry(p)
    d, h = inch(p["bar_diameter_mm"]), inch(p["embedment_mm"])
    tu, tc = p["bond_strength_characteristic_uncracked_MPa"] / PSI, p["bond_strength_characteristic_cracked_MPa"] / PSI
    cNa = 10.0 * d * sqrt(tu / 1100.0)                             # 17.6.5.1.2b
    L1 = min(e[0], cNa) + (n1 - 1) * s1 + min(e[2], cNa)
    L2 = min(e[1], cNa) + (n2 - 1) * s2 + min(e[3], cNa)
    ANao = (2.0 * cNa) ** 2                                        # 17.6.5.1.2a
    ANa = min(L1 * L2, n1 * n2 * ANao)
    lam = lightweight("adhesive_bond", p["lightweight_factor"])
    t = tc if p["cracked"] else tu
    Nba = lam * t * pi * d * h                                     # 17.6.5.2.1
    ec = 1.0                                                       # 17.6.5.3
    v = {}
    for a in (1, 2):
        f = 1.0 / (1.0 + inch(p.get("eccentricity_axis_%d_mm" % a, 0.0)) / cNa)
        v["psi_ec_Na_axis_%d" % a] = f
        ec *= f
    cmin = min(e)
    ed = 1.0 if cmin >= cNa else 0.7 + 0.3 * cmin / cNa            # 17.6.5.4
    cp = 1.0                                                       # 17.6.5.5
    if not p["cracked"] and not p.get("supplementary_reinforcement", False):
        cac = inch(p.get("critical_edge_cac_mm", 2.0 * p["embedment_mm"]))
        cp = 1.0 if cmin >= cac else min(1.0, max(cmin, cNa) / cac)
        v["cac_in"] = cac
    N = ANa / ANao * ec * ed * cp * Nba
    v.update(cNa_in=cNa, extent_axis_1_in=L1, extent_axis_2_in=L2, ANa_in2=ANa, ANao_in2=ANao, lambda_a=lam,
             tau_psi=t, Nba_lb=Nba, psi_ec_Na=ec, psi_ed_Na=ed, psi_cp_Na=cp, Na_lb=N, Na_N=N * LBF)
    return v


def edge_shear(p, parallel=False):
    """Perpendicular to edge 1, or parallel to edge 2 (then ca1 is edge 2)."""
    e, n1, n2, s1, s2 = geometry(p)
    d, h, ha = inch(p["bar_diameter_mm"]), inch(p["embedment_mm"]), inch(p["member_thickness_mm"])
    fc = p["concrete_strength_MPa"] / PSI
    if parallel:
        ca1, side, n, s = e[1], (e[0], e[2]), n1, s1
    else:
        ca1, side, n, s = e[0], (e[1], e[3]), n2, s2
    c = ca1
    if max(side) < 1.5 * ca1 and ha < 1.5 * ca1:                   # 17.7.2.1.2
        c = min(ca1, max(max(side) / 1.5, ha / 1.5, (s if n > 1 else 0.0) / 3.0))
    r = 1.5 * c
    width = min(side[0], r) + (n - 1) * s + min(side[1], r)        # 17.7.2.1.1
    depth = min(ha, r)
    AVco = 4.5 * c ** 2                                            # 17.7.2.1.3
    AVc = min(width * depth, n * AVco)
    lam = lightweight("cast" if p["installation"] == "cast_in_headed" else "adhesive_concrete", p["lightweight_factor"])
    le = min(h, 8.0 * d)
    Va = 7.0 * (le / d) ** 0.2 * sqrt(d) * lam * sqrt(fc) * c ** 1.5    # 17.7.2.2.1a
    Vb2 = 9.0 * lam * sqrt(fc) * c ** 1.5                               # 17.7.2.2.1b
    Vb = min(Va, Vb2)
    ec = 1.0 / (1.0 + inch(p.get("shear_eccentricity_mm", 0.0)) / (1.5 * c))      # 17.7.2.3
    ca2 = min(side)
    ed = 1.0 if (parallel or ca2 >= r) else 0.7 + 0.3 * ca2 / r                   # 17.7.2.4
    cV = 1.4 if not p["cracked"] else p.get("psi_c_V_cracked", 1.0)               # 17.7.2.5
    hV = max(1.0, sqrt(r / ha))                                                   # 17.7.2.6
    V = AVc / AVco * ec * ed * cV * hV * Vb * (2.0 if parallel else 1.0)          # 17.7.2.1(c) for parallel
    return dict(ca1_in=ca1, ca1_used_in=c, width_in=width, depth_in=depth, AVc_in2=AVc, AVco_in2=AVco, lambda_a=lam,
                le_in=le, Vb_a_lb=Va, Vb_b_lb=Vb2, Vb_lb=Vb, psi_ec_V=ec, psi_ed_V=ed, psi_c_V=cV, psi_h_V=hV,
                parallel_factor=2.0 if parallel else 1.0, Vcb_lb=V, Vcb_N=V * LBF)


def development(p):
    d, fc, fy = inch(p["bar_diameter_mm"]), p["concrete_strength_MPa"] / PSI, p["bar_yield_strength_MPa"] / PSI
    root = min(sqrt(fc), 100.0)                                    # 25.4.1.4
    lam = p["lightweight_factor"]
    pt = 1.3 if p["concrete_below_bar_mm"] / MM > 12.0 else 1.0    # Table 25.4.2.5
    pe, ps, pg = p["psi_e"], p["psi_s"], p["psi_g"]
    te = min(pt * pe, 1.7)
    Ktr = 0.0
    if p.get("transverse_area_mm2"):
        Ktr = 40.0 * p["transverse_area_mm2"] / MM ** 2 / (inch(p["transverse_spacing_mm"]) * p["bars_developed_in_plane"])
    raw = (inch(p["cb_mm"]) + Ktr) / d
    conf = min(raw, 2.5)
    psi = te * ps * pg
    v = dict(db_in=d, fc_psi=fc, fy_psi=fy, sqrt_fc_psi=root, psi_t=pt, psi_e=pe, psi_t_psi_e=te, psi_s=ps, psi_g=pg,
             Ktr_in=Ktr, confinement_raw=raw, confinement=conf)
    if "embedment_mm" in p:                                        # inverse of 25.4.2.4a
        le = inch(p["embedment_mm"])
        fs = 40.0 / 3.0 * lam * root * conf * (le / d) / psi
        v.update(stress_uncapped_psi=fs, stress_psi=min(fs, fy))
        v["equivalent_bond_stress_MPa"] = v["stress_psi"] * d / (4.0 * le) * PSI
    else:
        ld = 3.0 / 40.0 * fy / (lam * root) * psi / conf * d       # 25.4.2.4a
        v.update(ld_uncapped_in=ld, ld_in=max(ld, 12.0))           # 25.4.2.1
    return v


BASE = {"concrete_strength_basis": "cylinder_specified"}

p = dict(BASE, mode="breakout_tension", installation="adhesive", bar_diameter_mm=16.0, embedment_mm=130.0, concrete_strength_MPa=27.5,
         edge_1_mm=95.0, edge_2_mm=160.0, edge_3_mm=None, edge_4_mm=None, cracked=True, lightweight_factor=1.0, level="nominal")
v = breakout(p)
add("A1", "17.6.2", "Breakout of one adhesive bar near a corner in cracked concrete.", p, v, {"force_N": v["Ncb_N"]})

p = dict(BASE, mode="breakout_tension", installation="cast_in_headed", bar_diameter_mm=19.0, embedment_mm=150.0, concrete_strength_MPa=34.0,
         edge_1_mm=140.0, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None, group_bars_along_axis_1=2, group_bars_along_axis_2=3,
         spacing_axis_1_mm=120.0, spacing_axis_2_mm=180.0, eccentricity_axis_1_mm=35.0, eccentricity_axis_2_mm=20.0,
         cracked=False, lightweight_factor=0.85, level="nominal")
v = breakout(p)
add("A2", "17.6.2", "Breakout of a 2 by 3 cast-in headed group with two eccentricities, one edge, uncracked lightweight concrete.", p, v, {"force_N": v["Ncb_N"]})

p = dict(BASE, mode="breakout_tension", installation="adhesive", bar_material="glass FRP", bar_diameter_mm=12.7, embedment_mm=120.0,
         concrete_strength_MPa=41.0, edge_1_mm=100.0, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None, cracked=False,
         supplementary_reinforcement=False, critical_edge_cac_mm=240.0, lightweight_factor=1.0, level="nominal")
v = breakout(p)
add("A3", "17.6.2, 17.6.2.6, 17.9.5", "Breakout of one adhesive FRP bar near an edge in uncracked concrete with the splitting factor at work.", p, v, {"force_N": v["Ncb_N"]})

p = dict(BASE, mode="breakout_tension", installation="adhesive", bar_diameter_mm=20.0, embedment_mm=200.0, concrete_strength_MPa=30.0,
         edge_1_mm=120.0, edge_2_mm=150.0, edge_3_mm=None, edge_4_mm=170.0, group_bars_along_axis_1=2, group_bars_along_axis_2=1,
         spacing_axis_1_mm=210.0, spacing_axis_2_mm=0.0, eccentricity_axis_1_mm=15.0, cracked=True, lightweight_factor=1.0, level="nominal")
v = breakout(p)
add("A4", "17.6.2.1.2", "Breakout of two adhesive bars in a narrow member with three near edges, reduced depth, eccentric.", p, v, {"force_N": v["Ncb_N"]})

p = dict(BASE, mode="bond_tension", installation="adhesive", bar_material="glass FRP", bar_diameter_mm=12.7, embedment_mm=100.0,
         concrete_strength_MPa=28.0, bond_strength_characteristic_cracked_MPa=7.0, bond_strength_characteristic_uncracked_MPa=11.0,
         edge_1_mm=70.0, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None, cracked=True, lightweight_factor=1.0, level="nominal")
v = bond(p)
add("A5", "17.6.5", "Bond of one adhesive FRP bar near one edge in cracked concrete.", p, v, {"force_N": v["Na_N"]})

p = dict(BASE, mode="bond_tension", installation="adhesive", bar_diameter_mm=16.0, embedment_mm=160.0, concrete_strength_MPa=25.0,
         bond_strength_characteristic_cracked_MPa=6.5, bond_strength_characteristic_uncracked_MPa=10.0,
         edge_1_mm=110.0, edge_2_mm=130.0, edge_3_mm=None, edge_4_mm=None, group_bars_along_axis_1=2, group_bars_along_axis_2=2,
         spacing_axis_1_mm=140.0, spacing_axis_2_mm=180.0, eccentricity_axis_1_mm=30.0, eccentricity_axis_2_mm=0.0, cracked=False,
         supplementary_reinforcement=False, critical_edge_cac_mm=320.0, lightweight_factor=0.75, level="design",
         strength_reduction_factor=0.65, anchor_category=1)
v = bond(p)
v["phi"] = 0.65                                                    # Table 17.5.3(b), category 1, none
v["phi_Na_N"] = 0.65 * v["Na_N"]
add("A6", "17.6.5, 17.5.3", "Design bond of a 2 by 2 eccentric group near a corner in uncracked lightweight concrete, with the splitting factor.", p, v, {"force_N": v["phi_Na_N"]})

p = dict(BASE, mode="edge_shear", installation="adhesive", bar_diameter_mm=16.0, embedment_mm=140.0, concrete_strength_MPa=26.0,
         edge_1_mm=110.0, edge_2_mm=130.0, edge_3_mm=None, edge_4_mm=None, member_thickness_mm=150.0, cracked=True, psi_c_V_cracked=1.0,
         lightweight_factor=1.0, level="nominal")
v = edge_shear(p)
add("A7", "17.7.2", "Edge breakout in shear of one adhesive bar near a corner in a thin cracked member, no edge bar.", p, v, {"force_N": v["Vcb_N"]})

p = dict(BASE, mode="edge_shear", installation="adhesive", bar_diameter_mm=12.0, embedment_mm=90.0, concrete_strength_MPa=32.0,
         edge_1_mm=100.0, edge_2_mm=250.0, edge_3_mm=None, edge_4_mm=110.0, group_bars_along_axis_1=1, group_bars_along_axis_2=2,
         spacing_axis_1_mm=0.0, spacing_axis_2_mm=150.0, shear_eccentricity_mm=25.0, member_thickness_mm=400.0, cracked=False,
         lightweight_factor=0.85, level="nominal")
v = edge_shear(p)
add("A8", "17.7.2", "Edge breakout in shear of two bars parallel to the edge, eccentric, uncracked lightweight concrete, deep member.", p, v, {"force_N": v["Vcb_N"]})

p = dict(BASE, mode="edge_shear", installation="adhesive", bar_diameter_mm=25.0, embedment_mm=180.0, concrete_strength_MPa=30.0,
         edge_1_mm=200.0, edge_2_mm=150.0, edge_3_mm=None, edge_4_mm=180.0, member_thickness_mm=190.0, cracked=True, psi_c_V_cracked=1.2,
         lightweight_factor=1.0, level="nominal")
v = edge_shear(p)
add("A9", "17.7.2.1.2", "Edge breakout in shear in a narrow and thin member, reduced ca1, with an edge bar in cracked concrete.", p, v, {"force_N": v["Vcb_N"]})

p = dict(BASE, mode="edge_shear_parallel_to_edge_2", installation="adhesive", bar_diameter_mm=16.0, embedment_mm=125.0, concrete_strength_MPa=30.0,
         edge_1_mm=300.0, edge_2_mm=90.0, edge_3_mm=None, edge_4_mm=None, member_thickness_mm=250.0, cracked=True, psi_c_V_cracked=1.0,
         lightweight_factor=1.0, level="nominal")
v = edge_shear(p, parallel=True)
add("A10", "17.7.2.1(c)", "Edge breakout of edge 2 for a load parallel to it: twice the value towards the edge, psi_ed,V = 1.", p, v, {"force_N": v["Vcb_N"]})

p = dict(BASE, mode="pryout", installation="adhesive", bar_diameter_mm=16.0, embedment_mm=100.0, concrete_strength_MPa=28.0,
         bond_strength_characteristic_cracked_MPa=6.0, bond_strength_characteristic_uncracked_MPa=9.0,
         edge_1_mm=120.0, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None, cracked=True, lightweight_factor=1.0, level="nominal")
b, a = breakout(p), bond(p)
kcp = 1.0 if p["embedment_mm"] / MM < 2.5 else 2.0                 # 17.7.3.1
v = dict(breakout=b, bond=a, kcp=kcp, Ncp_N=min(b["Ncb_N"], a["Na_N"]))
v["Vcp_N"] = kcp * v["Ncp_N"]
add("A11", "17.7.3", "Pryout of one adhesive bar: kcp times the lesser of bond and breakout.", p, v, {"force_N": v["Vcp_N"]})

p = dict(BASE, mode="development_length", bar_material="steel, Grade 60", bar_diameter_mm=19.05, bar_yield_strength_MPa=420.0, concrete_strength_MPa=30.0,
         cb_mm=38.0, concrete_below_bar_mm=400.0, psi_e=1.0, psi_s=0.8, psi_g=1.0, lightweight_factor=1.0, level="design")
v = development(p)
add("A12", "25.4.2.4", "Development length of an uncoated top bar, no transverse reinforcement.", p, v, {"length_mm": v["ld_in"] * MM})

p = dict(BASE, mode="development_length", bar_material="steel, Grade 80, epoxy coated with small cover", bar_diameter_mm=25.4, bar_yield_strength_MPa=550.0,
         concrete_strength_MPa=38.0, cb_mm=45.0, concrete_below_bar_mm=350.0, psi_e=1.5, psi_s=1.0, psi_g=1.15, lightweight_factor=0.75,
         transverse_area_mm2=142.0, transverse_spacing_mm=150.0, bars_developed_in_plane=3, level="design")
v = development(p)
add("A13", "25.4.2.4", "Development length of an epoxy-coated top bar in lightweight concrete with stirrups, psi_t psi_e limited to 1.7.", p, v, {"length_mm": v["ld_in"] * MM})

p = dict(BASE, mode="developed_stress", bar_material="steel, Grade 60", bar_diameter_mm=15.875, bar_yield_strength_MPa=420.0, concrete_strength_MPa=78.0,
         cb_mm=45.0, concrete_below_bar_mm=100.0, psi_e=1.2, psi_s=0.8, psi_g=1.0, lightweight_factor=1.0, embedment_mm=170.0, level="nominal")
v = development(p)
add("A14", "25.4.2.4 inverse", "Stress developed at a short embedment in strong concrete, root of strength limited to 100 psi, confinement limited to 2.5.", p, v, {"stress_MPa": v["stress_psi"] * PSI})

p = dict(mode="bar_shear", bar_material="glass FRP", bar_diameter_mm=15.875, bar_area_mm2=199.0, bar_ultimate_strength_MPa=724.0,
         bar_transverse_shear_strength_MPa=152.0, group_bars_along_axis_1=1, group_bars_along_axis_2=2, level="nominal")
v = dict(one_bar_literal_N=0.6 * 199.0 * 724.0, one_bar_transverse_N=199.0 * 152.0)
v["group_literal_N"], v["group_transverse_N"] = 2 * v["one_bar_literal_N"], 2 * v["one_bar_transverse_N"]
v["ratio_transverse_to_literal"] = v["one_bar_transverse_N"] / v["one_bar_literal_N"]
add("A15", "17.7.1.2b read literally", "Bar shear of two FRP bars by 0.6 futa taken literally; the transverse-shear value is beside it.", p, v, {"force_N": v["group_literal_N"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
