"""EN 1992-4:2018 for the seeded anchors. Run: python3 en1992_4_2018.py > en1992_4_2018.json"""
from math import cos, pi, radians, sin, sqrt
from specimens import FAR, Plan, anchors, written


def eccentric(ecc, half):
    """1 / (1 + 2 e / s) for either axis, s = 2 half."""
    return 1 / ((1 + ecc[0] / half) * (1 + ecc[1] / half))


def near(c, critical):
    return 1.0 if c >= critical else 0.7 + 0.3 * c / critical


class Specimen:
    def __init__(self, row, opt):
        self.row, self.opt = row, opt
        self.h, self.d, self.t, self.f = (row[k] for k in ("embedment_mm", "bar_diameter_mm", "member_thickness_mm", "concrete_strength_MPa"))
        self.cast, self.cracked = row["installation"] == "cast_in", row["cracked"] == "yes"
        self.plan = Plan.of(row)

    def shell(self):
        return min(1.0, 0.5 + self.h / 200) if self.opt["dense_reinforcement"] and self.h < 100 else 1.0

    def k1(self):
        return (8.9 if self.cracked else 12.7) if self.cast else (7.7 if self.cracked else 11.0)

    def cone(self, parts=None):
        total = 0.0
        for part in parts or self.plan.parts(3 * self.h):
            half = 1.5 * self.h
            close = [c for c in part.edges() if c < half]
            h = self.h
            if len(close) >= 3:                                                        # 7.2.1.4(8)
                h = min(h, max(max(close) / half, part.largest_spacing() / (2 * half)) * h)
            half = 1.5 * h
            z = self.opt["compression_lever_arm"]
            psi_m = max(1.0, 2 - z / half) if z and min(part.edges()) >= half else 1.0
            total += (self.k1() * sqrt(self.f) * h ** 1.5 * part.union(half) / (4 * half * half) * near(min(part.edges()), half)
                      * self.shell() * eccentric(part.ecc, half) * psi_m)
        return total

    def sustained(self):
        a, p = self.opt["sustained_share"], self.opt["psi_sus_0"]
        return 1.0 if a <= p else p + 1 - a

    def combined(self, sus, parts=None):
        tau, uncracked = self.row["bond_strength_char_MPa"], self.row["bond_strength_uncracked_char_MPa"]
        scr = min(7.3 * self.d * sqrt(sus * uncracked), 3 * self.h)
        tau_c = (7.7 if self.cracked else 11.0) / (pi * self.d) * sqrt(self.h * self.f)
        total = 0.0
        for part in parts or self.plan.parts(scr):
            spacings = [s for s in (part.spacing(0), part.spacing(1)) if 0 < s <= scr]
            beside = (len(part.xs) if part.spacing(0) <= scr else 1) * (len(part.ys) if part.spacing(1) <= scr else 1)
            psi_g = 1.0
            if spacings:
                root = sqrt(beside)
                psi_0 = max(1.0, root - (root - 1) * (tau / tau_c) ** 1.5)
                psi_g = max(1.0, psi_0 - sqrt(sum(spacings) / len(spacings) / scr) * (psi_0 - 1))
            total += (sus * tau * pi * self.d * self.h * part.union(scr / 2) / scr ** 2 * psi_g * near(min(part.edges()), scr / 2)
                      * self.shell() * eccentric(part.ecc, scr / 2))
        return total

    def splitting(self):
        """The bond strength in the minimum is that of one bar, or by option holds its own areas and factors."""
        ratio, h_min = self.opt["c_cr_sp_ratio"], self.opt["h_min"]
        if self.cast or not ratio or self.opt["splitting_reinforced"]:
            return None
        ccr = ratio * self.h
        bond = lambda part: self.combined(self.sustained(), [part]) if self.opt["splitting_with_factors"] else self.sustained() * self.row["bond_strength_char_MPa"] * pi * self.d * self.h
        parts = self.plan.parts(2 * ccr)
        if all(min(p.edges()) >= (1.0 if p.n == 1 else 1.2) * ccr and self.t >= h_min for p in parts):
            return None
        total = 0.0
        for part in parts:
            c = min(part.edges())
            bound = 2.0 if c == FAR else min(2.0, max(1.0, ((self.h + 1.5 * c) / h_min) ** (2 / 3)))
            single = min(bond(part), self.k1() * sqrt(self.f) * self.h ** 1.5)
            total += single * part.union(ccr) / (4 * ccr * ccr) * near(c, ccr) * self.shell() * eccentric(part.ecc, ccr) * min((self.t / h_min) ** (2 / 3), bound)
        return total

    def edge(self, k):
        c1, at, sides, e = self.plan.row_at(k)
        if c1 == FAR or c1 > max(10 * self.h, 60 * self.d):
            return None
        lf = min(self.h, 12 * self.d) if self.d <= 24 else min(self.h, max(8 * self.d, 300))
        angle = radians(self.opt["load_angle"] if k in (1, 3) else 90 - self.opt["load_angle"])
        psi_a = max(1.0, sqrt(1 / (cos(angle) ** 2 + (0.5 * sin(angle)) ** 2)))
        rows = [at] if len(at) < 2 or at[1] - at[0] <= 3 * c1 else [[p] for p in at]
        total = 0.0
        for row in rows:
            side, s = (row[0] - sides[0], sides[1] - row[-1]), (row[1] - row[0] if len(row) > 1 else 0.0)
            c = min(c1, max(max(side) / 1.5, self.t / 1.5, s / 3)) if max(side) < 1.5 * c1 and self.t < 1.5 * c1 else c1
            alpha, beta = 0.1 * (lf / c) ** 0.5, 0.1 * (self.d / c) ** 0.2
            width = min(side[0], 1.5 * c) + row[-1] - row[0] + min(side[1], 1.5 * c)
            total += ((1.7 if self.cracked else 2.4) * self.d ** alpha * lf ** beta * sqrt(self.f) * c ** 1.5 * width * min(self.t, 1.5 * c) / (4.5 * c * c)
                      * near(min(side), 1.5 * c) * max(1.0, sqrt(1.5 * c / self.t)) * 1 / (1 + 2 * e / (3 * c)) * psi_a
                      * (1.4 if self.opt["edge_reinforcement"] and self.cracked else 1.0))
        # 6.2.2.2: a load along the edge is shared by all.
        along = self.opt["load_angle"] == (90 if k in (1, 3) else 0) and not self.opt["front_row_along_edge"]
        return total * (len((self.plan.xs, self.plan.ys)[0 if k in (1, 3) else 1]) if along else 1)

    def pryout(self):
        """By parts that act together in the cone; the bound by the sums of both clauses is asserted."""
        k8 = (self.opt["k_8"] or (1 if self.h < 60 else 2)) * (0.75 if self.opt["supplementary_reinforcement"] else 1.0)
        if self.cast:
            return k8 * self.cone()
        found = sum(min(self.cone([part]), self.combined(1.0, [part])) for part in self.plan.parts(3 * self.h))
        assert found <= min(self.cone(), self.combined(1.0)) * (1 + 1e-12)
        return k8 * found

    def steel_shear(self):
        f = self.row["bar_strength_MPa"]
        if (self.row["bar_material"] != "steel" and not self.opt["literal_steel_shear"]) or f > 1000 or self.opt["lever_arm"]:
            return None
        grout = self.opt["grout_thickness"]
        return (self.plan.n * (0.6 if f <= 500 else 0.5) * self.row["bar_area_mm2"] * f * (0.8 if self.opt["low_ductility"] and self.plan.n > 1 else 1.0)
                * (1 - 0.01 * grout if grout > self.d / 2 else 1.0))

    def lever_arm(self):
        f, la = self.row["bar_strength_MPa"], self.opt["lever_arm"]
        if self.row["bar_material"] != "steel" or not la:
            return None
        return self.plan.n * self.opt["alpha_M"] * 1.2 * pi * self.d ** 3 / 32 * f * (1 - self.opt["tension_share"]) / la

    def forces(self):
        """(characteristic, partial factor) by clause."""
        o, steel, f = self.opt, self.row["bar_material"] == "steel", self.row["bar_strength_MPa"]
        ratio = o["yield_ratio"] if steel else 1.0
        pulled, sheared, bar = o["gamma_c"] * o["gamma_inst"], o["gamma_c"], max(1.25, 1 / ratio) if f <= 800 and ratio <= 0.8 else 1.5
        found = {"7.2.1.3": (self.plan.n * self.row["bar_area_mm2"] * f, max(1.4, 1.2 / ratio) if steel else o.get("gamma_Ms_frp")), "7.2.1.4": (self.cone(), pulled), "7.2.1.7": (None if o["splitting_with_factors"] else self.splitting(), pulled), "7.2.1.7-factors": (self.splitting() if o["splitting_with_factors"] else None, pulled),
                 "7.2.2.3.1": (self.steel_shear(), bar), "7.2.2.3.2": (self.lever_arm(), bar), "7.2.2.5": (self.edge(1), sheared), "7.2.2.5-edge2": (self.edge(2), sheared), "7.2.2.5-edge4": (self.edge(4), sheared)}
        if self.cast:
            return found | {"7.2.1.6": (None, pulled), "7.2.2.4": (None, sheared), "7.2.2.4-headed": (self.pryout(), sheared)}
        return found | {"7.2.1.6": (self.combined(self.sustained()), pulled), "7.2.2.4": (self.pryout(), sheared), "7.2.2.4-headed": (None, sheared)}


def options(row, rng):
    pick = lambda *of: of[int(rng.integers(len(of)))]
    h = row["embedment_mm"]
    return dict(gamma_c=pick(1.5, 1.4), gamma_inst=pick(1.0, 1.2, 1.4), yield_ratio=pick(0.6, 0.8, 0.9), headed_cast_in=int(row["installation"] == "cast_in"), dense_reinforcement=pick(0, 1),
                compression_lever_arm=pick(0, 0, round(0.8 * h, 1)), sustained_share=pick(0.0, 0.5, 0.9), psi_sus_0=pick(0.6, 0.75), c_cr_sp_ratio=pick(1.5, 2.0, 2.4), h_min=round(h * 1.12 + 5, 1),
                splitting_reinforced=pick(0, 0, 0, 1), splitting_with_factors=pick(0, 1), k_8=pick(0, 0, 1.3), supplementary_reinforcement=pick(0, 1), load_angle=pick(0, 0, 25, 70), edge_reinforcement=pick(0, 1), low_ductility=pick(0, 1),
                literal_steel_shear=pick(0, 1), grout_thickness=pick(0, 4, 18), tension_share=pick(0.0, 0.35), lever_arm=pick(0, 0, 30), alpha_M=pick(1, 2))


cases = []
for row, rng in anchors(seed=20181104):
    opt = options(row, rng)
    turn = int(row["id"][1:])
    opt["front_row_along_edge"] = int(turn % 3 == 0)
    if turn % 4 < 2:                                                                   # else not stated: no design value of FRP
        opt["gamma_Ms_frp"] = 1.6
    if turn % 7 == 0:
        opt["load_angle"] = 90
    forces = {}
    for clause, (value, gamma) in Specimen(row, opt).forces().items():
        forces[f"en1992-4-2018 en1992-4-2018/{clause} nominal"] = value
        forces[f"en1992-4-2018 en1992-4-2018/{clause} design"] = None if value is None or gamma is None else value / gamma
    n = (row.get("group_nx") or 1) * (row.get("group_ny") or 1)
    forces["en1992-4-2018 en1992-4-2018/frp-transverse-shear nominal"] = None if row["bar_material"] == "steel" else n * row["bar_area_mm2"] * row.get("bar_shear_strength_specified_MPa", row["bar_shear_strength_MPa"])
    cases.append({"id": row.pop("id"), "row": row, "options": opt, "options_of": {}, "forces_N": forces})
print(written(cases))
