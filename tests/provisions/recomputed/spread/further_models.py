"""Bond-splitting of post-installed bars (TR 069), pryout (1995), side-face blowout (1991), dowels (1986), the group factor of
uniform bond (2006), and a lever arm or grout that the row states, for seeded specimens.

Written from the formulas as remembered, before the library's source of them. Needs numpy.
Run: python3 further_models.py > further_models.json"""
from math import exp, log, pi, sqrt

import numpy as np
from specimens import FAR, Plan, anchors, heads, rounded, written


def factor(c, critical):
    return 1.0 if c >= critical else 0.7 + 0.3 * c / critical


def eccentric(ecc, critical):
    return 1 / ((1 + 2 * ecc[0] / critical) * (1 + 2 * ecc[1] / critical))


class Anchor:
    def __init__(self, row, opt):
        self.row, self.opt = row, opt
        self.h, self.d, self.f = row["embedment_mm"], row["bar_diameter_mm"], row["concrete_strength_MPa"]
        self.cast = row["installation"] == "cast_in"
        self.plan = Plan.of(row)

    def cone(self, part):
        """13.5 or 15.5 sqrt(f_cube,200) h^1.5 with the factors of the capacity method, of bars that act together."""
        close = [c for c in part.edges() if c < 1.5 * self.h]
        r = min(self.h, max(max(close) / 1.5, part.largest_spacing() / 3)) if len(close) >= 3 else self.h
        crack = self.opt["crack_factor"] if self.row["cracked"] == "yes" else 1.0
        basic = (15.5 if self.cast else 13.5) * sqrt(self.f / 0.85) * r ** 1.5
        return basic * part.union(1.5 * r) / (3 * r) ** 2 * factor(min(part.edges()), 1.5 * r) * eccentric(part.ecc, 3 * r) * crack

    def critical(self):
        return min(20 * self.d * sqrt(self.row["bond_strength_mean_MPa"] / 10), 3 * self.h)

    def bond(self, part, grouped):
        """Uniform bond; areas as unions, so bars apart in bond leave out the ground between them."""
        tau, s = self.row["bond_strength_mean_MPa"], self.critical()
        one = tau * pi * self.d * self.h * part.union(s / 2) / s ** 2 * factor(min(part.edges()), s / 2) * eccentric(part.ecc, s)
        return one * (self.group(part, tau, s) if grouped else 1.0)

    def group(self, part, tau, s):
        root = sqrt(part.n)
        most = 13.5 * sqrt(self.h * self.f / 0.85) / (pi * self.d)
        if self.row["cracked"] == "yes":
            most *= self.opt["crack_factor"]
        first = max(1.0, root - (root - 1) * (tau / most) ** 1.5)
        spacings = [x for x in (part.spacing(0), part.spacing(1)) if x > 0]
        mean = sum(spacings) / len(spacings) if spacings else 0.0
        return max(1.0, first + sqrt(min(1.0, mean / s)) * (1 - first))

    def pryout(self):
        k = self.opt["k_cp"] or (1 if self.h < 65 else 2)
        parts = self.plan.parts(3 * self.h)
        cone = k * sum(self.cone(p) for p in parts)
        both = None if self.cast else k * sum(min(self.cone(p), self.bond(p, False)) for p in parts)
        return cone, both

    def dowel(self):
        """Steel: the printed 1.3 form with the load at a distance. FRP: equilibrium of bearing 5 f_c d and an elastic section."""
        d, n = self.d, self.plan.n
        e = (self.row.get("lever_arm_mm") or 0.0) / (self.row.get("lever_restraint") or 1)
        if self.row["bar_material"] == "steel":
            y = self.row["bar_yield_MPa"]
            eps = 3 * e / d * sqrt(self.f / y)
            v = 1.3 * (sqrt(1 + (1.3 * eps) ** 2) - 1.3 * eps) * d * d * sqrt(self.f * y)
            return n * min(v, self.row["bar_area_mm2"] * y / sqrt(3)), None
        q, moment = 5 * self.f * d, pi * d ** 3 / 32 * self.row["bar_strength_MPa"]
        # V from q x = V and V e + V x / 2 = M: a quadratic in V.
        v = max(np.roots([1 / (2 * q), e, -moment]).real)
        return None, n * min(float(v), self.row["bar_area_mm2"] * self.row["bar_shear_strength_MPa"])

    def stated(self):
        """EN 1992-4 and ACI 318-19 with the lever arm and the grout of the row."""
        arm, grout, d, n = self.row.get("lever_arm_mm") or 0.0, self.row.get("grout_thickness_mm") or 0.0, self.d, self.plan.n
        alpha, f, area = self.row.get("lever_restraint") or 1, self.row["bar_strength_MPa"], self.row["bar_area_mm2"]
        steel = self.row["bar_material"] == "steel"
        bending = n * alpha * 1.2 * pi * d ** 3 / 32 * f / arm if steel and arm else None
        straight = None
        if steel and not arm and f <= 1000 and grout <= 40:
            straight = n * (0.6 if f <= 500 else 0.5) * area * f * (1 - 0.01 * grout if grout > d / 2 else 1.0)
        aci = 0.6 * n * area * min(f, 1.9 * self.row["bar_yield_MPa"], 860) * (0.8 if grout else 1.0) if steel else None
        return {"en1992-4-2018 en1992-4-2018/7.2.2.3.2 nominal": bending, "en1992-4-2018 en1992-4-2018/7.2.2.3.1 nominal": straight, "aci318-19m aci318-19/17.7.1.2 nominal": aci}


def side_face(row, opt):
    """16.8 c sqrt(A_h) sqrt(f_cube,200), corner and row as in the code that rests on it."""
    plan = Plan.of(row)
    c = plan.edges()
    c1 = min(c)
    along = 1 if min(c[0], c[2]) <= min(c[1], c[3]) else 0
    side = min(c[1], c[3]) if along else min(c[0], c[2])
    at, across = ((plan.ys, plan.xs) if along else (plan.xs, plan.ys))
    if row["embedment_mm"] <= 2.5 * c1 or len(across) > 1:
        return None
    n = 16.8 * c1 * sqrt(opt["A_brg"]) * sqrt(row["concrete_strength_MPa"] / 0.85) * (opt["crack_factor"] if row["cracked"] == "yes" else 1.0)
    if len(at) == 1:
        return n * ((1 + side / c1) / 4 if side < 3 * c1 else 1.0)
    return n * min(len(at), 1 + (at[-1] - at[0]) / (6 * c1))


def split(row, opt):
    """TR 069, in logarithms: the exponents are the product's."""
    d, l, f = row["bar_diameter_mm"], row["embedment_mm"], row["concrete_strength_MPa"]
    half = FAR if row.get("bar_spacing_mm") is None else row["bar_spacing_mm"] / 2
    c = min(row["cover_mm"], half)
    confined = exp(opt["sp3"] * log(c / d) + opt["sp4"] * log(opt["cover_ratio"])) + opt["k_m"] * opt["K_tr"]
    eta = 0.7 if row.get("casting_position") == "top" else 1.0
    tau = eta * opt["A_k"] * exp(opt["sp1"] * log(f / 25) + opt["sp2"] * log(25 / d)) * confined
    tau *= 1.0 if l <= 7 * d else exp(opt["lb1"] * log(7 * d / l))
    cap = row["bond_strength_char_MPa"] * (1.0 if l <= 20 * d else exp(opt["lb1"] * log(20 * d / l)))
    return pi * d * l * min(tau, cap)


cases = []
for row, rng in anchors(seed=20231107, count=40):
    k = int(row["id"][1:])
    row["id"] = f"F{k}"
    cast = row["installation"] == "cast_in"
    if k % 3 == 0:
        row |= {"lever_arm_mm": rounded(rng.uniform(5, 60)), "lever_restraint": [None, 1, 2][k // 3 % 3]}
    if k % 4 == 1:
        row["grout_thickness_mm"] = rounded(rng.uniform(3, 45))
    row.pop("bar_shear_strength_specified_MPa", None)
    opt = dict(crack_factor=float(rng.choice([0.7, 0.75])), headed_cast_in=int(cast), k_cp=float(rng.choice([0, 0, 1.5])))
    one = Anchor(row, opt)
    cone, both = one.pryout()
    steel, frp = one.dowel()
    grouped = sum(one.bond(p, True) for p in one.plan.parts(one.critical()))
    forces = {"pryout-1995 pryout-1995/cone expected": cone, "pryout-1995 pryout-1995/bonded expected": both, "dowel-1986 dowel-1986/steel expected": steel,
              "dowel-1986 dowel-1986/frp expected": frp, "uniform-bond-2006 uniform-bond-2006/bond expected": grouped,
              "uniform-bond-2006 uniform-bond-2006/cone expected": sum(one.cone(p) for p in one.plan.parts(3 * one.h)), "uniform-bond-2006 uniform-bond-2006/bar-rupture expected": one.plan.n * row["bar_area_mm2"] * row["bar_strength_MPa"], **one.stated()}
    cases.append({"id": row.pop("id"), "row": row, "options": opt, "options_of": {}, "forces_N": forces})

for row, rng in heads(seed=19910130, count=16):
    row["id"] = f"G{row['id'][1:]}"
    opt = dict(A_brg=rounded(rng.uniform(200, 2500)), crack_factor=0.7)
    cases.append({"id": row.pop("id"), "row": row, "options": opt, "options_of": {}, "forces_N": {"ccd-1995-cube ccd-1995/side-face expected": side_face(row, opt)}})

rng = np.random.default_rng(20191001)
for k in range(30):
    steel, d = k % 3 != 2, float(rng.choice([8, 10, 12, 16, 20, 25, 32]))
    row = {
        "bar_material": "steel" if steel else "gfrp", "bar_surface": "ribbed", "bar_diameter_mm": d, "bar_area_mm2": rounded(pi / 4 * d * d * rng.uniform(0.97, 1.03)), "bar_strength_MPa": rounded(rng.uniform(560, 1200)),
        "bar_yield_MPa": rounded(rng.uniform(450, 560)) if steel and k % 2 else None, "installation": "post_installed", "bond_strength_char_MPa": rounded(rng.uniform(5, 16), 2), "concrete_strength_MPa": rounded(rng.uniform(18, 70)),
        "concrete_strength_basis": "cylinder", "cracked": "yes" if k % 2 else "no", "embedment_mm": rounded(d * rng.uniform(4, 45)), "cover_mm": rounded(d * rng.uniform(0.6, 6)),
        "bar_spacing_mm": rounded(d * rng.uniform(1.5, 9)) if k % 3 else None, "casting_position": "top" if k % 5 == 0 else "good", "setup": "beam_end",
    }
    opt = dict(A_k=rounded(rng.uniform(3, 7), 2), sp1=rounded(rng.uniform(0.1, 0.5), 3), sp2=rounded(rng.uniform(0.1, 0.5), 3), sp3=rounded(rng.uniform(0.2, 0.9), 3), sp4=rounded(rng.uniform(0.05, 0.5), 3), lb1=rounded(rng.uniform(0.3, 0.7), 3),
               cover_ratio=float(rng.choice([1, 1.7, 3])), k_m=float(rng.choice([12, 6])), K_tr=float(rng.choice([0, 0.02])), gamma_c=1.5, gamma_inst=float(rng.choice([1.0, 1.2, 1.4])), f_yk=500)
    value = split(row, opt)
    cone = (7.7 if row["cracked"] == "yes" else 11.0) * sqrt(row["concrete_strength_MPa"]) * row["embedment_mm"] ** 1.5
    bar = row["bar_area_mm2"] * (row["bar_yield_MPa"] or 500) if steel else None
    pulled = 1.5 * opt["gamma_inst"]
    name = "eota-tr069-2019 eota-tr069-2019/"
    forces = {f"{name}splitting nominal": value, f"{name}splitting design": value / pulled, f"{name}cone nominal": cone, f"{name}cone design": cone / pulled, f"{name}yield nominal": bar, f"{name}yield design": None if bar is None else bar / 1.15}
    cases.append({"id": f"P{k + 1}", "row": row, "options": opt, "options_of": {}, "forces_N": forces})
print(written(cases))
