"""Seeded specimens over the whole range of inputs, and the plan of a group: bars as points, areas as unions of their squares.

Written from the equation sheet and the data contract; the library's provisions were not read. Needs numpy.
"""
import json

import numpy as np

IN, LB, PSI = 25.4, 4.4482216152605, 0.00689475729316836
FAR = float("inf")


class Plan:
    """Bars at points (x, y); edge 1 at x = lo[0], edge 3 at hi[0], edge 2 at y = lo[1], edge 4 at hi[1]. Any length unit."""

    def __init__(self, xs, ys, lo, hi, ecc=(0.0, 0.0)):
        self.xs, self.ys, self.lo, self.hi, self.ecc = list(xs), list(ys), lo, hi, ecc
        self.n = len(self.xs) * len(self.ys)

    @staticmethod
    def of(row, unit=1.0):
        get = lambda name, blank: blank if row.get(name) is None else row[name]
        nx, ny = get("group_nx", 1), get("group_ny", 1)
        sx, sy = get("spacing_x_mm", 0.0) / unit, get("spacing_y_mm", 0.0) / unit
        c = [get(f"edge_{k}_mm", FAR) / unit for k in (1, 2, 3, 4)]
        xs, ys = [k * sx for k in range(nx)], [k * sy for k in range(ny)]
        return Plan(xs, ys, (-c[0], -c[1]), (xs[-1] + c[2], ys[-1] + c[3]), (get("eccentricity_x_mm", 0.0) / unit, get("eccentricity_y_mm", 0.0) / unit))

    def spacing(self, axis):
        at = (self.xs, self.ys)[axis]
        return at[1] - at[0] if len(at) > 1 else 0.0

    def largest_spacing(self):
        return max(self.spacing(0), self.spacing(1))

    def edges(self):
        """Distance of the nearest bar of this plan to edges 1 to 4."""
        return [self.xs[0] - self.lo[0], self.ys[0] - self.lo[1], self.hi[0] - self.xs[-1], self.hi[1] - self.ys[-1]]

    def parts(self, critical):
        """The groups that act together: bars farther apart than the critical spacing part. Edges and the load's eccentricity stay."""
        split = lambda at: [[a] for a in at] if len(at) > 1 and at[1] - at[0] > critical else [at]
        px, py = split(self.xs), split(self.ys)
        return [Plan(x, y, self.lo, self.hi, self.ecc) for x in px for y in py]

    def union(self, reach):
        """Area covered by the squares of half side `reach` around the bars, cut at the edges: counted on the grid of their sides."""
        cover = lambda p, lo, hi: (max(p - reach, lo), min(p + reach, hi))
        boxes = [(*cover(x, self.lo[0], self.hi[0]), *cover(y, self.lo[1], self.hi[1])) for x in self.xs for y in self.ys]
        gx = np.unique([v for b in boxes for v in b[:2]])
        gy = np.unique([v for b in boxes for v in b[2:]])
        mx, my = (gx[1:] + gx[:-1]) / 2, (gy[1:] + gy[:-1]) / 2
        inside = np.zeros((len(mx), len(my)), bool)
        for x0, x1, y0, y1 in boxes:
            inside |= np.outer((mx > x0) & (mx < x1), (my > y0) & (my < y1))
        return float(np.diff(gx) @ inside @ np.diff(gy))

    def row_at(self, edge):
        """The row next to an edge, for shear: (distance, positions along it, the two side edges, eccentricity of the load).

        Shear acts along x, so its line is off the bars' centre by the eccentricity along y, whichever edge is looked at.
        """
        along = 1 if edge in (1, 3) else 0
        return self.edges()[edge - 1], (self.xs, self.ys)[along], (self.lo[along], self.hi[along]), self.ecc[1]


def rounded(value, digits=1):
    return round(float(value), digits)


def anchors(seed=20190417, count=48):
    """Bars in drilled holes and cast-in heads: none to four near edges, corners, groups, eccentric, cracked, lightweight, thin."""
    rng = np.random.default_rng(seed)
    rows = []
    for k in range(count):
        d = float(rng.choice([9.5, 12.7, 15.9, 19.1, 25.4, 32.3]))
        h = rounded(d * rng.uniform(4.0, 20.0))
        near = k % 5                                              # how many edges are near
        which = list(rng.permutation(4)[:near]) if near != 2 or k % 2 else [0, int(rng.choice([1, 3]))]
        if near and k % 3 == 0 and 0 not in which:
            which[0] = 0
        edges = {f"edge_{j + 1}_mm": rounded(rng.uniform(0.25, 1.9) * min(h, 220.0) + 15) for j in which}
        nx, ny = [(1, 1), (2, 1), (1, 3), (2, 2), (1, 1), (3, 2), (1, 2)][k % 7]
        cracked = bool(rng.random() < 0.5)
        cast = k % 6 == 5
        light = k % 4 == 3
        steel = bool(rng.random() < 0.5)
        tau_uncr = rounded(rng.uniform(6.0, 20.0), 2)
        tau = tau_uncr if not cracked else rounded(tau_uncr * rng.uniform(0.4, 0.8), 2)
        row = {
            "bar_material": "steel" if steel else str(rng.choice(["gfrp", "bfrp", "cfrp", "afrp"])), "bar_surface": "ribbed", "bar_diameter_mm": d,
            "bar_area_mm2": rounded(np.pi / 4 * d * d * rng.uniform(0.97, 1.03)), "bar_strength_MPa": rounded(rng.uniform(560, 1300)),
            "bar_yield_MPa": rounded(rng.uniform(300, 560)) if steel else None, "bar_shear_strength_MPa": rounded(rng.uniform(120, 250)),
            "installation": "cast_in" if cast else "post_installed", "bond_strength_char_MPa": None if cast else tau, "bond_strength_uncracked_char_MPa": None if cast else tau_uncr,
            "bond_strength_mean_MPa": rounded(rng.uniform(8.0, 22.0), 2), "concrete_strength_MPa": rounded(rng.uniform(18.0, 90.0)), "concrete_strength_basis": "cylinder",
            "concrete_type": "lightweight" if light else "normal", "lightweight_factor": float(rng.choice([0.75, 0.8, 0.85])) if light else None,
            "cracked": "yes" if cracked else "no", "embedment_mm": h, "member_thickness_mm": rounded(h * rng.uniform(1.15, 3.5)), **edges,
        }
        if k % 3 != 2:      # specified below the measured one; where it is blank, the measured one stands in at nominal and design
            row["bar_shear_strength_specified_MPa"] = rounded(0.8 * row["bar_shear_strength_MPa"])
        if nx > 1:
            row |= {"group_nx": nx, "spacing_x_mm": rounded(rng.uniform(0.4, 3.8) * h if rng.random() < 0.8 else 6 * h)}
            if rng.random() < 0.6:
                row["eccentricity_x_mm"] = rounded(rng.uniform(0.05, 0.45) * row["spacing_x_mm"])
        if ny > 1:
            row |= {"group_ny": ny, "spacing_y_mm": rounded(rng.uniform(0.4, 3.8) * h if rng.random() < 0.8 else 6 * h)}
            if rng.random() < 0.6:
                row["eccentricity_y_mm"] = rounded(rng.uniform(0.05, 0.45) * row["spacing_y_mm"])
        rows.append(({"id": f"N{k + 1}", **row}, np.random.default_rng([seed, k])))
    return rows


def heads(seed=20190418, count=24):
    """Deep cast-in heads beside an edge: single, in a corner, in rows along the edge or across it."""
    rng = np.random.default_rng(seed)
    rows = []
    for k in range(count):
        d = float(rng.choice([12.7, 15.9, 19.1, 25.4]))
        h = rounded(d * rng.uniform(8.0, 16.0))
        c1, edge = rounded(h * rng.uniform(0.12, 0.46)), 1 + int(rng.integers(4))
        nx, ny = [(1, 1), (1, 1), (3, 1), (1, 2)][k % 4]
        row = {
            "bar_material": "steel", "bar_surface": "ribbed", "bar_diameter_mm": d, "bar_area_mm2": rounded(np.pi / 4 * d * d), "bar_strength_MPa": rounded(rng.uniform(560, 900)), "bar_yield_MPa": rounded(rng.uniform(400, 500)),
            "bar_shear_strength_MPa": 300.0, "installation": "cast_in", "concrete_strength_MPa": rounded(rng.uniform(20.0, 90.0)), "concrete_strength_basis": "cylinder", "concrete_type": "lightweight" if k % 5 == 4 else "normal",
            "lightweight_factor": 0.8 if k % 5 == 4 else None, "cracked": "yes" if k % 3 else "no", "embedment_mm": h, "member_thickness_mm": rounded(h * 1.4), f"edge_{edge}_mm": c1,
        }
        if k % 2:
            row[f"edge_{edge % 4 + 1}_mm"] = rounded(c1 * rng.uniform(1.05, 4.0))
        if nx > 1:
            row |= {"group_nx": nx, "spacing_x_mm": rounded(c1 * rng.uniform(0.8, 5.0))}
        if ny > 1:
            row |= {"group_ny": ny, "spacing_y_mm": rounded(c1 * rng.uniform(0.8, 5.0))}
        rows.append(({"id": f"H{k + 1}", **row}, np.random.default_rng([seed, k])))
    return rows


def bars(seed=20150318, count=45):
    """Embedded bars of every fibre and surface: cover, spacing, casting position, concrete and length vary."""
    rng = np.random.default_rng(seed)
    rows = []
    for k in range(count):
        steel = k % 3 == 0
        d = float(rng.choice([9.5, 12.7, 15.9, 19.1, 25.4, 32.3, 38.0]))
        light = k % 5 == 4
        row = {
            "bar_material": "steel" if steel else ["gfrp", "gfrp", "cfrp", "afrp", "gfrp", "bfrp"][k % 6],
            "bar_surface": str(rng.choice(["ribbed", "ribbed", "threaded", "plain"] if steel else ["ribbed", "sand_coated", "helically_wrapped", "sand_coated_helical", "indented"])),
            "bar_diameter_mm": d, "bar_area_mm2": rounded(np.pi / 4 * d * d * rng.uniform(0.97, 1.03)), "bar_strength_MPa": rounded(rng.uniform(560, 1500)),
            "bar_yield_MPa": rounded(rng.uniform(380, 620)) if steel else None, "bar_modulus_GPa": 200.0 if steel else rounded(rng.uniform(40, 140)), "installation": "cast_in",
            "concrete_strength_MPa": rounded(rng.uniform(15.0, 95.0)), "concrete_strength_basis": "cylinder", "concrete_type": "lightweight" if light else "normal",
            "lightweight_factor": 0.75 if light else None, "cracked": "no", "embedment_mm": rounded(d * rng.uniform(4.0, 60.0)), "cover_mm": rounded(d * rng.uniform(0.6, 5.0)),
            "bar_spacing_mm": rounded(d * rng.uniform(1.0, 9.0)) if k % 2 else None, "casting_position": "top" if rng.random() < 0.4 else "good",
        }
        if k % 6 == 3:      # steel without a stated yield strength: the option's
            row["bar_yield_MPa"] = None
        rows.append(({"id": f"D{k + 1}", **row}, np.random.default_rng([seed, k])))
    return rows


def written(cases):
    """JSON with one specimen a line."""
    return "[\n" + ",\n".join(json.dumps(case) for case in cases) + "\n]"
