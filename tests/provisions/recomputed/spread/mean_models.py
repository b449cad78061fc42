"""Mean models of anchors for the seeded specimens: concrete capacity method (1995, both forms), edge shear (2005), uniform bond
(1998, edges and spacing of 2006), cone with bond (1993 and concrete-capacity form). Run: python3 mean_models.py > mean_models.json"""
from math import pi, sqrt
from specimens import FAR, IN, LB, PSI, Plan, anchors, written


class Specimen:
    def __init__(self, row, opt):
        self.row, self.opt = row, opt
        self.h, self.d, self.t, self.f = (row[k] for k in ("embedment_mm", "bar_diameter_mm", "member_thickness_mm", "concrete_strength_MPa"))
        self.cast, self.cracked = row["installation"] == "cast_in", row["cracked"] == "yes"

    def crack(self):
        return self.opt["crack_factor"] if self.cracked else 1.0

    def cone(self, L, k, f):
        """Section 2.1 with the factors of 1.3; N_n0 = k sqrt(f) h^1.5."""
        h, total = self.h / L, 0.0
        for part in Plan.of(self.row, L).parts(3 * h):
            close = [c for c in part.edges() if c < 1.5 * h]
            r = min(h, max(max(close) / 1.5, part.largest_spacing() / 3)) if len(close) >= 3 else h
            least = min(part.edges())
            ed = 1.0 if least >= 1.5 * r else 0.7 + 0.3 * least / (1.5 * r)
            ec = 1 / ((1 + part.ecc[0] / (1.5 * r)) * (1 + part.ecc[1] / (1.5 * r)))
            total += k * sqrt(f) * r ** 1.5 * part.union(1.5 * r) / (9 * r * r) * ed * ec * self.crack()
        return total

    def rows(self, L):
        ca1, at, sides, e = Plan.of(self.row, L).row_at(1)
        if ca1 == FAR:
            return None
        parts = [at] if len(at) < 2 or at[1] - at[0] <= 3 * ca1 else [[p] for p in at]
        thick = self.t / L
        found = []
        for row in parts:
            side, s = (row[0] - sides[0], sides[1] - row[-1]), (row[1] - row[0] if len(row) > 1 else 0.0)
            c = min(ca1, max(max(side) / 1.5, thick / 1.5, s / 3)) if max(side) < 1.5 * ca1 and thick < 1.5 * ca1 else ca1
            width = min(side[0], 1.5 * c) + row[-1] - row[0] + min(side[1], 1.5 * c)
            ed = 1.0 if min(side) >= 1.5 * c else 0.7 + 0.3 * min(side) / (1.5 * c)
            ec = 1 / (1 + e / (1.5 * c))
            found.append((c, width * min(thick, 1.5 * c) / (4.5 * c * c) * ed * ec, max(1.0, sqrt(1.5 * c / thick))))
        return found

    def shear_1995(self, L, k, f):
        rows = self.rows(L)
        d, le = self.d / L, min(self.h, 8 * self.d) / L
        thin = lambda factor: factor if self.opt["thin_member"] else 1.0
        return None if rows is None else sum(k * (le / d) ** 0.2 * sqrt(d) * sqrt(f) * c ** 1.5 * ratio * thin(psi_h) * self.crack() for c, ratio, psi_h in rows)

    def shear_2005(self):
        rows = self.rows(1.0)
        if rows is None or self.row["edge_1_mm"] > max(10 * self.h, 60 * self.d):
            return None
        lf = min(self.h, 12 * self.d) if self.d <= 24 else min(self.h, max(8 * self.d, 300))
        v = lambda c: 3.0 * self.d ** (0.1 * (lf / c) ** 0.5) * lf ** (0.1 * (self.d / c) ** 0.2) * sqrt(self.f / 0.85) * c ** 1.5
        return sum(v(c) * ratio * psi_h * self.crack() for c, ratio, psi_h in rows)

    def uniform(self):
        tau = self.row["bond_strength_mean_MPa"]
        scr = min(20 * self.d * sqrt(tau / 10), 3 * self.h)
        total = 0.0
        for part in Plan.of(self.row).parts(scr):
            least = min(part.edges())
            ed = 1.0 if least >= scr / 2 else 0.7 + 0.3 * least / (scr / 2)
            total += tau * pi * self.d * self.h * part.union(scr / 2) / scr ** 2 * ed / ((1 + 2 * part.ecc[0] / scr) * (1 + 2 * part.ecc[1] / scr))
        return total

    def cone_bond(self, derived):
        if Plan.of(self.row).n > 1:
            return None
        shear, root = self.row["bond_strength_mean_MPa"] * pi * self.d, sqrt(self.f)
        cone = (lambda z: 14.6 * root * z ** 1.5) if derived else (lambda z: 0.92 * root * z * z)
        depth = (shear / (1.5 * 14.6 * root)) ** 2 if derived else shear / (1.84 * root)
        return cone(self.h) if self.h < depth else cone(depth) + shear * (self.h - depth)


cases = []
for row, rng in anchors(seed=19950102):
    cast = row["installation"] == "cast_in"
    opt = dict(crack_factor=float(rng.choice([0.7, 0.75])), headed_cast_in=int(cast), thin_member=int(rng.integers(2)))
    one = Specimen(row, opt)
    psi, cube = row["concrete_strength_MPa"] / PSI, row["concrete_strength_MPa"] / 0.85
    us, si = one.cone(IN, 40 if cast else 35, psi) * LB, one.cone(1.0, 15.5 if cast else 13.5, cube)
    v_us, v_si = one.shear_1995(IN, 13, psi), one.shear_1995(1.0, 1.0, cube)
    n = (row.get("group_nx") or 1) * (row.get("group_ny") or 1)
    found = {"ccd-1995 ccd-1995/tension": us, "ccd-1995-cube ccd-1995/tension": si, "ccd-1995 ccd-1995/shear": None if v_us is None else v_us * LB, "ccd-1995-cube ccd-1995/shear": v_si,
             "edge-shear-2005 edge-shear-2005/shear": one.shear_2005(), "uniform-bond-1998 uniform-bond-1998/cone": si, "uniform-bond-1998 uniform-bond-1998/bar-rupture": n * row["bar_area_mm2"] * row["bar_strength_MPa"],
             "uniform-bond-1998 uniform-bond-1998/bond": one.uniform(), "cone-bond-1993 cone-bond-1993/tension": one.cone_bond(False), "combined-cone-bond combined-cone-bond/tension": one.cone_bond(True)}
    cases.append({"id": row.pop("id"), "row": row, "options": opt, "options_of": {}, "forces_N": {f"{key} expected": value for key, value in found.items()}})
print(written(cases))
