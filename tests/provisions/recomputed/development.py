"""Development of bars, recomputed from the printed equations with nothing of the library. Run: python3 development.py

Cases in mm and MPa, turned here into each edition's own units. Prints the developed force in kN, and the development
length in mm for 400 MPa. The numbers stand beside the calls in ../development-of-bars.test.ts.
"""
from math import log, pi, sqrt

INCH, PSI, LB = 25.4, 4.4482216152605 / 645.16, 4.4482216152605
FRP = {
    "A": dict(d=15.875, A=200.0, fu=650.0, fc=28.0, cover=30.0, gap=None, le=305.0, top=False, surface="sand_coated", fibre="g"),
    "B": dict(d=25.4, A=510.0, fu=580.0, fc=45.0, cover=50.0, gap=60.0, le=600.0, top=True, surface="ribbed", fibre="g"),
    "C": dict(d=9.525, A=71.0, fu=1400.0, fc=60.0, cover=15.0, gap=40.0, le=250.0, top=False, surface="indented", fibre="g"),
}
STEEL = {
    "A": dict(d=16.0, A=201.1, fc=25.0, cover=32.0, gap=None, le=320.0, top=False),
    "B": dict(d=36.0, A=1017.9, fc=55.0, cover=50.0, gap=80.0, le=900.0, top=True),
    "C": dict(d=12.0, A=113.1, fc=70.0, cover=25.0, gap=40.0, le=150.0, top=False),
}


def centre(k):
    return min(k["cover"] + k["d"] / 2, (k["gap"] + k["d"]) / 2 if k["gap"] else 1e9)


def clear(k):
    return min(k["cover"], k["gap"] / 2 if k["gap"] else 1e9)


def aci440(k, root=1.0, coefficient=1.0, least=0.0):
    """in psi (or in ksi, with coefficient 31.6); at least 20 diameters"""
    alpha = 1.5 if k["top"] else 1.0
    ratio = min(centre(k) / k["d"], 3.5)
    sf = sqrt(k["fc"] / PSI / root)
    f = min(sf / (coefficient * alpha) * ((13.6 + ratio) * k["le"] / k["d"] + 340), k["fu"] / PSI / root)
    ld = k["d"] / INCH * (coefficient * alpha * 400 / PSI / root / sf - 340) / (13.6 + ratio)
    return f * root * PSI * k["A"], max(ld * INCH, 20 * k["d"], least)


def s806(k):
    kk = (1.3 if k["top"] else 1) * (0.8 if k["A"] <= 300 else 1) * {"sand_coated": 1.0, "ribbed": 1.05, "indented": 1.8}[k["surface"]]
    dcs = min(k["cover"] + k["d"] / 2, 2 / 3 * (k["gap"] + k["d"]) if k["gap"] else 1e9, 2.5 * k["d"])
    root = min(sqrt(k["fc"]), 5)
    f = min(k["le"] * dcs * root / (1.15 * kk * k["A"]), k["fu"])
    return f * k["A"], max(300, 1.15 * kk / dcs * 400 / root * k["A"])


def jsce(k):
    kc = clear(k) / k["d"]
    a1 = 1.0 if kc <= 1 else 0.9 if kc <= 1.5 else 0.8 if kc <= 2 else 0.7 if kc <= 2.5 else 0.6
    fbo = min(0.28 * k["fc"] ** (2 / 3), 3.2)
    fbod = min(0.28 * k["fc"] ** (2 / 3) / 1.3, 3.2)
    return min(4 * fbo * k["le"] / (a1 * k["d"]), k["fu"]) * k["A"], a1 * 400 / (4 * fbod) * k["d"]


def en2004(k):
    fck = min(k["fc"], 60)
    fctm = 0.3 * fck ** (2 / 3) if fck <= 50 else 2.12 * log(1 + (fck + 8) / 10)
    fb = 2.25 * (0.7 if k["top"] else 1) * (1 if k["d"] <= 32 else (132 - k["d"]) / 100) * 0.7 * fctm
    return fb * pi * k["d"] * k["le"], max(k["d"] / 4 * 400 / (fb / 1.5), 10 * k["d"], 100)


def en2023(k):
    l435 = 50 * (1.2 if k["top"] else 1) * k["d"] * (25 / k["fc"]) ** 0.5 * (k["d"] / 20) ** (1 / 3) * (1.5 * k["d"] / clear(k)) ** 0.5
    r = k["le"] / l435
    return 435 * (r if r <= 1 else r ** (1 / 1.5)) * k["A"], max(l435 * 400 / 435, 10 * k["d"])


def fib_design(k):
    fb = 1.75 * (0.7 if k["top"] else 1) * (1 if k["d"] <= 25 else (25 / k["d"]) ** 0.3) * 1.0 * sqrt(k["fc"] / 25)
    return fb * pi * k["d"] * k["le"], k["d"] / 4 * 400 / (fb / 1.5)


def fib_mean(k):
    ref = 54 * (k["fc"] / 25) ** 0.25 * (25 / k["d"]) ** 0.2 * (clear(k) / k["d"]) ** 0.25
    return ref * (k["le"] / k["d"]) ** 0.55 * k["A"], k["d"] * (400 / ref) ** (1 / 0.55)


def fib_split(k):
    top = k["top"]
    t = min((0.7 if top else 1) * 6.5 * (k["fc"] / 25) ** 0.25 * (25 / k["d"]) ** 0.2 * (clear(k) / k["d"]) ** 0.33, (1.25 if top else 2.5) * sqrt(k["fc"]))
    return t * pi * k["d"] * k["le"], float("nan")


def aci318(k):
    psi = (1.3 if k["top"] else 1) * (0.8 if k["d"] <= 0.76 * INCH else 1)
    conf = min(centre(k) / k["d"], 2.5)
    root = min(sqrt(k["fc"] / PSI), 100)
    f = min(40 / 3 * root * conf * k["le"] / k["d"] / psi, 60000)
    return f * PSI * k["A"], max(3 / 40 * 400 / PSI / root * psi / conf * k["d"], 12 * INCH)


if __name__ == "__main__":
    for title, cases, functions in (
        ("FRP", FRP, {"440.1R": aci440, "440.11": lambda k: aci440(k, least=12 * INCH), "AASHTO": lambda k: aci440(k, 1000.0, 31.6), "S806": s806, "JSCE": jsce}),
        ("steel", STEEL, {"318": aci318, "EN 2004": en2004, "EN 2023": en2023, "fib design": fib_design, "fib mean": fib_mean, "fib splitting": fib_split}),
    ):
        for name, function in functions.items():
            for case, k in cases.items():
                force, length = function(k)
                print(f"{title} {name} {case}: {force / 1000:.9f} kN, {length:.7f} mm")
