"""EN 1992-4:2018, clauses 7.2.1 and 7.2.2, recomputed from the clauses. N, mm, MPa; strength is fck on cylinders.

Axis 1 is normal to edges 1 and 3, axis 2 is normal to edges 2 and 4. A null edge is far away.
"""
import json
from math import pi, sqrt, sin, cos, radians, inf

CASES = []


def add(id_, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": "en1992-4-2018", "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


def geometry(p):
    e = [inf if p.get("edge_%d_mm" % k) is None else p["edge_%d_mm" % k] for k in (1, 2, 3, 4)]
    return (e, p.get("group_bars_along_axis_1", 1), p.get("group_bars_along_axis_2", 1),
            p.get("spacing_axis_1_mm", 0.0), p.get("spacing_axis_2_mm", 0.0))


def rectangle(e, n1, n2, s1, s2, c, what):
    """Actual over reference area for a critical edge distance c."""
    L1 = min(e[0], c) + (n1 - 1) * s1 + min(e[2], c)
    L2 = min(e[1], c) + (n2 - 1) * s2 + min(e[3], c)
    A0 = (2.0 * c) ** 2
    A = min(L1 * L2, n1 * n2 * A0)
    return {"extent_axis_1_mm": L1, "extent_axis_2_mm": L2, "A_%s_mm2" % what: A, "A0_%s_mm2" % what: A0}, A / A0


def eccentric(p, scr):
    f1 = 1.0 / (1.0 + 2.0 * p.get("eccentricity_axis_1_mm", 0.0) / scr)
    f2 = 1.0 / (1.0 + 2.0 * p.get("eccentricity_axis_2_mm", 0.0) / scr)
    return f1, f2, f1 * f2


def shell(p):
    """psi_re,N 7.2.1.4(5): 1.0 unless dense reinforcement and hef < 100 mm."""
    if p.get("dense_reinforcement", False):
        return min(1.0, 0.5 + p["embedment_mm"] / 200.0)
    return 1.0


def cone(p):
    e, n1, n2, s1, s2 = geometry(p)
    h, fck = p["embedment_mm"], p["concrete_strength_MPa"]
    ccr = 1.5 * h
    hp = h
    near = [c for c in e if c < ccr]
    if len(near) >= 3:                                              # 7.2.1.4(8)
        smax = max(s1 if n1 > 1 else 0.0, s2 if n2 > 1 else 0.0)
        hp = min(h, max(max(near) / ccr * h, smax / (2.0 * ccr) * h))
        ccr = 1.5 * hp
    head = p.get("fastener") == "cast_in_headed"
    k1 = {(True, True): 8.9, (True, False): 12.7, (False, True): 7.7, (False, False): 11.0}[(head, p["cracked"])]
    N0 = k1 * sqrt(fck) * hp ** 1.5                                 # 7.2
    v, ratio = rectangle(e, n1, n2, s1, s2, ccr, "c_N")             # 7.3
    cmin = min(e)
    ps = min(1.0, 0.7 + 0.3 * cmin / ccr)                           # 7.4
    pr = shell(p)                                                   # 7.5
    f1, f2, pe = eccentric(p, 2.0 * ccr)                            # 7.6
    pM = 1.0                                                        # 7.7
    if p.get("compression_lever_arm_mm") is not None and cmin >= 1.5 * h:
        pM = max(1.0, 2.0 - p["compression_lever_arm_mm"] / (1.5 * h))
    N = N0 * ratio * ps * pr * pe * pM                              # 7.1
    v.update(edges_within_ccr=len(near), hef_used_mm=hp, ccr_N_mm=ccr, k1=k1, N0Rk_c_N=N0, psi_s_N=ps, psi_re_N=pr,
             psi_ec_N_axis_1=f1, psi_ec_N_axis_2=f2, psi_ec_N=pe, psi_M_N=pM, NRk_c_N=N)
    return v


def pullout(p):
    e, n1, n2, s1, s2 = geometry(p)
    d, h, fck = p["bar_diameter_mm"], p["embedment_mm"], p["concrete_strength_MPa"]
    t, tu = p["bond_strength_characteristic_MPa"], p["bond_strength_characteristic_uncracked_C20_25_MPa"]
    asus, p0 = p.get("sustained_ratio", 0.0), p.get("psi_sus_0", 0.6)
    psus = 1.0 if asus <= p0 else p0 + 1.0 - asus                   # 7.14a, 7.14b
    N0 = psus * t * pi * d * h                                      # 7.14
    raw = 7.3 * d * sqrt(psus * tu)
    scr = min(raw, 3.0 * h)                                         # 7.15
    ccr = scr / 2.0                                                 # 7.16
    v, ratio = rectangle(e, n1, n2, s1, s2, ccr, "p_N")
    n = n1 * n2
    k3 = 7.7 if p["cracked"] else 11.0
    tc = k3 / (pi * d) * sqrt(h * fck)                              # 7.19
    g0 = max(1.0, sqrt(n) - (sqrt(n) - 1.0) * (t / tc) ** 1.5)      # 7.18
    sp = ([s1] if n1 > 1 else []) + ([s2] if n2 > 1 else [])
    pg = 1.0
    smean = None
    if n > 1:
        smean = sum(sp) / len(sp)
        pg = max(1.0, g0 - sqrt(smean / scr) * (g0 - 1.0))          # 7.17
    ps = min(1.0, 0.7 + 0.3 * min(e) / ccr)                         # 7.20
    pr = shell(p)
    f1, f2, pe = eccentric(p, scr)                                  # 7.21
    N = N0 * ratio * pg * ps * pr * pe                              # 7.13
    v.update(psi_sus=psus, N0Rk_p_N=N0, scr_Np_uncapped_mm=raw, scr_Np_mm=scr, ccr_Np_mm=ccr, k3=k3, tau_Rk_c_MPa=tc,
             psi_g_Np_0=g0, mean_spacing_mm=smean, psi_g_Np=pg, psi_s_Np=ps, psi_re_N=pr, psi_ec_Np_axis_1=f1,
             psi_ec_Np_axis_2=f2, psi_ec_Np=pe, NRk_p_N=N)
    return v


def splitting(p):
    """7.2.1.7(2). N0Rk,sp = min(N0Rk,p, N0Rk,c), the single-fastener basic values; the other reading (NRk,p) beside it."""
    e, n1, n2, s1, s2 = geometry(p)
    h, t, hmin, ccr = p["embedment_mm"], p["member_thickness_mm"], p["minimum_thickness_mm"], p["critical_edge_splitting_mm"]
    a, b = pullout(p), cone(p)
    c1 = min(e)
    needed = c1 < (1.2 if n1 * n2 > 1 else 1.0) * ccr or t < hmin
    v, ratio = rectangle(e, n1, n2, s1, s2, ccr, "c_N_with_ccr_sp")
    ps = min(1.0, 0.7 + 0.3 * c1 / ccr)
    pr = shell(p)
    f1, f2, pe = eccentric(p, 2.0 * ccr)
    top = min(2.0, max(1.0, ((h + 1.5 * c1) / hmin) ** (2.0 / 3.0)))
    ph = min((t / hmin) ** (2.0 / 3.0), top)                        # 7.25 (psi_h,sp)
    N0 = min(a["N0Rk_p_N"], b["N0Rk_c_N"])
    f = ratio * ps * pr * pe * ph
    v.update(check_needed=needed, N0Rk_p_N=a["N0Rk_p_N"], N0Rk_c_N=b["N0Rk_c_N"], N0Rk_sp_N=N0, psi_s_N=ps, psi_re_N=pr,
             psi_ec_N=pe, psi_h_sp_limit=top, psi_h_sp=ph, NRk_sp_N=N0 * f,
             other_reading_N0Rk_sp_from_NRk_p_N=min(a["NRk_p_N"], b["N0Rk_c_N"]),
             other_reading_NRk_sp_N=min(a["NRk_p_N"], b["N0Rk_c_N"]) * f)
    return v


def edge(p):
    """7.2.2.5, front row (bars along axis 2) towards edge 1."""
    e, _, n, _, s = geometry(p)
    d, h, t, fck = p["bar_diameter_mm"], p["embedment_mm"], p["member_thickness_mm"], p["concrete_strength_MPa"]
    lf = min(h, 12.0 * d) if d <= 24.0 else min(h, max(8.0 * d, 300.0))
    side = (e[1], e[3])
    c = e[0]
    if max(side) < 1.5 * c and t < 1.5 * c:                          # 7.2.2.5(12)
        c = min(c, max(max(side) / 1.5, t / 1.5, (s if n > 1 else 0.0) / 3.0))
    k9 = 1.7 if p["cracked"] else 2.4
    al, be = 0.1 * (lf / c) ** 0.5, 0.1 * (d / c) ** 0.2             # 7.42, 7.43
    V0 = k9 * d ** al * lf ** be * sqrt(fck) * c ** 1.5              # 7.41
    width = min(side[0], 1.5 * c) + (n - 1) * s + min(side[1], 1.5 * c)
    depth = min(t, 1.5 * c)
    A0 = 4.5 * c * c                                                 # 7.44
    A = min(width * depth, n * A0)
    ps = min(1.0, 0.7 + 0.3 * min(side) / (1.5 * c))                 # 7.45
    ph = max(1.0, sqrt(1.5 * c / t))                                 # 7.46
    pe = 1.0 / (1.0 + 2.0 * p.get("shear_eccentricity_mm", 0.0) / (3.0 * c))      # 7.47
    g = radians(p.get("shear_angle_from_edge_normal_deg", 0.0))
    pa = max(1.0, sqrt(1.0 / (cos(g) ** 2 + (0.5 * sin(g)) ** 2)))   # 7.48
    pr = p.get("psi_re_V", 1.0)
    V = V0 * A / A0 * ps * ph * pe * pa * pr                         # 7.40
    return dict(lf_mm=lf, c1_used_mm=c, k9=k9, alpha=al, beta=be, V0Rk_c_N=V0, width_mm=width, depth_mm=depth, A_c_V_mm2=A,
                A0_c_V_mm2=A0, psi_s_V=ps, psi_h_V=ph, psi_ec_V=pe, psi_alpha_V=pa, psi_re_V=pr, VRk_c_N=V)


B = {"concrete_strength_basis": "cylinder_characteristic"}

p = dict(B, mode="cone_tension", fastener="bonded", bar_diameter_mm=16.0, embedment_mm=125.0, concrete_strength_MPa=30.0, edge_1_mm=90.0,
         edge_2_mm=150.0, edge_3_mm=None, edge_4_mm=None, cracked=True, level="nominal")
v = cone(p)
add("E1", "7.2.1.4", "Cone of one bonded bar near a corner in cracked concrete.", p, v, {"force_N": v["NRk_c_N"]})

p = dict(B, mode="cone_tension", fastener="bonded", bar_diameter_mm=12.0, embedment_mm=80.0, concrete_strength_MPa=25.0, edge_1_mm=100.0,
         edge_2_mm=None, edge_3_mm=None, edge_4_mm=70.0, group_bars_along_axis_1=2, group_bars_along_axis_2=2, spacing_axis_1_mm=110.0,
         spacing_axis_2_mm=140.0, eccentricity_axis_1_mm=18.0, eccentricity_axis_2_mm=10.0, cracked=False, dense_reinforcement=True,
         level="design", partial_factor_concrete=1.5, partial_factor_installation=1.2)
v = cone(p)
v["gamma_Mc"] = 1.5 * 1.2
v["NRd_c_N"] = v["NRk_c_N"] / v["gamma_Mc"]
add("E2", "7.2.1.4, 4.4.3.1", "Design cone of a 2 by 2 group with two eccentricities near two edges, uncracked, dense reinforcement.", p, v, {"force_N": v["NRd_c_N"]})

p = dict(B, mode="cone_tension", fastener="bonded", bar_diameter_mm=20.0, embedment_mm=200.0, concrete_strength_MPa=35.0, edge_1_mm=130.0,
         edge_2_mm=160.0, edge_3_mm=None, edge_4_mm=180.0, group_bars_along_axis_1=2, group_bars_along_axis_2=1, spacing_axis_1_mm=220.0,
         spacing_axis_2_mm=0.0, cracked=True, level="nominal")
v = cone(p)
add("E3", "7.2.1.4(8)", "Cone of two bonded bars in a narrow member with three near edges, reduced depth.", p, v, {"force_N": v["NRk_c_N"]})

p = dict(B, mode="cone_tension", fastener="cast_in_headed", bar_diameter_mm=19.0, embedment_mm=110.0, concrete_strength_MPa=40.0,
         edge_1_mm=None, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None, group_bars_along_axis_1=2, group_bars_along_axis_2=1,
         spacing_axis_1_mm=150.0, spacing_axis_2_mm=0.0, eccentricity_axis_1_mm=40.0, compression_lever_arm_mm=120.0, cracked=False, level="nominal")
v = cone(p)
add("E4", "7.2.1.4(7)", "Cone of two headed fasteners far from edges with a compression force near by.", p, v, {"force_N": v["NRk_c_N"]})

p = dict(B, mode="combined_pullout_and_cone", fastener="bonded", bar_material="glass FRP", bar_diameter_mm=12.7, embedment_mm=110.0,
         concrete_strength_MPa=28.0, bond_strength_characteristic_MPa=6.0, bond_strength_characteristic_uncracked_C20_25_MPa=9.0,
         edge_1_mm=75.0, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None, cracked=True, sustained_ratio=0.5, psi_sus_0=0.6, level="nominal")
v = pullout(p)
add("E5", "7.2.1.6", "Combined pull-out and cone of one FRP bar near an edge in cracked concrete.", p, v, {"force_N": v["NRk_p_N"]})

p = dict(B, mode="combined_pullout_and_cone", fastener="bonded", bar_diameter_mm=16.0, embedment_mm=160.0, concrete_strength_MPa=32.0,
         bond_strength_characteristic_MPa=5.5, bond_strength_characteristic_uncracked_C20_25_MPa=10.0, edge_1_mm=130.0, edge_2_mm=140.0,
         edge_3_mm=None, edge_4_mm=None, group_bars_along_axis_1=2, group_bars_along_axis_2=2, spacing_axis_1_mm=150.0, spacing_axis_2_mm=150.0,
         eccentricity_axis_1_mm=25.0, cracked=True, sustained_ratio=0.75, psi_sus_0=0.6, level="nominal")
v = pullout(p)
add("E6", "7.2.1.6", "Combined pull-out and cone of a 2 by 2 group with equal spacings, corner, eccentric, sustained load, cracked.", p, v, {"force_N": v["NRk_p_N"]})

p = dict(B, mode="combined_pullout_and_cone", fastener="bonded", bar_diameter_mm=12.0, embedment_mm=140.0, concrete_strength_MPa=25.0,
         bond_strength_characteristic_MPa=8.0, bond_strength_characteristic_uncracked_C20_25_MPa=8.0, edge_1_mm=None, edge_2_mm=110.0,
         edge_3_mm=None, edge_4_mm=None, group_bars_along_axis_1=2, group_bars_along_axis_2=2, spacing_axis_1_mm=90.0, spacing_axis_2_mm=160.0,
         cracked=False, level="nominal")
v = pullout(p)
add("E7", "7.2.1.6", "Combined pull-out and cone of a 2 by 2 group with unequal spacings (mean of the two), one edge, uncracked.", p, v, {"force_N": v["NRk_p_N"]})

p = dict(B, mode="splitting", fastener="bonded", bar_diameter_mm=16.0, embedment_mm=130.0, concrete_strength_MPa=30.0,
         bond_strength_characteristic_MPa=11.0, bond_strength_characteristic_uncracked_C20_25_MPa=10.0, edge_1_mm=120.0, edge_2_mm=None, edge_3_mm=None,
         edge_4_mm=None, cracked=False, member_thickness_mm=200.0, minimum_thickness_mm=166.0, critical_edge_splitting_mm=260.0, level="nominal")
v = splitting(p)
add("E8", "7.2.1.7", "Splitting of one bonded bar near an edge, uncracked; N0Rk,sp from the basic single values.", p, v, {"force_N": v["NRk_sp_N"]})

p = dict(B, mode="splitting", fastener="bonded", bar_diameter_mm=12.0, embedment_mm=90.0, concrete_strength_MPa=25.0,
         bond_strength_characteristic_MPa=7.5, bond_strength_characteristic_uncracked_C20_25_MPa=7.5, edge_1_mm=80.0, edge_2_mm=105.0, edge_3_mm=None,
         edge_4_mm=None, group_bars_along_axis_1=1, group_bars_along_axis_2=2, spacing_axis_1_mm=0.0, spacing_axis_2_mm=130.0, eccentricity_axis_2_mm=22.0,
         cracked=False, member_thickness_mm=260.0, minimum_thickness_mm=120.0, critical_edge_splitting_mm=150.0, level="nominal")
v = splitting(p)
add("E9", "7.2.1.7", "Splitting of two bonded bars near a corner, eccentric, the thickness factor limited by (hef + 1.5 c1)/hmin.", p, v, {"force_N": v["NRk_sp_N"]})

p = dict(B, mode="edge_shear", fastener="bonded", bar_diameter_mm=16.0, embedment_mm=140.0, concrete_strength_MPa=28.0, edge_1_mm=115.0,
         edge_2_mm=140.0, edge_3_mm=None, edge_4_mm=None, member_thickness_mm=155.0, cracked=True, level="nominal")
v = edge(p)
add("E10", "7.2.2.5", "Edge breakout in shear of one bar near a corner in a thin cracked member.", p, v, {"force_N": v["VRk_c_N"]})

p = dict(B, mode="edge_shear", fastener="bonded", bar_diameter_mm=28.0, embedment_mm=340.0, concrete_strength_MPa=35.0, edge_1_mm=140.0,
         edge_2_mm=120.0, edge_3_mm=None, edge_4_mm=None, group_bars_along_axis_1=1, group_bars_along_axis_2=2, spacing_axis_1_mm=0.0,
         spacing_axis_2_mm=180.0, shear_eccentricity_mm=30.0, shear_angle_from_edge_normal_deg=35.0, member_thickness_mm=450.0,
         cracked=False, level="design", partial_factor_concrete=1.5, partial_factor_installation=1.0)
v = edge(p)
v["gamma_Mc"] = 1.5
v["VRd_c_N"] = v["VRk_c_N"] / 1.5
add("E11", "7.2.2.5, 4.4.3.1", "Design edge breakout in shear of two thick bars, inclined and eccentric load, lf limited to 300 mm, uncracked.", p, v, {"force_N": v["VRd_c_N"]})

p = dict(B, mode="edge_shear", fastener="bonded", bar_diameter_mm=20.0, embedment_mm=170.0, concrete_strength_MPa=30.0, edge_1_mm=210.0,
         edge_2_mm=150.0, edge_3_mm=None, edge_4_mm=190.0, member_thickness_mm=200.0, cracked=True, psi_re_V=1.4, level="nominal")
v = edge(p)
add("E12", "7.2.2.5(12)", "Edge breakout in shear in a narrow and thin cracked member with edge reinforcement, reduced c1.", p, v, {"force_N": v["VRk_c_N"]})

p = dict(B, mode="pryout", fastener="bonded", bar_diameter_mm=12.0, embedment_mm=90.0, concrete_strength_MPa=30.0, bond_strength_characteristic_MPa=5.0,
         bond_strength_characteristic_uncracked_C20_25_MPa=8.0, edge_1_mm=100.0, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None, cracked=True, level="nominal")
a, b = pullout(p), cone(p)
k8 = 1.0 if p["embedment_mm"] < 60.0 else 2.0                       # 7.2.2.4
v = dict(combined=a, cone=b, k8=k8, VRk_cp_N=k8 * min(a["NRk_p_N"], b["NRk_c_N"]))
add("E13", "7.2.2.4", "Pry-out of one bonded bar: k8 times the lesser of cone and combined pull-out.", p, v, {"force_N": v["VRk_cp_N"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
