"""ACI 318-19 Chapter 17, both forms, for the seeded anchors. Run: python3 aci318_19.py > aci318_19.json"""
from math import pi, sqrt
from specimens import FAR, IN, LB, PSI, Plan, anchors, heads, written

# kc post, kc cast, deep, head side, edge shear a, welded, cap; bond reference; f'c caps post and cast; k_cp depth; deep range; tables.
US = dict(L=IN, S=PSI, F=LB, kp=17, kc=24, deep=16, side=160, va=7, vw=8, vb=9, t0=1100, fp=8000, fc=10000, shallow=2.5, deepr=(11, 25), futa=125000, table={1: (200, 650), 2: (300, 1000)})
SI = dict(L=1.0, S=1.0, F=1.0, kp=7, kc=10, deep=3.9, side=13, va=0.6, vw=0.66, vb=3.7, t0=7.6, fp=55, fc=70, shallow=65, deepr=(280, 635), futa=860, table={1: (1.4, 4.5), 2: (2.1, 7.0)})


class Specimen:
    def __init__(self, row, opt, u):
        self.row, self.opt, self.u = row, opt, u
        self.h, self.d, self.ha = (row[k] / u["L"] for k in ("embedment_mm", "bar_diameter_mm", "member_thickness_mm"))
        self.area = row["bar_area_mm2"] / u["L"] ** 2
        self.cast = row["installation"] == "cast_in"
        self.cracked = row["cracked"] == "yes"
        self.f = min(row["concrete_strength_MPa"] / u["S"], u["fc"] if self.cast else u["fp"])      # 17.3.1
        self.plan = Plan.of(row, u["L"])
        light = row["lightweight_factor"] if row["concrete_type"] == "lightweight" else None
        self.la = 1.0 if light is None else light * (1.0 if self.cast else 0.8)                   # Table 17.2.4.1
        self.la_bond = 1.0 if light is None else 0.6 * light
        self.plain = not opt["supplementary_reinforcement"]

    def breakout(self, parts=None):
        u, total = self.u, 0.0
        for part in parts or self.plan.parts(3 * self.h):                                        # 17.5.1.3.1
            near = [c for c in part.edges() if c < 1.5 * self.h]
            h = self.h
            if len(near) >= 3:                                                                   # 17.6.2.1.2
                h = min(h, max(max(near) / 1.5, part.largest_spacing() / 3))
            product = self.opt["product_k_c"]
            kc = min(product, u["kc"]) if product else (u["kc"] if self.cast else u["kp"])
            nb = kc * self.la * sqrt(self.f) * h ** 1.5
            if self.opt["deep_breakout"] and self.cast and u["deepr"][0] <= h <= u["deepr"][1]:
                nb = u["deep"] * self.la * sqrt(self.f) * h ** (5 / 3)
            least = min(part.edges())
            psi_ed = 1.0 if least >= 1.5 * h else 0.7 + 0.3 * least / (1.5 * h)
            psi_ec = 1.0
            for e in part.ecc:
                psi_ec /= 1 + e / (1.5 * h)
            psi_c = 1.0 if self.cracked or product else (1.25 if self.cast else 1.4)
            cac = self.opt["product_c_ac"] / u["L"] or 2 * self.h
            psi_cp = 1.0
            if not self.cast and not self.cracked and self.plain and least < cac:                # 17.6.2.6
                psi_cp = min(1.0, max(least, 1.5 * self.h) / cac)
            total += min(part.union(1.5 * h) / (9 * h * h), part.n) * psi_ec * psi_ed * psi_c * psi_cp * nb
        return total

    def stresses(self):
        if not self.opt["bond_table"]:
            return self.row["bond_strength_char_MPa"] / self.u["S"], self.row["bond_strength_uncracked_char_MPa"] / self.u["S"]
        cr, un = self.u["table"][self.opt["bond_table"]]
        factor = 0.4 if self.opt["sustained"] else 1.0
        cr, un = cr * factor, un * factor
        if self.opt["seismic"]:
            cr, un = 0.8 * cr, 0.4 * un
        return (cr if self.cracked else un), un

    def c_na(self):
        return 10 * self.d * sqrt(self.stresses()[1] / self.u["t0"])

    def bond(self, parts=None):
        tau, cna, total = self.stresses()[0], self.c_na(), 0.0
        for part in parts or self.plan.parts(2 * cna):
            least = min(part.edges())
            psi_ed = 1.0 if least >= cna else 0.7 + 0.3 * least / cna
            psi_ec = 1.0
            for e in part.ecc:
                psi_ec /= 1 + e / cna
            cac = self.opt["product_c_ac"] / self.u["L"] or 2 * self.h
            psi_cp = 1.0
            if not self.cracked and self.plain and least < cac:
                psi_cp = min(1.0, max(least, cna) / cac)
            total += min(part.union(cna) / (2 * cna) ** 2, part.n) * psi_ec * psi_ed * psi_cp * self.la_bond * tau * pi * self.d * self.h
        return total

    def edge_strength(self, ca1, row, sides, e, parallel):
        """One row at the distance ca1, without its neighbours behind or before it."""
        u = self.u
        side = (row[0] - sides[0], sides[1] - row[-1])
        s = row[1] - row[0] if len(row) > 1 else 0.0
        c = ca1
        if max(side) < 1.5 * ca1 and self.ha < 1.5 * ca1:                                        # 17.7.2.1.2
            c = min(ca1, max(max(side) / 1.5, self.ha / 1.5, s / 3))
        width = min(side[0], 1.5 * c) + row[-1] - row[0] + min(side[1], 1.5 * c)
        ratio = min(width * min(self.ha, 1.5 * c) / (4.5 * c * c), len(row))
        le = min(self.h, 8 * self.d)
        first = u["vw"] if self.opt["welded_to_plate"] and self.cast else u["va"]
        vb = min(first * (le / self.d) ** 0.2 * sqrt(self.d), u["vb"]) * self.la * sqrt(self.f) * c ** 1.5
        psi_ec = 1 / (1 + e / (1.5 * c))
        psi_ed = 1.0 if parallel or min(side) >= 1.5 * c else 0.7 + 0.3 * min(side) / (1.5 * c)
        psi_c = 1.4 if not self.cracked else (1.0, 1.2, 1.4)[self.opt["edge_reinforcement"]]
        return ratio * psi_ec * psi_ed * psi_c * max(1.0, sqrt(1.5 * c / self.ha)) * vb * (2 if parallel else 1)

    def edge_shear(self, edge, parallel):
        ca1, at, sides, e = self.plan.row_at(edge)
        if ca1 == FAR:
            return None
        axis = 0 if edge in (1, 3) else 1
        behind, s = len((self.plan.xs, self.plan.ys)[axis]), self.plan.spacing(axis)
        total = 0.0
        for row in [at] if len(at) < 2 or at[1] - at[0] <= 3 * ca1 else [[p] for p in at]:
            front = self.edge_strength(ca1, row, sides, e, parallel)
            if self.opt["rows_share_shear"] and behind > 1:                                      # R17.7.2.1
                rear = self.edge_strength(ca1 + (behind - 1) * s, row, sides, e, parallel)
                front = rear if self.opt["welded_to_plate"] and self.cast else front if s < ca1 else min(behind * front, rear)
            total += front
        return total

    def side_face(self):
        """17.6.4; heads in one row along the nearest edge."""
        c = self.plan.edges()
        ca1 = min(c)
        along_y = min(c[0], c[2]) <= min(c[1], c[3])                                             # the nearest edge is 1 or 3
        along, across = (self.plan.ys, self.plan.xs) if along_y else (self.plan.xs, self.plan.ys)
        if not self.h > 2.5 * ca1 or len(across) > 1:
            return None
        ca2 = min(c[1], c[3]) if along_y else min(c[0], c[2])
        one = self.u["side"] * ca1 * sqrt(self.opt["A_brg"] / self.u["L"] ** 2) * self.la * sqrt(self.f)
        if len(along) == 1:
            return one * ((1 + ca2 / ca1) / 4 if ca2 < 3 * ca1 else 1.0)
        return one * min(len(along), 1 + (along[-1] - along[0]) / (6 * ca1))                     # 17.6.4.2, without the corner

    def details(self):
        """17.9: (value, least) in mm by check, the value None where no edge is near; a check that does not concern is left out."""
        d, found, o = self.row["bar_diameter_mm"], {}, self.opt
        edge = min(self.plan.edges()) * self.u["L"]
        spacings = [s * self.u["L"] for s in (self.plan.spacing(0), self.plan.spacing(1)) if s > 0]
        if self.cast:
            kind, times = ("torqued", 6) if o["torqued"] else ("cast-in", 4)
            if spacings:
                found[f"spacing-{kind}"] = (min(spacings), times * d)
            if o["torqued"]:
                found["edge-torqued"] = (edge, 6 * d)
            elif o["cover_required"]:
                found["edge-cast-in"] = (edge - d / 2, o["cover_required"])
            return found
        if spacings:
            found["spacing-adhesive"] = (min(spacings), o["product_spacing"] or 6 * d)
        found["edge-adhesive"] = (edge, o["product_edge"] or 6 * d)
        if o["aggregate"]:
            found["edge-aggregate"] = (edge, 2 * o["aggregate"])
        if o["cover_required"]:
            found["edge-cover"] = (edge - d / 2, o["cover_required"])
        found["thickness-adhesive"] = (self.row["member_thickness_mm"], o["product_thickness"] or self.row["embedment_mm"] + 2 * self.row["hole_diameter_mm"])
        return found

    def head(self):
        return self.plan.n * (1.0 if self.cracked else 1.4) * 8 * self.opt["A_brg"] / self.u["L"] ** 2 * self.f

    def hook(self):
        e = self.opt["e_h"] / self.u["L"]
        return self.plan.n * (1.0 if self.cracked else 1.4) * 0.9 * self.f * e * self.d if 3 * self.d <= e <= 4.5 * self.d else None

    def shear_strength(self, level):
        measured, specified = self.row["bar_shear_strength_MPa"], self.row.get("bar_shear_strength_specified_MPa")
        return (measured if level == "expected" or specified is None else specified) / self.u["S"]

    def pryout(self):
        """By parts that act together in bond or in breakout; the bound by the sums of both clauses is asserted."""
        k = 1.0 if self.h < self.u["shallow"] else 2.0
        if self.cast:
            return k * self.breakout()
        parts = self.plan.parts(max(3 * self.h, 2 * self.c_na()))
        found = sum(min(self.breakout([part]), self.bond([part])) for part in parts)
        assert found <= min(self.breakout(), self.bond()) * (1 + 1e-12)
        return k * found

    def forces(self):
        """(nominal, strength reduction factor) by clause, in the form's units; None: no value."""
        o, steel, n = self.opt, self.row["bar_material"] == "steel", self.plan.n
        cat = o["installation_category"] - 1
        ductile = o["ductile"] and steel
        concrete = (0.70 if self.plain else 0.75) if self.cast else ((0.65, 0.55, 0.45) if self.plain else (0.75, 0.65, 0.55))[cat]
        sheared = 0.70 if self.plain else 0.75
        fu, fy = (None if self.row[k] is None else self.row[k] / self.u["S"] for k in ("bar_strength_MPa", "bar_yield_MPa"))
        futa = min(fu, 1.9 * fy, self.u["futa"]) if steel else fu
        grout = 0.8 if o["grout_pad"] else 1.0
        found = {
            "17.6.1.2": (n * self.area * futa, 0.75 if ductile else 0.65),
            "17.6.2": (self.breakout(), concrete),
            "17.7.1.2": (n * 0.6 * self.area * futa * grout if steel or o["literal_steel_shear"] else None, 0.65 if ductile else 0.60),
            "frp-transverse-shear": (None if steel else n * self.area * self.shear_strength("nominal"), 0.60),
            "17.7.2": (self.edge_shear(1, False), sheared),
            "17.7.2.1(c)-edge2": (self.edge_shear(2, True), sheared),
            "17.7.2.1(c)-edge4": (self.edge_shear(4, True), sheared),
            "17.7.3": (self.pryout(), 0.70),
        }
        if self.cast:
            return found | {"17.6.3.2.2a": (self.head(), 0.70), "17.6.3.2.2b": (self.hook(), 0.70), "17.6.4": (self.side_face(), concrete), "17.6.5": (None, concrete)}
        return found | {"17.6.5": (self.bond(), concrete), "17.5.2.2": (n * 0.55 * self.la_bond * self.stresses()[0] * pi * self.d * self.h if o["sustained"] else None, concrete)}


def options(row, rng):
    pick = lambda *of: of[int(rng.integers(len(of)))]
    cast = row["installation"] == "cast_in"
    d = row["bar_diameter_mm"]
    return dict(supplementary_reinforcement=pick(0, 0, 1), installation_category=pick(1, 2, 3), ductile=pick(0, 1), edge_reinforcement=pick(0, 1, 2), grout_pad=pick(0, 1), bond_table=0 if cast else pick(0, 0, 0, 1, 2),
                sustained=pick(0, 0, 1), seismic=pick(0, 1), headed_cast_in=int(cast), product_k_c=0, product_c_ac=pick(0, 0, round(row["embedment_mm"] * 1.7, 1)), deep_breakout=pick(0, 1), welded_to_plate=pick(0, 1), rows_share_shear=pick(0, 0, 1), torqued=pick(0, 1), cover_required=pick(0, 50), aggregate=pick(0, 20), product_spacing=pick(0, 5 * d), product_edge=pick(0, 5 * d), product_thickness=pick(0, 180),
                literal_steel_shear=pick(0, 1), A_brg=round(3.1 * d * d, 1) if cast else 0, e_h=round(d * pick(2.5, 3.2, 4.2), 2) if cast else 0)


cases = []
for row, rng in anchors() + heads():
    opt = options(row, rng)
    row["hole_diameter_mm"] = row["bar_diameter_mm"] + 4 if row["installation"] == "post_installed" else None
    forces, own, details = {}, {}, {}
    for code, u, kc in (("aci318-19", US, 21), ("aci318-19m", SI, 8.8)):
        mine = dict(opt, product_k_c=kc if row["installation"] == "post_installed" and int(row["id"][1:]) % 8 == 1 else 0)
        for clause, (value, phi) in Specimen(row, mine, u).forces().items():
            forces[f"{code} aci318-19/{clause} nominal"] = None if value is None else value * u["F"]
            forces[f"{code} aci318-19/{clause} design"] = None if value is None else value * phi * u["F"]
            if clause == "frp-transverse-shear":
                one = Specimen(row, mine, u)
                forces[f"{code} aci318-19/{clause} expected"] = None if value is None else one.plan.n * one.area * one.shear_strength("expected") * u["F"]
        details[code] = {check: (None if value == FAR else value, least) for check, (value, least) in Specimen(row, mine, u).details().items()}
        own[code] = {"product_k_c": mine["product_k_c"]}
    cases.append({"id": row.pop("id"), "row": row, "options": opt, "options_of": own, "forces_N": forces, "details_mm": details})
print(written(cases))
