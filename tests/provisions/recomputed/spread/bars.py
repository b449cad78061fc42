"""Embedded bars by the guides, the steel codes and the mean models of bond, both ways: force at an embedment and length for a stress.

Run: python3 bars.py > bars.json
"""
from math import log, pi, sqrt
from specimens import IN, LB, PSI, bars, written


class Bar:
    def __init__(self, row, opt):
        self.row, self.opt = row, opt
        self.d, self.a, self.le, self.f, self.cover = (row[k] for k in ("bar_diameter_mm", "bar_area_mm2", "embedment_mm", "concrete_strength_MPa", "cover_mm"))
        self.gap = row["bar_spacing_mm"] or float("inf")
        self.top, self.light = row["casting_position"] == "top", row["concrete_type"] == "lightweight"
        self.fibre, self.surface = row["bar_material"], row["bar_surface"]
        self.steel = self.fibre == "steel"
        self.deformed = self.surface != "plain"
        self.cb = min(self.cover + self.d / 2, (self.gap + self.d) / 2)
        self.dcs = min(self.cover + self.d / 2, 2 / 3 * (self.gap + self.d))
        self.lam = row["lightweight_factor"] if self.light else 1.0

    def yield_strength(self, code):
        """What the row states, else the option."""
        return self.row["bar_yield_MPa"] or self.opt[code]["f_yk"]

    def grade(self, metric):
        """Of a stated yield strength the nearest grade, by limits halfway between them; else the option."""
        fy = self.row["bar_yield_MPa"]
        if not fy:
            return self.opt["aci318"]["steel_grade"]
        low, high = (485, 620) if metric else (70000 * PSI, 90000 * PSI)
        return 60 if fy < low else 80 if fy < high else 100

    def guide(self, root, cap):
        """440.1R: below 20 diameters linear from the stress there, the bar's strength included; by option the equation itself."""
        whole = self.le
        if whole >= 20 * self.d or self.opt["aci440.1r-15"]["extrapolate_below_20_d"]:
            return self.wambeke(root, cap)
        self.le = 20 * self.d
        full = self.wambeke(root, cap)
        self.le = whole
        return full * whole / (20 * self.d)

    # 440 family: bracket in the units of root f'c
    def wambeke(self, root, cap):
        alpha = 1.5 if self.top else 1.0
        c = min(self.cb / self.d, 3.5)
        return min(root / alpha * (13.6 * self.le / self.d + c * self.le / self.d + 340), cap)

    def wambeke_length(self, f_over_root):
        return ((1.5 if self.top else 1.0) * f_over_root - 340) / (13.6 + min(self.cb / self.d, 3.5)) * self.d

    def s806(self):
        k4 = {"gfrp": 1.0, "cfrp": 1.0, "afrp": 1.25}.get(self.fibre) or self.opt["csa-s806-12"]["k_4_basalt"]
        k5 = {"sand_coated": 1.0, "sand_coated_helical": 1.0, "ribbed": 1.05, "helically_wrapped": 1.05, "indented": 1.8}[self.surface]
        k2 = (1.2 if self.opt["csa-s806-12"]["semi_low_density"] else 1.3) if self.light else 1.0
        k = (1.3 if self.top else 1.0) * k2 * (0.8 if self.a <= 300 else 1.0) * k4 * k5
        return 1.15 * k * self.a / (min(self.dcs, 2.5 * self.d) * min(sqrt(self.f), 5.0)) if k else None       # mm of length per MPa

    def s6(self):
        o = self.opt["csa-s6-14"]
        c = min(self.dcs + o["transverse_index"] * self.row["bar_modulus_GPa"] / 200, 2.5 * self.d)
        return 0.45 * (1.3 if self.top else 1.0) * o["k_4"] * self.a / (c * 0.4 * sqrt(self.f))

    def jsce(self, gamma):
        o = self.opt["jsce-1997"]
        kc = min(self.cover, self.gap / 2) / self.d + o["transverse_index"] / self.d
        alpha = next((a for limit, a in ((1.0, 1.0), (1.5, 0.9), (2.0, 0.8), (2.5, 0.7)) if kc <= limit), 0.6)
        return alpha, min(0.28 * o["alpha_2"] * self.f ** (2 / 3) / gamma, 3.2)

    def ec2_2004(self):
        fcm = self.f + 8
        fctm = 0.3 * self.f ** (2 / 3) if self.f <= 50 else 2.12 * log(1 + fcm / 10)
        fctk = 0.7 * min(fctm, 2.12 * log(1 + 68 / 10))                                                # no more than that of C60/75
        return 2.25 * (0.7 if self.top else 1.0) * (1.0 if self.d <= 32 else (132 - self.d) / 100) * fctk

    def alpha_2(self):
        if not self.opt["en1992-1-1-2004"]["count_cover"]:
            return 1.0
        cd = min(self.cover, self.gap / 2)
        return max(0.7, min(1.0, 1 - 0.15 * (cd - self.d) / self.d))

    def ec2_2023(self):
        o = self.opt["en1992-1-1-2023"]
        cd = min(self.cover + 0.0, self.gap / 2)
        return o["k_lb"] * (o["k_cp_poor"] if self.top else 1.0) * self.d * sqrt(25 / self.f) * (self.d / 20) ** (1 / 3) * sqrt(1.5 * self.d / cd)

    def basic_bond(self):
        o = self.opt["fib-mc2010"]
        eta_1 = 0.9 if self.surface == "plain" else (1.4 if o["coated_bar"] else 1.75)
        fy = self.row["bar_yield_MPa"] - 50 if self.row["bar_yield_MPa"] else o["f_yk"]                 # the nearest grade
        eta_4 = next((eta for most, eta in ((400, 1.2), (500, 1.0), (600, 0.85), (700, 0.75)) if fy <= most), 0.68)
        return eta_1 * (0.7 if self.top else 1.0) * (1.0 if self.d <= 25 else (25 / self.d) ** 0.3) * eta_4 * sqrt(self.f / 25)

    def confined(self, exponent):
        o = self.opt["fib-mc2010"]
        c = min(self.cover, self.gap / 2)
        return (25 / self.d) ** 0.2 * ((c / self.d) ** exponent * o["cover_ratio"] ** 0.1 + o["k_m"] * o["K_tr"])

    def aci(self, metric):
        """(stress developed per length, cap of the root's, least length), lengths in the form's units; 25.4.2.4a."""
        o, L, S = self.opt["aci318"], *((1.0, 1.0) if metric else (IN, PSI))
        stated, own = self.row["bar_yield_MPa"], self.grade(metric)
        grade = stated / S if stated else {40: (40000, 280), 60: (60000, 420), 80: (80000, 550), 100: (100000, 690)}[own][metric]
        psi = min((1.3 if self.top else 1.0) * {0: 1.0, 1: 1.5, 2: 1.2}[o["coated_bar"]], 1.7) * (0.8 if self.d <= 19.1 else 1.0) * {40: 1.0, 60: 1.0, 80: 1.15, 100: 1.3}[self.grade(metric)]
        root = min(sqrt(self.f / S), 8.3 if metric else 100)
        conf = min((self.cb + o["transverse_index"]) / self.d, 2.5)
        return (1.1 if metric else 40 / 3) * self.lam * root * conf / (self.d / L * psi), grade

    def simplified(self, metric, f):
        """25.4.2.3, mm for f in MPa: the good case needs a clear cover and spacing of one diameter with stirrups, or two of spacing."""
        o, S = self.opt["aci318"], 1.0 if metric else PSI
        good = self.cover >= self.d and (self.gap >= 2 * self.d or (self.gap >= self.d and o["confining_stirrups"]))
        small = self.d <= 19.1
        k = ((2.1, 1.7) if good else (1.4, 1.1)) if metric else ((25, 20) if good else (50 / 3, 40 / 3))
        psi = min((1.3 if self.top else 1.0) * {0: 1.0, 1: 1.5, 2: 1.2}[o["coated_bar"]], 1.7) * {40: 1.0, 60: 1.0, 80: 1.15, 100: 1.3}[self.grade(metric)]
        root = min(sqrt(self.f / S), 8.3 if metric else 100)
        return max(f / S * psi / (k[0 if small else 1] * self.lam * root) * self.d, 300 if metric else 12 * IN)

    def forces(self):
        o, fu = self.opt, self.row["bar_strength_MPa"]
        out = {}
        frp = not self.steel
        glass = self.fibre == "gfrp"
        us = lambda mpa: mpa / PSI
        for code, clause, applies, root, factor in (("aci440.1r-15", "10.1", frp, sqrt(us(self.f)), PSI), ("aci440.11-22", "25.4.2", glass, sqrt(us(self.f)), PSI), ("aashto-gfrp2-2018", "2.9.7.4", glass, sqrt(us(self.f) / 1000) / 31.6, 1000 * PSI)):
            stress = self.guide if code == "aci440.1r-15" else self.wambeke
            out[f"{code} {code}/{clause} nominal"] = self.a * factor * stress(root, o[code]["C_E"] * fu / factor) if applies else None
        for code, clause, applies, phi in (("aci440.1r-15", "6.2", frp, 0.55), ("aci440.11-22", "20.2.2", glass, 0.55), ("aashto-gfrp2-2018", "2.4.2.1", glass, None)):
            out[f"{code} {code}/{clause} nominal"] = o[code]["C_E"] * fu * self.a if applies else None
            if phi:
                out[f"{code} {code}/{clause} design"] = phi * o[code]["C_E"] * fu * self.a if applies else None
        share = {"gfrp": 0.20, "afrp": 0.30, "cfrp": 0.55}.get(self.fibre)
        out["aci440.1r-15 aci440.1r-15/creep-rupture nominal"] = share * o["aci440.1r-15"]["C_E"] * fu * self.a if share and o["aci440.1r-15"]["sustained"] else None
        out["aci440.11-22 aci440.11-22/creep-rupture nominal"] = 0.30 * o["aci440.11-22"]["C_E"] * fu * self.a if glass and o["aci440.11-22"]["sustained"] else None
        cyclic = o["aashto-gfrp2-2018"]["sustained"]
        out["aashto-gfrp2-2018 aashto-gfrp2-2018/creep-rupture nominal"] = (0.0, 0.30, 0.25)[cyclic] * o["aashto-gfrp2-2018"]["C_E"] * fu * self.a if glass and cyclic else None
        if frp:
            per = self.s806()
            out["csa-s806-12 csa-s806-12/9.3.2 nominal"] = None if per is None else self.a * min(fu, self.le / per)
            out["csa-s6-14 csa-s6-14/16.8.4 nominal"] = self.a * min(fu, self.le / self.s6())
            alpha, bond = self.jsce(1.0)
            out["jsce-1997 jsce-1997/development nominal"] = self.a * min(fu, 4 * bond * self.le / (alpha * self.d))
            out["csa-s806-12 csa-s806-12/frp-rupture nominal"] = out["jsce-1997 jsce-1997/frp-rupture nominal"] = self.a * fu
            u = sqrt(us(self.f)) * (4.0 + 0.3 * min(self.cb / self.d, 3.5) + 100 * self.d / self.le)
            out["wambeke-shield-2006 wambeke-shield-2006/bond expected"] = u * PSI * pi * self.d * self.le
        ribbed = self.steel and self.deformed
        wall = pi * self.d * self.le
        bond = self.ec2_2004() * wall / self.alpha_2()
        out["en1992-1-1-2004 en1992-1-1-2004/8.4 nominal"] = bond if ribbed else None
        out["en1992-1-1-2004 en1992-1-1-2004/8.4 design"] = bond / o["en1992-1-1-2004"]["gamma_c"] if ribbed else None
        for code, clause in (("en1992-1-1-2004", "3.2.7"), ("en1992-1-1-2023", "yield"), ("fib-mc2010", "yield")):
            out[f"{code} {code}/{clause} nominal"] = self.a * self.yield_strength(code) if self.steel else None
            out[f"{code} {code}/{clause} design"] = self.a * self.yield_strength(code) / o[code]["gamma_s"] if self.steel else None
        share = self.le / self.ec2_2023()
        out["en1992-1-1-2023 en1992-1-1-2023/11.4.2 design"] = self.a * 435 * (share if share <= 1 else share ** (1 / 1.5)) if ribbed else None
        basic = self.basic_bond() * wall
        out["fib-mc2010 fib-mc2010/6.1.3 nominal"] = basic if self.steel else None
        out["fib-mc2010 fib-mc2010/6.1.3 design"] = basic / o["fib-mc2010"]["gamma_cb"] if self.steel else None
        pull = (1.25 if self.top else 2.5) * sqrt(self.f)
        split = (0.7 if self.top else 1.0) * 6.5 * (self.f / 25) ** 0.25 * self.confined(0.33)
        if o["fib-mc2010"]["splitting_capped"]:
            split = min(pull, split)
        mean = 54 * (self.f / 25) ** 0.25 * (self.le / self.d) ** 0.55 * self.confined(0.25)
        out["fib-mc2010 fib-mc2010/6.1.1-pull-out expected"] = pull * wall if ribbed else None
        out["fib-mc2010 fib-mc2010/6.1.1-splitting expected"] = split * wall if ribbed else None
        out["fib-mc2010 fib-mc2010/6.1.3.3 expected"] = self.a * mean if ribbed else None
        for metric, code in ((0, "aci318-19"), (1, "aci318-19m")):
            rate, grade = self.aci(metric)
            stress = min(rate * self.le / (1.0 if metric else IN), grade) * (1.0 if metric else PSI)
            out[f"{code} aci318-19/25.4.2 nominal"] = self.a * stress if ribbed else None
        d, le, fc, c = self.d / IN, self.le / IN, us(self.f), min(self.cover, self.gap / 2) / IN
        q = o["orangun-1977"]["transverse_stress"] / PSI / 500
        out["orangun-1977 orangun-1977/bond expected"] = sqrt(fc) * (1.2 + 3 * min(c / d, 2.5) + 50 * d / le + min(q, 3.0)) * pi * d * le * LB if ribbed else None
        r = o["aci408r-03"]
        first = fc ** 0.25 * (59.9 * le * (c + 0.5 * d) + 2400 * self.a / IN ** 2) * min(0.1 * r["cover_ratio"] + 0.90, 1.25)
        stirrups = (30.88 * (0.72 * d + 0.28) * (9.6 * r["R_r"] + 0.28) * r["transverse_area"] / IN ** 2 + 3) * fc ** 0.75 if r["transverse_area"] else 0.0
        out["aci408r-03 aci408r-03/bond expected"] = (first + stirrups) * LB if ribbed else None
        return out

    def lengths(self, f):
        """mm for a bar stress f, MPa."""
        o, out = self.opt, {}
        glass, d = self.fibre == "gfrp", self.d
        lap = lambda code: 1.3 if o[code]["lap_splice"] else 1.0
        if not self.steel:
            root = sqrt(self.f / PSI)
            out["aci440.1r-15/10.3"] = max(self.wambeke_length(f / PSI / root), 20 * d) * lap("aci440.1r-15")
            if glass:
                out["aci440.11-22/25.4.2"] = max(self.wambeke_length(f / PSI / root), 20 * d, 12 * IN) * lap("aci440.11-22")
                out["aashto-gfrp2-2018/2.9.7.4"] = max(self.wambeke_length(31.6 * f / PSI / 1000 / sqrt(self.f / PSI / 1000)), 20 * d) * lap("aashto-gfrp2-2018")
            per = self.s806()
            if per is not None:
                out["csa-s806-12/9.3.2"] = max(per * f, 300)
            out["csa-s6-14/16.8.4"] = self.s6() * f
            alpha, bond = self.jsce(o["jsce-1997"]["gamma_c"])
            out["jsce-1997/development"] = alpha * f / (4 * bond) * d
        elif self.deformed:
            for metric, code in ((0, "aci318-19"), (1, "aci318-19m")):
                rate, _ = self.aci(metric)
                out[f"{code}/25.4.2"] = max(f / (1.0 if metric else PSI) / rate * (1.0 if metric else IN), 300 if metric else 12 * IN)
                out[f"{code}/25.4.2.3"] = self.simplified(metric, f)
            out["en1992-1-1-2004/8.4"] = max(self.alpha_2() * d / 4 * f / (self.ec2_2004() / o["en1992-1-1-2004"]["gamma_c"]), max(0.3 * d / 4 * f / (self.ec2_2004() / o["en1992-1-1-2004"]["gamma_c"]), 10 * d, 100))
            share = f / 435
            out["en1992-1-1-2023/11.4.2"] = max(self.ec2_2023() * (share if share <= 1 else share ** 1.5), 10 * d)
            unit = 54 * (self.f / 25) ** 0.25 * self.confined(0.25)
            out["fib-mc2010/6.1.3.3"] = (f / unit) ** (1 / 0.55) * d
        if self.steel:
            out["fib-mc2010/6.1.3"] = d / 4 * f / (self.basic_bond() / o["fib-mc2010"]["gamma_cb"])
        return out


def options(row, rng):
    pick = lambda *of: of[int(rng.integers(len(of)))]
    d = row["bar_diameter_mm"]
    return {
        "aci440.1r-15": dict(C_E=pick(1.0, 0.8, 0.7), lap_splice=pick(0, 1), sustained=pick(0, 1)), "aci440.11-22": dict(C_E=pick(1.0, 0.85), lap_splice=pick(0, 1), sustained=pick(0, 1)),
        "aashto-gfrp2-2018": dict(C_E=pick(1.0, 0.8, 0.7), lap_splice=pick(0, 1), sustained=pick(0, 1, 2)), "csa-s806-12": dict(semi_low_density=pick(0, 1), k_4_basalt=pick(0, 1.1)),
        "csa-s6-14": dict(k_4=pick(1.0, 0.8), transverse_index=pick(0, 5.0)), "jsce-1997": dict(alpha_2=pick(1.0, 0.85), gamma_c=pick(1.3, 1.5), transverse_index=pick(0, 7.0)),
        "en1992-1-1-2004": dict(f_yk=pick(500, 600), gamma_s=1.15, gamma_c=pick(1.5, 1.4), count_cover=pick(0, 1)), "en1992-1-1-2023": dict(f_yk=pick(500, 600), gamma_s=1.15, k_lb=pick(50, 42), k_cp_poor=pick(1.2, 1.3)),
        "fib-mc2010": dict(f_yk=pick(400, 500, 600, 700, 800), gamma_cb=1.5, gamma_s=1.15, coated_bar=pick(0, 1), cover_ratio=pick(1.0, 2.2), k_m=pick(12, 6, 0), K_tr=pick(0, 0.02)),
        "aci318": dict(confining_stirrups=pick(0, 1), coated_bar=pick(0, 1, 2), transverse_index=pick(0, round(0.4 * d, 2)), steel_grade=pick(40, 60, 80, 100)), "orangun-1977": dict(transverse_stress=pick(0, 6.0, 15.0)),
        "aci408r-03": dict(cover_ratio=pick(1.0, 2.0, 5.0), transverse_area=pick(0, 250.0), R_r=pick(0.0727, 0.1)),
    }


cases = []
for row, rng in bars():
    opt = options(row, rng)
    turn = int(row["id"][1:])
    opt["aci440.1r-15"]["extrapolate_below_20_d"], opt["fib-mc2010"]["splitting_capped"] = int(turn % 4 == 0), int(turn % 2 == 0)
    stress = round(float(rng.uniform(250, 900)), 1)
    one = Bar(row, opt)
    forces, lengths = one.forces(), one.lengths(stress)
    opt |= {"aci318-19": opt["aci318"], "aci318-19m": opt.pop("aci318")}
    cases.append({"id": row.pop("id"), "row": row, "options": {}, "options_of": opt, "forces_N": forces, "stress_MPa": stress, "lengths_mm": lengths})
print(written(cases))
