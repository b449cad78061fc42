"""Mean-level models of bond, cone and bond, and edge shear, recomputed from their published equations.

Inputs are SI; models published in inch-pound units are converted exactly at entry.
"""
import json
from math import pi, sqrt, inf

MM = 25.4
LBF = 4.4482216152605
PSI = 6894.757293168e-6
K35 = 35.0 * LBF / (MM ** 1.5 * sqrt(PSI))                         # 35 psi-in. written for N, mm, MPa
CASES = []


def add(id_, code, clause, what, inputs, inter, result):
    CASES.append({"id": id_, "clause": clause, "code": code, "what": what,
                  "inputs": inputs, "intermediate": inter, "result": result})


# ---- uniform bond 1998 -------------------------------------------------------------------------------------------
def uniform(p):
    e = [inf if p.get("edge_%d_mm" % k) is None else p["edge_%d_mm" % k] for k in (1, 2, 3, 4)]
    t, d, h = p["bond_strength_mean_MPa"], p["bar_diameter_mm"], p["embedment_mm"]
    N0 = t * pi * d * h
    raw = 20.0 * d * sqrt(t / 10.0)                                # 2006 extension for edges
    scr = min(raw, 3.0 * h)
    c = scr / 2.0
    A = (min(e[0], c) + min(e[2], c)) * (min(e[1], c) + min(e[3], c))
    ed = min(1.0, 0.7 + 0.3 * min(e) / c)
    return dict(N0_N=N0, hef_over_d=h / d, scr_Na_uncapped_mm=raw, scr_Na_mm=scr, A_mm2=A, A0_mm2=scr ** 2, psi_edge=ed, N_N=A / scr ** 2 * ed * N0)


U = "uniform-bond-1998"
p = dict(bar_material="glass FRP", bar_diameter_mm=12.7, bar_area_mm2=129.0, bar_ultimate_strength_MPa=900.0, embedment_mm=95.0, bond_strength_mean_MPa=16.5,
         concrete_strength_MPa=32.0, concrete_strength_basis="cylinder", edge_1_mm=None, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None, cracked=False, level="mean")
v = uniform(p)
v["rupture_N"], v["cone_mean_35_psi_form_N"] = 129.0 * 900.0, K35 * sqrt(32.0) * 95.0 ** 1.5
v["smaller_of_N"] = min(v["N_N"], v["rupture_N"], v["cone_mean_35_psi_form_N"])
add("U1", U, "uniform bond, single bar", "Uniform bond of one glass bar far from edges; the smaller-of value is in the intermediates.", p, v, {"force_N": v["N_N"]})
p = dict(bar_material="steel", bar_diameter_mm=20.0, embedment_mm=170.0, bond_strength_mean_MPa=13.0, concrete_strength_MPa=28.0, concrete_strength_basis="cylinder",
         edge_1_mm=None, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None, cracked=False, level="mean")
v = uniform(p)
add("U2", U, "uniform bond, single bar", "Uniform bond of one steel bar far from edges.", p, v, {"force_N": v["N_N"]})
p = dict(bar_material="steel", bar_diameter_mm=16.0, embedment_mm=150.0, bond_strength_mean_MPa=11.0, concrete_strength_MPa=30.0, concrete_strength_basis="cylinder",
         edge_1_mm=65.0, edge_2_mm=120.0, edge_3_mm=None, edge_4_mm=None, cracked=False, level="mean")
v = uniform(p)
add("U3", U, "uniform bond with the 2006 edge extension", "Uniform bond of one bar near a corner.", p, v, {"force_N": v["N_N"]})


# ---- cone and bond -----------------------------------------------------------------------------------------------
def cb93(p):
    t, d, h, f = p["bond_strength_mean_MPa"], p["bar_diameter_mm"], p["embedment_mm"], p["concrete_strength_MPa"]
    hc = t * pi * d / (1.84 * sqrt(f))
    if hc >= h:
        return dict(hc_mm=hc, cone_only=True, cone_N=0.92 * h * h * sqrt(f), bond_N=0.0, N_N=0.92 * h * h * sqrt(f))
    a, b = 0.92 * hc * hc * sqrt(f), t * pi * d * (h - hc)
    return dict(hc_mm=hc, cone_only=False, cone_N=a, bond_N=b, N_N=a + b)


def ccb(p):
    t, d, h, f = p["bond_strength_mean_MPa"], p["bar_diameter_mm"], p["embedment_mm"], p["concrete_strength_MPa"]
    out = {}
    for name, k in (("", K35), ("with_14p6_", 14.6)):
        hc = (t * pi * d / (1.5 * k * sqrt(f))) ** 2
        x = min(hc, h)
        a, b = k * sqrt(f) * x ** 1.5, t * pi * d * (h - x)
        out.update({name + "k": k, name + "hc_mm": hc, name + "cone_only": hc >= h, name + "cone_N": a, name + "bond_N": b, name + "N_N": a + b})
    return out


for k, (mat, d, h, t, f, what) in enumerate([
        ("glass FRP", 12.7, 120.0, 13.0, 33.0, "one glass bar, shallow cone and bond below it"),
        ("steel", 25.0, 110.0, 20.0, 26.0, "one thick bar at a small depth, cone only"),
        ("steel", 20.0, 190.0, 9.0, 45.0, "one bar with weaker bond in strong concrete")], 1):
    p = dict(bar_material=mat, bar_diameter_mm=d, embedment_mm=h, bond_strength_mean_MPa=t, concrete_strength_MPa=f, concrete_strength_basis="cylinder",
             edge_1_mm=None, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None, cracked=False, level="mean")
    v = cb93(p)
    add("V%d" % k, "cone-bond-1993", "cone and bond 1993", "Cone and bond, " + what + ".", p, v, {"force_N": v["N_N"]})
    v = ccb(p)
    add("X%d" % k, "combined-cone-bond", "cone of the 1995 method with bond below", "Combined cone and bond, " + what + ".", p, v, {"force_N": v["N_N"]})


# ---- edge shear 2005 ---------------------------------------------------------------------------------------------
def es05(p):
    e = [inf if p.get("edge_%d_mm" % k) is None else p["edge_%d_mm" % k] for k in (1, 2, 3, 4)]
    n, s = p.get("group_bars_along_axis_2", 1), p.get("spacing_axis_2_mm", 0.0)
    d, l, c, t, f = p["bar_diameter_mm"], p["embedment_mm"], e[0], p["member_thickness_mm"], p["concrete_strength_MPa"]
    fcc = f if p["concrete_strength_basis"] == "cube_200mm" else f / 0.85
    al, be = 0.1 * sqrt(l / c), 0.1 * (d / c) ** 0.2
    V0 = 3.0 * d ** al * l ** be * sqrt(fcc) * c ** 1.5
    w, h = min(e[1], 1.5 * c) + (n - 1) * s + min(e[3], 1.5 * c), min(t, 1.5 * c)
    A0 = 4.5 * c * c
    A = min(w * h, n * A0)
    ps, ph = min(1.0, 0.7 + 0.3 * min(e[1], e[3]) / (1.5 * c)), max(1.0, sqrt(1.5 * c / t))
    pe = 1.0 / (1.0 + 2.0 * p.get("shear_eccentricity_mm", 0.0) / (3.0 * c))
    return dict(fcc_200_MPa=fcc, alpha=al, beta=be, V0_N=V0, AV_mm2=A, AV0_mm2=A0, psi_edge=ps, psi_thickness=ph, psi_eccentricity=pe, V_N=V0 * A / A0 * ps * ph * pe,
                without_psi_thickness_N=V0 * A / A0 * ps * pe)


Z = "edge-shear-2005"
p = dict(bar_diameter_mm=16.0, embedment_mm=110.0, concrete_strength_MPa=36.0, concrete_strength_basis="cube_200mm", edge_1_mm=90.0, edge_2_mm=None, edge_3_mm=None, edge_4_mm=None,
         member_thickness_mm=300.0, cracked=False, level="mean")
v = es05(p)
add("Z1", Z, "edge shear 2005", "Mean edge breakout of one bar, deep member.", p, v, {"force_N": v["V_N"]})
p = dict(bar_diameter_mm=20.0, embedment_mm=150.0, concrete_strength_MPa=28.0, concrete_strength_basis="cylinder", edge_1_mm=120.0, edge_2_mm=140.0, edge_3_mm=None, edge_4_mm=None,
         member_thickness_mm=160.0, cracked=False, level="mean")
v = es05(p)
add("Z2", Z, "edge shear 2005", "Mean edge breakout of one bar near a corner in a thin member, cylinder strength divided by 0.85.", p, v, {"force_N": v["V_N"]})
p = dict(bar_material="glass FRP", bar_diameter_mm=15.9, embedment_mm=100.0, concrete_strength_MPa=32.0, concrete_strength_basis="cylinder", edge_1_mm=75.0, edge_2_mm=None, edge_3_mm=None,
         edge_4_mm=95.0, group_bars_along_axis_1=1, group_bars_along_axis_2=2, spacing_axis_1_mm=0.0, spacing_axis_2_mm=130.0, shear_eccentricity_mm=15.0,
         member_thickness_mm=220.0, cracked=False, level="mean")
v = es05(p)
add("Z3", Z, "edge shear 2005", "Mean edge breakout of two bars along the edge, eccentric.", p, v, {"force_N": v["V_N"]})


# ---- bar in a beam: 2006, 1977, 408R -----------------------------------------------------------------------------
def ws06(p):
    d, l, f = p["bar_diameter_mm"] / MM, p["embedment_mm"] / MM, p["concrete_strength_MPa"] / PSI
    C = p["cover_mm"] + p["bar_diameter_mm"] / 2.0
    if p.get("centre_spacing_mm") is not None:
        C = min(C, p["centre_spacing_mm"] / 2.0)
    raw = C / p["bar_diameter_mm"]
    r = min(raw, 3.5)
    u = sqrt(f) * (4.0 + 0.3 * r + 100.0 * d / l)
    N = u * pi * d * l * LBF
    return dict(C_mm=C, C_over_db_raw=raw, C_over_db=r, le_over_db=l / d, u_psi=u, u_MPa=u * PSI, bond_force_N=N,
                rupture_N=p["bar_area_mm2"] * p["bar_ultimate_strength_MPa"], force_N=min(N, p["bar_area_mm2"] * p["bar_ultimate_strength_MPa"]))


for k, (d, A, fu, l, f, cov, s, what) in enumerate([
        (15.9, 199.0, 850.0, 360.0, 32.0, 35.0, None, "cover governs"),
        (19.1, 284.0, 780.0, 450.0, 41.0, 60.0, 110.0, "half spacing governs"),
        (12.7, 129.0, 950.0, 300.0, 28.0, 50.0, None, "C/db limited to 3.5")], 1):
    p = dict(bar_material="glass FRP", bar_diameter_mm=d, bar_area_mm2=A, bar_ultimate_strength_MPa=fu, embedment_mm=l, concrete_strength_MPa=f, concrete_strength_basis="cylinder",
             cover_mm=cov, centre_spacing_mm=s, level="mean")
    v = ws06(p)
    add("Y%d" % k, "wambeke-shield-2006", "mean bond of FRP bars 2006", "Mean bond force of an FRP bar in a beam, %s." % what, p, v, {"force_N": v["force_N"]})


def ojb(p):
    d, l, f = p["bar_diameter_mm"] / MM, p["embedment_mm"] / MM, p["concrete_strength_MPa"] / PSI
    raw = p["cmin_mm"] / p["bar_diameter_mm"]
    r = min(raw, 2.5)
    st = 0.0
    if p.get("transverse_area_mm2"):
        st = (p["transverse_area_mm2"] / MM ** 2) * (p["transverse_yield_strength_MPa"] / PSI) / (500.0 * p["transverse_spacing_mm"] / MM * d)
    u = sqrt(f) * (1.2 + 3.0 * r + 50.0 * d / l + min(st, 3.0))
    return dict(cmin_over_db_raw=raw, cmin_over_db=r, transverse_term_raw=st, transverse_term=min(st, 3.0), u_psi=u, u_MPa=u * PSI, force_N=u * pi * d * l * LBF)


for k, (d, l, f, c, A, s, what) in enumerate([
        (19.05, 400.0, 28.0, 30.0, None, None, "no stirrups"),
        (25.4, 560.0, 35.0, 38.0, 71.0, 125.0, "with stirrups"),
        (15.875, 260.0, 40.0, 47.0, 71.0, 110.0, "cover ratio limited to 2.5, with stirrups")], 1):
    p = dict(bar_material="steel", bar_diameter_mm=d, embedment_mm=l, concrete_strength_MPa=f, concrete_strength_basis="cylinder", cmin_mm=c, level="mean")
    if A:
        p.update(transverse_area_mm2=A, transverse_spacing_mm=s, transverse_yield_strength_MPa=420.0)
    v = ojb(p)
    add("O%d" % k, "orangun-1977", "mean bond of steel bars 1977", "Mean bond force of a steel bar, %s." % what, p, v, {"force_N": v["force_N"]})


def r408(p):
    d, l, f = p["bar_diameter_mm"] / MM, p["embedment_mm"] / MM, p["concrete_strength_MPa"] / PSI
    cm, cx, A = p["cmin_mm"] / MM, p["cmax_mm"] / MM, p["bar_area_mm2"] / MM ** 2
    ratio = min(0.1 * cx / cm + 0.90, 1.25)
    Tc = (59.9 * l * (cm + 0.5 * d) + 2400.0 * A) * ratio * f ** 0.25
    Ts, v = 0.0, {}
    if p.get("stirrup_leg_area_mm2"):
        tr, td = 9.6 * p["relative_rib_area"] + 0.28, 0.72 * d + 0.28
        Ts = (30.88 * td * tr * p["number_of_stirrups"] * p["stirrup_leg_area_mm2"] / MM ** 2 / p["bars_developed"] + 3.0) * f ** 0.75
        v.update(tr=tr, td=td)
    v.update(cover_ratio_term=ratio, le_over_db=l / d, Tc_lb=Tc, Ts_lb=Ts, T_lb=Tc + Ts, force_N=(Tc + Ts) * LBF, stress_MPa=(Tc + Ts) * LBF / p["bar_area_mm2"])
    return v


for k, (d, A, l, f, cm, cx, st, what) in enumerate([
        (19.05, 284.0, 420.0, 30.0, 32.0, 50.0, None, "no stirrups, moderate cover ratio"),
        (25.4, 510.0, 620.0, 38.0, 30.0, 140.0, None, "no stirrups, cover ratio term limited to 1.25"),
        (22.2, 387.0, 560.0, 34.0, 40.0, 55.0, (71.0, 5, 2, 0.11), "high rib area, with stirrups")], 1):
    p = dict(bar_material="steel", bar_diameter_mm=d, bar_area_mm2=A, embedment_mm=l, concrete_strength_MPa=f, concrete_strength_basis="cylinder", cmin_mm=cm, cmax_mm=cx, level="mean")
    if st:
        p.update(stirrup_leg_area_mm2=st[0], number_of_stirrups=st[1], bars_developed=st[2], relative_rib_area=st[3])
    v = r408(p)
    add("R%d" % k, "aci408r-03", "408R-03 mean bond force", "Mean bond force of a steel bar, %s." % what, p, v, {"force_N": v["force_N"]})

if __name__ == "__main__":
    print(json.dumps(CASES, indent=1))
