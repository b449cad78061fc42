"""Cases for provisions that few others check, written from the equation sheet's formulas, not from the library's.

Run: python3 thinly_covered.py > thinly_covered.json. Only the standard library is used. Each case is a row of tests.csv (columns
of the data contract), the options of the code, and the capacity in N by the provision named. In-lb codes convert exactly.
"""
import json
from math import pi, sqrt, sin, cos, radians, log

IN, LB, PSI = 25.4, 4.4482216152605, 0.00689475729316836
cases = []

def case(provision, code, row, force, options=None, level="nominal", what=""):
    cases.append({"id": f"T{len(cases) + 1}", "code": code, "provision": provision, "level": level, "what": what,
                  "row": row, "options": options or {}, "force_N": force})

def anchor(**more):
    return dict({"installation": "post_installed", "bar_material": "steel", "bar_surface": "ribbed", "concrete_strength_basis": "cylinder",
                 "concrete_type": "normal", "cracked": "yes"}, **more)

BIG = float("inf")

# ---- ACI 318-19, in-lb ------------------------------------------------------------------------------------------------------
# 17.6.3.2.2a: two heads, uncracked, f'c of 12,000 psi counts as 10,000 (17.3.1).
case("aci318-19/17.6.3.2.2a", "aci318-19",
     anchor(installation="cast_in", cracked="no", concrete_strength_MPa=12000 * PSI, embedment_mm=8 * IN, bar_diameter_mm=0.75 * IN, group_nx=2, spacing_x_mm=6 * IN),
     2 * 1.4 * 8 * 0.9 * 10000 * LB, {"A_brg": 0.9 * IN ** 2}, what="two heads, strength limited")

# 17.6.4: three deep heads along the nearest edge (edge 2), spacing 5 in., c_a1 3 in.
nsb = 160 * 3 * sqrt(0.8) * sqrt(4500)
case("aci318-19/17.6.4", "aci318-19",
     anchor(installation="cast_in", concrete_strength_MPa=4500 * PSI, embedment_mm=10 * IN, bar_diameter_mm=0.75 * IN, edge_2_mm=3 * IN, group_nx=3, spacing_x_mm=5 * IN),
     min(3, 1 + 2 * 5 / (6 * 3)) * nsb * LB, {"A_brg": 0.8 * IN ** 2}, what="row of three along edge 2")

# 17.7.2.1(c) for edge 4: load parallel to it; two bars beside it across, 6 in. thick, end edge 1 at 4 in.
def parallel(kappa1, kappa2, ca1, ends, n, s, ha, d, le, fc, psi_c):
    reach = lambda c: min(c, 1.5 * ca1)
    avc = min((reach(ends[0]) + (n - 1) * s + reach(ends[1])) * min(ha, 1.5 * ca1), n * 4.5 * ca1 ** 2)
    vb = min(kappa1 * (le / d) ** 0.2 * sqrt(d), kappa2) * sqrt(fc) * ca1 ** 1.5
    return 2 * avc / (4.5 * ca1 ** 2) * psi_c * max(1, sqrt(1.5 * ca1 / ha)) * vb

row = dict(concrete_strength_MPa=5000 * PSI, embedment_mm=5 * IN, bar_diameter_mm=0.5 * IN, edge_4_mm=5 * IN, edge_1_mm=4 * IN, group_nx=2, spacing_x_mm=7 * IN, member_thickness_mm=6 * IN, action="shear", setup="direct_shear")
case("aci318-19/17.7.2.1(c)-edge4", "aci318-19", anchor(**row), parallel(7, 9, 5, (4, BIG), 2, 7, 6, 0.5, min(5, 8 * 0.5), 5000, 1.2) * LB, {"edge_reinforcement": 1}, what="edge bar, thin member")
case("aci318-19/17.7.2.1(c)-edge4", "aci318-19m", anchor(**row),
     parallel(0.6, 3.7, 5 * IN, (4 * IN, BIG), 2, 7 * IN, 6 * IN, 0.5 * IN, 8 * 0.5 * IN, 5000 * PSI, 1.2), {"edge_reinforcement": 1}, what="the same, metric form")

# 25.4.2: top-cast, coated, grade 80, cover 1.5 in. clear, gap 3 in., No. 8.
def developed(k, db, cover, gap, le, fc, psi_t, psi_e, psi_s, psi_g, lam, ktr, fy, cap):
    cb = min(cover + db / 2, (gap + db) / 2)
    return min(k * lam * min(sqrt(fc), cap) * min((cb + ktr) / db, 2.5) * (le / db) / (min(psi_t * psi_e, 1.7) * psi_s * psi_g), fy)

row = dict(installation="cast_in", concrete_strength_MPa=6000 * PSI, embedment_mm=30 * IN, bar_diameter_mm=1 * IN, bar_area_mm2=0.79 * IN ** 2, cover_mm=1.5 * IN, bar_spacing_mm=3 * IN, casting_position="top", setup="beam_end",
           concrete_type="lightweight", lightweight_factor=0.75)
opts = {"coated_bar": 1, "steel_grade": 80, "transverse_index": 0.3 * IN}
case("aci318-19/25.4.2", "aci318-19", anchor(**row), 0.79 * developed(40 / 3, 1, 1.5, 3, 30, 6000, 1.3, 1.5, 1, 1.15, 0.75, 0.3, 80000, 100) * LB, opts, what="top, coated, grade 80, lightweight")
case("aci318-19/25.4.2", "aci318-19m", anchor(**row),
     0.79 * IN ** 2 * developed(1.1, IN, 1.5 * IN, 3 * IN, 30 * IN, 6000 * PSI, 1.3, 1.5, 1, 1.15, 0.75, 0.3 * IN, 550, 8.3), opts, what="the same, metric form")

# 17.5.2.2 with the outdoor table, sustained and seismic: 0.55 n tau pi d h, tau = 200 x 0.4 x 0.8.
case("aci318-19/17.5.2.2", "aci318-19", anchor(concrete_strength_MPa=4000 * PSI, embedment_mm=6 * IN, bar_diameter_mm=0.5 * IN, group_nx=2, group_ny=2, spacing_x_mm=8 * IN, spacing_y_mm=8 * IN),
     0.55 * 4 * 200 * 0.4 * 0.8 * pi * 0.5 * 6 * LB, {"bond_table": 1, "sustained": 1, "seismic": 1}, what="outdoor table, seismic")

# ---- ACI 318-19, metric form --------------------------------------------------------------------------------------------------
# 17.7.3 at 60 mm of embedment: k_cp 1; breakout and bond of a bar 70 mm from one edge, uncracked, supplementary reinforcement.
def pryout_metric(h, c, fc, tau, d):
    cna = 10 * d * sqrt(tau / 7.6)
    bond = (min(c, cna) + cna) * 2 * cna / (2 * cna) ** 2 * (1 if c >= cna else 0.7 + 0.3 * c / cna) * tau * pi * d * h
    cone = (min(c, 1.5 * h) + 1.5 * h) * 3 * h / (9 * h * h) * (1 if c >= 1.5 * h else 0.7 + 0.3 * c / (1.5 * h)) * 1.4 * 7 * sqrt(fc) * h ** 1.5
    return (1 if h < 65 else 2) * min(bond, cone)

for h in (60, 70):
    case("aci318-19/17.7.3", "aci318-19m", anchor(cracked="no", concrete_strength_MPa=30, embedment_mm=h, bar_diameter_mm=12, edge_3_mm=70, bond_strength_char_MPa=11, bond_strength_uncracked_char_MPa=11, action="shear", setup="direct_shear"),
         pryout_metric(h, 70, 30, 11, 12), {"supplementary_reinforcement": 1}, what=f"embedment {h} mm")
# 17.6.4 metric, one head in a corner; 17.6.3.2.2b metric, a hook; 17.7.1.2 metric behind grout.
case("aci318-19/17.6.4", "aci318-19m", anchor(installation="cast_in", concrete_strength_MPa=28, embedment_mm=250, bar_diameter_mm=20, edge_1_mm=60, edge_4_mm=100),
     (1 + 100 / 60) / 4 * 13 * 60 * sqrt(700) * sqrt(28), {"A_brg": 700}, what="corner")
case("aci318-19/17.6.3.2.2b", "aci318-19m", anchor(installation="cast_in", cracked="no", concrete_strength_MPa=28, embedment_mm=250, bar_diameter_mm=20), 1.4 * 0.9 * 28 * 80 * 20, {"e_h": 80}, what="hook, uncracked")
case("aci318-19/17.7.1.2", "aci318-19m", anchor(concrete_strength_MPa=28, embedment_mm=150, bar_diameter_mm=16, bar_area_mm2=201, bar_strength_MPa=900, bar_yield_MPa=450, action="shear", setup="direct_shear"),
     0.8 * 0.6 * 201 * min(900, 1.9 * 450, 860), {"grout_pad": 1}, what="grout, strength capped by 1.9 f_y")
case("aci318-19/17.6.1.2", "aci318-19m", anchor(concrete_strength_MPa=28, embedment_mm=150, bar_diameter_mm=16, bar_area_mm2=201, bar_strength_MPa=900, bar_yield_MPa=520), 201 * 860, what="capped by 860 MPa")

# ---- EN 1992-4 ------------------------------------------------------------------------------------------------------------------
def en_edge(c1, sides, n, s, h, hef, d, fck, k9, angle, psi_re):
    lf = min(hef, 12 * d) if d <= 24 else min(hef, max(8 * d, 300))
    if max(sides) < 1.5 * c1 and h < 1.5 * c1:
        c1 = min(c1, max(max(sides) / 1.5, h / 1.5, s / 3))
    alpha, beta = 0.1 * (lf / c1) ** 0.5, 0.1 * (d / c1) ** 0.2
    v0 = k9 * d ** alpha * lf ** beta * sqrt(fck) * c1 ** 1.5
    area = min((min(sides[0], 1.5 * c1) + (n - 1) * s + min(sides[1], 1.5 * c1)) * min(h, 1.5 * c1), n * 4.5 * c1 ** 2)
    c2 = min(sides)
    a = radians(angle)
    return (v0 * area / (4.5 * c1 ** 2) * (1 if c2 >= 1.5 * c1 else 0.7 + 0.3 * c2 / (1.5 * c1)) * max(1, sqrt(1.5 * c1 / h))
            * max(1, sqrt(1 / (cos(a) ** 2 + (0.5 * sin(a)) ** 2))) * psi_re)

row = dict(concrete_strength_MPa=30, embedment_mm=140, bar_diameter_mm=16, member_thickness_mm=180, action="shear", setup="direct_shear")
case("en1992-4-2018/7.2.2.5-edge2", "en1992-4-2018", anchor(edge_2_mm=110, edge_1_mm=150, **row), en_edge(110, (150, BIG), 1, 0, 180, 140, 16, 30, 1.7, 60, 1.4), {"load_angle": 30, "edge_reinforcement": 1}, what="load at 30 degrees to the normal of edge 1, so 60 to that of edge 2")
case("en1992-4-2018/7.2.2.5-edge4", "en1992-4-2018", anchor(cracked="no", edge_4_mm=120, edge_3_mm=100, group_nx=2, spacing_x_mm=90, **row), en_edge(120, (BIG, 100), 2, 90, 180, 140, 16, 30, 2.4, 90, 1), what="row of two along edge 4")
case("en1992-4-2018/7.2.2.5", "en1992-4-2018", anchor(edge_1_mm=200, edge_2_mm=150, edge_4_mm=140, **row), en_edge(200, (150, 140), 1, 0, 180, 140, 16, 30, 1.7, 0, 1), what="narrow and thin")

# 7.2.2.4: shallow bar (k_8 = 1), dense reinforcement, supplementary reinforcement; bond from the sheet with psi_sus 1.
def en_pryout(h, d, fck, tau, tau_uncr, c):
    re = min(1, 0.5 + h / 200) if h < 100 else 1
    scr = 3 * h
    edge = lambda cr: 1 if c >= cr else 0.7 + 0.3 * c / cr
    cone = 7.7 * sqrt(fck) * h ** 1.5 * (min(c, 1.5 * h) + 1.5 * h) * scr / scr ** 2 * edge(1.5 * h) * re
    sp = min(7.3 * d * sqrt(tau_uncr), 3 * h)
    bond = tau * pi * d * h * (min(c, sp / 2) + sp / 2) * sp / sp ** 2 * edge(sp / 2) * re
    return (1 if h < 60 else 2) * 0.75 * min(cone, bond)

for h in (55, 80):
    case("en1992-4-2018/7.2.2.4", "en1992-4-2018", anchor(concrete_strength_MPa=25, embedment_mm=h, bar_diameter_mm=10, edge_4_mm=60, bond_strength_char_MPa=7, bond_strength_uncracked_char_MPa=12, action="shear", setup="direct_shear"),
         en_pryout(h, 10, 25, 7, 12, 60), {"dense_reinforcement": 1, "supplementary_reinforcement": 1, "sustained_share": 0.9}, what=f"embedment {h} mm")
case("en1992-4-2018/7.2.2.4-headed", "en1992-4-2018", anchor(installation="cast_in", cracked="no", concrete_strength_MPa=35, embedment_mm=120, bar_diameter_mm=16, edge_1_mm=100, action="shear", setup="direct_shear"),
     1.5 * 12.7 * sqrt(35) * 120 ** 1.5 * (100 + 180) / 360 * (0.7 + 0.3 * 100 / 180), {"headed_cast_in": 1, "k_8": 1.5}, what="k_8 of the product")

# 7.2.1.7: a pair farther apart than s_cr,sp = 400 mm across; the near bar 80 mm from its edge, the far one counts whole.
h, ccr = 100, 200
n0 = min(9 * pi * 12 * h, 7.7 * sqrt(28) * h ** 1.5)
def psi_h(c, thickness, hmin):
    return min((thickness / hmin) ** (2 / 3), min(2, max(1, ((h + 1.5 * c) / hmin) ** (2 / 3))))
case("en1992-4-2018/7.2.1.7", "en1992-4-2018", anchor(concrete_strength_MPa=28, embedment_mm=h, bar_diameter_mm=12, edge_1_mm=80, group_nx=2, spacing_x_mm=450, bond_strength_char_MPa=9, bond_strength_uncracked_char_MPa=14, member_thickness_mm=180),
     n0 * ((80 + ccr) / (2 * ccr) * (0.7 + 0.3 * 80 / ccr) * psi_h(80, 180, 140) + psi_h(BIG, 180, 140)), {"c_cr_sp_ratio": 2, "h_min": 140}, what="pair taken apart")
case("en1992-4-2018/7.2.2.3.2", "en1992-4-2018", anchor(concrete_strength_MPa=28, embedment_mm=150, bar_diameter_mm=16, bar_strength_MPa=600, group_ny=2, spacing_y_mm=100, action="shear", setup="direct_shear"),
     2 * 2 * 1.2 * (pi * 16 ** 3 / 32) * 600 * (1 - 0.4) / 35, {"lever_arm": 35, "alpha_M": 2, "tension_share": 0.4}, what="restrained, beside tension")

# ---- FRP guides and bars ------------------------------------------------------------------------------------------------------------
def frp(**more):
    return dict({"installation": "cast_in", "bar_material": "gfrp", "bar_surface": "sand_coated", "concrete_strength_basis": "cylinder", "concrete_type": "normal", "cracked": "no", "setup": "beam_end"}, **more)

# CSA S6: k_1 1.3, k_4 0.8, K_tr 6 mm with E 45 GPa; d_cs the lesser of 30 + 8 and two thirds of 60 + 16.
dcs = min(min(30 + 8, 2 / 3 * 76) + 6 * 45000 / 200000, 2.5 * 16)
case("csa-s6-14/16.8.4", "csa-s6-14", frp(bar_diameter_mm=16, bar_area_mm2=199, bar_strength_MPa=900, bar_modulus_GPa=45, concrete_strength_MPa=36, cover_mm=30, bar_spacing_mm=60, casting_position="top", embedment_mm=320),
     199 * min(900, 320 * dcs * 0.4 * 6 / (0.45 * 1.3 * 0.8 * 199)), {"k_4": 0.8, "transverse_index": 6}, what="top, transverse bars")
# CSA S806: indented aramid, lightweight of low density, root of 45 limited to 5.
case("csa-s806-12/9.3.2", "csa-s806-12", frp(bar_material="afrp", bar_surface="indented", bar_diameter_mm=22.2, bar_area_mm2=387, bar_strength_MPa=1200, concrete_strength_MPa=45, cover_mm=20, bar_spacing_mm=35, embedment_mm=700, concrete_type="lightweight", lightweight_factor=0.75),
     387 * min(1200, 700 * min(20 + 11.1, 2 / 3 * 57.2, 2.5 * 22.2) * 5 / (1.15 * 1.3 * 1 * 1.25 * 1.8 * 387)), what="indented aramid, lightweight")
# W&S form in psi (440.11: glass, top 1.5) and in ksi (AASHTO).
ffr = sqrt(5000) / 1.5 * ((13.6 + min((1.25 + 0.375) / 0.75, 3.5)) * 24 / 0.75 + 340)
case("aci440.11-22/25.4.2", "aci440.11-22", frp(bar_diameter_mm=0.75 * IN, bar_area_mm2=0.44 * IN ** 2, bar_strength_MPa=93000 * PSI, concrete_strength_MPa=5000 * PSI, cover_mm=1.25 * IN, casting_position="top", embedment_mm=24 * IN),
     0.44 * min(ffr, 0.85 * 93000) * LB, {"C_E": 0.85}, what="top")
ffr = sqrt(5) / (31.6 * 1.5) * ((13.6 + min((1.25 + 0.375) / 0.75, 3.5)) * 24 / 0.75 + 340)
case("aashto-gfrp2-2018/2.9.7.4", "aashto-gfrp2-2018", frp(bar_diameter_mm=0.75 * IN, bar_area_mm2=0.44 * IN ** 2, bar_strength_MPa=93000 * PSI, concrete_strength_MPa=5000 * PSI, cover_mm=1.25 * IN, casting_position="top", embedment_mm=24 * IN),
     0.44 * min(ffr, 0.7 * 93) * 1000 * LB, {"C_E": 0.7}, what="top")
for fibre, share in (("afrp", 0.30), ("cfrp", 0.55)):
    case("aci440.1r-15/creep-rupture", "aci440.1r-15", frp(bar_material=fibre, bar_diameter_mm=12.7, bar_area_mm2=129, bar_strength_MPa=1500, concrete_strength_MPa=30, embedment_mm=400), share * 0.9 * 1500 * 129, {"C_E": 0.9, "sustained": 1}, what=fibre)

# ---- EN 1992-1-1, Model Code, mean models of steel -----------------------------------------------------------------------------------
def bar(**more):
    return dict({"installation": "cast_in", "bar_material": "steel", "bar_surface": "ribbed", "concrete_strength_basis": "cylinder", "concrete_type": "normal", "cracked": "no", "setup": "beam_end"}, **more)

# 2004: f_ck 55 (above C50), diameter 36 (eta_2), top (0.7), cover counted.
fctm = 2.12 * log(1 + (55 + 8) / 10)
fbk = 2.25 * 0.7 * (132 - 36) / 100 * 0.7 * fctm
case("en1992-1-1-2004/8.4", "en1992-1-1-2004", bar(bar_diameter_mm=36, bar_area_mm2=1018, concrete_strength_MPa=55, cover_mm=60, bar_spacing_mm=100, casting_position="top", embedment_mm=800),
     fbk * pi * 36 * 800 / max(0.7, min(1, 1 - 0.15 * (50 - 36) / 36)), {"count_cover": 1}, what="high strength, large bar, cover counted")
# 2023: long anchorage, stress above 435 MPa, poor position.
ref = 50 * 1.2 * 16 * sqrt(25 / 40) * (16 / 20) ** (1 / 3) * sqrt(1.5 * 16 / 45)
case("en1992-1-1-2023/11.4.2", "en1992-1-1-2023", bar(bar_diameter_mm=16, bar_area_mm2=201, concrete_strength_MPa=40, cover_mm=45, casting_position="top", embedment_mm=1.2 * ref), 201 * 435 * 1.2 ** (1 / 1.5), level="design", what="above 435 MPa")
# Model Code: other conditions, pull-out and splitting with transverse bars; basic bond of a coated 32 mm bar of grade 600.
row = dict(bar_diameter_mm=20, bar_area_mm2=314, concrete_strength_MPa=33, cover_mm=30, casting_position="top", embedment_mm=100)
case("fib-mc2010/6.1.1-pull-out", "fib-mc2010", bar(**row), 1.25 * sqrt(33) * pi * 20 * 100, level="expected", what="other bond conditions")
tau = min(0.7 * 6.5 * (33 / 25) ** 0.25 * (25 / 20) ** 0.2 * ((30 / 20) ** 0.33 * 1.8 ** 0.1 + 6 * 0.03), 1.25 * sqrt(33))
case("fib-mc2010/6.1.1-splitting", "fib-mc2010", bar(**row), tau * pi * 20 * 100, {"cover_ratio": 1.8, "k_m": 6, "K_tr": 0.03}, "expected", "other conditions, transverse bars")
case("fib-mc2010/6.1.3", "fib-mc2010", bar(bar_diameter_mm=32, bar_area_mm2=804, concrete_strength_MPa=30, embedment_mm=900), 1.4 * (25 / 32) ** 0.3 * 0.85 * sqrt(30 / 25) * pi * 32 * 900, {"coated_bar": 1, "f_yk": 600}, what="coated, large, grade 600")
fstm = 54 * (33 / 25) ** 0.25 * (400 / 20) ** 0.55 * (25 / 20) ** 0.2 * ((30 / 20) ** 0.25 * 1.8 ** 0.1 + 6 * 0.03)
case("fib-mc2010/6.1.3.3", "fib-mc2010", bar(bar_diameter_mm=20, bar_area_mm2=314, concrete_strength_MPa=33, cover_mm=30, embedment_mm=400), 314 * fstm, {"cover_ratio": 1.8, "k_m": 6, "K_tr": 0.03}, "expected", "transverse bars")
# 1977 with both bounds reached; 408R-03 with stirrups and the cover factor bounded.
d, le, fc = 0.75, 10, 5000
case("orangun-1977/bond", "orangun-1977", bar(bar_diameter_mm=d * IN, bar_area_mm2=0.44 * IN ** 2, concrete_strength_MPa=fc * PSI, cover_mm=3 * IN, embedment_mm=le * IN),
     sqrt(fc) * (1.2 + 3 * 2.5 + 50 * d / le + 3) * pi * d * le * LB, {"transverse_stress": 2000 * PSI}, "expected", "both bounds")
tc = fc ** 0.25 * (59.9 * le * (1 + 0.5 * d) + 2400 * 0.44) * 1.25
ts = (30.88 * (0.72 * d + 0.28) * (9.6 * 0.09 + 0.28) * 0.33 + 3) * fc ** 0.75
case("aci408r-03/bond", "aci408r-03", bar(bar_diameter_mm=d * IN, bar_area_mm2=0.44 * IN ** 2, concrete_strength_MPa=fc * PSI, cover_mm=1 * IN, embedment_mm=le * IN), (tc + ts) * LB,
     {"cover_ratio": 5, "transverse_area": 0.33 * IN ** 2, "R_r": 0.09}, "expected", "stirrups, cover factor bounded")
# Concrete capacity means in shear: corner, thin member counted, cracked; both forms.
def ccd_shear(k, c1, c2, ha, hef, d, f):
    area = (min(c2, 1.5 * c1) + 1.5 * c1) * min(ha, 1.5 * c1) / (4.5 * c1 ** 2)
    return 0.7 * k * (min(hef, 8 * d) / d) ** 0.2 * sqrt(d) * sqrt(f) * c1 ** 1.5 * area * (0.7 + 0.3 * c2 / (1.5 * c1)) * sqrt(1.5 * c1 / ha)

row = dict(concrete_strength_MPa=4000 * PSI, embedment_mm=6 * IN, bar_diameter_mm=0.625 * IN, edge_1_mm=5 * IN, edge_2_mm=6 * IN, member_thickness_mm=6 * IN, action="shear", setup="direct_shear")
case("ccd-1995/shear", "ccd-1995", anchor(**row), ccd_shear(13, 5, 6, 6, 6, 0.625, 4000) * LB, {"thin_member": 1}, "expected", "corner, thin, cracked")
case("ccd-1995/shear", "ccd-1995-cube", anchor(**row), ccd_shear(1.0, 5 * IN, 6 * IN, 6 * IN, 6 * IN, 0.625 * IN, 4000 * PSI / 0.85), {"thin_member": 1}, "expected", "corner, thin, cracked")
# Mean edge shear of 2005 in a narrow thin member, cracked.
case("edge-shear-2005/shear", "edge-shear-2005", anchor(concrete_strength_MPa=30, embedment_mm=140, bar_diameter_mm=16, member_thickness_mm=180, edge_1_mm=200, edge_2_mm=150, edge_4_mm=140, action="shear", setup="direct_shear"),
     en_edge(200, (150, 140), 1, 0, 180, 140, 16, 30 / 0.85, 0.7 * 3.0, 0, 1), level="expected", what="narrow and thin, cracked")

print(json.dumps(cases, indent=1))
