"""The tension modes of ACI 318-19 for n bars in drilled holes near two edges, in numpy: one array a step, as one would write it.

`predict` does what the library does for these columns: missing values withhold, the reported limit is flagged, what a
row says of installation, cracking and concrete is heeded row by row (categories as small integers, the cheapest form in
numpy, where the library reads words), then the governing capacity, its mode and the ratio of the load to it. Groups,
eccentricity and edges 3 and 4 have no column here and are left out, as the library folds them away.
`bare` is the least that a person would write who knows that all rows are alike: three capacities, nothing else.
"""
import sys
import time
import numpy as np

PSI, INCH, LBF = 4.4482216152605 / 645.16, 25.4, 4.4482216152605
MISSING = 1 << 30


def columns(n):
    i = np.arange(1, n + 1, dtype=float)
    u = [np.modf(i * np.sqrt(p))[0] for p in (2, 3, 5, 7, 11, 13, 17)]
    d = np.array([9.5, 12.7, 15.9, 19.1, 25.4])[np.floor(5 * u[2]).astype(int)]
    h = d * (5 + 14 * u[1])
    ones = np.ones(n, dtype=np.int8)
    words = dict(post_installed=ones, cracked=ones, lightweight=0 * ones, steel=0 * ones, tension=ones, unconfined=ones)
    return dict(fc=20 + 30 * u[0], h=h, d=d, c1=h * (0.5 + 2.5 * u[3]), c2=h * (0.5 + 2.5 * u[4]), tau=6 + 10 * u[5], fu=500 + 700 * u[6], load=20 + 80 * u[0], **words)


def predict(t):
    fc, h, d, c1, c2 = t["fc"] / PSI, t["h"] / INCH, t["d"] / INCH, t["c1"] / INCH, t["c2"] / INCH
    tau, fu = t["tau"] / PSI, t["fu"] / PSI
    area = np.pi / 4 * t["d"] * t["d"] / 645.16
    post, cracked, light, steel = t["post_installed"] == 1, t["cracked"] == 1, t["lightweight"] == 1, t["steel"] == 1
    # a blank edge is far; every other blank withholds what reads it
    c1, c2 = np.where(np.isnan(c1), np.inf, c1), np.where(np.isnan(c2), np.inf, c2)
    no_h, no_d = np.isnan(h), np.isnan(d)
    outside = ~(~post | ((h >= 4 * d) & (h <= 20 * d)))
    c_min = np.minimum(c1, c2)
    # bar strength, 17.6.1.2
    nsa = area * np.where(steel, np.minimum(fu, 125e3), fu) * LBF
    nsa_flags = np.where(np.isnan(fu) | no_d, MISSING, 0).astype(np.int32)
    # breakout, 17.6.2
    fc_used = np.minimum(fc, np.where(post, 8000.0, 10000.0))
    lambda_a = np.where(light, np.where(post, 0.8, 1.0), 1.0)
    edge = 1.5 * h
    anco = 9 * h**2
    anc = np.minimum((np.minimum(c1, edge) + edge) * (np.minimum(c2, edge) + edge), anco)
    nb = np.where(post, 17.0, 24.0) * lambda_a * np.sqrt(fc_used) * (h * np.sqrt(h))
    psi_ed = np.where(c_min >= edge, 1, 0.7 + 0.3 * c_min / edge)
    psi_c = np.where(cracked, 1.0, np.where(post, 1.4, 1.25))
    c_ac = 2 * h
    psi_cp = np.where(~post | cracked | (c_min >= c_ac), 1.0, np.maximum(c_min, edge) / c_ac)
    ncb_flags = np.where(~post, 1, 0) | np.where(outside, 2, 0) | np.where(np.isnan(fc) | no_h, MISSING, 0)
    ncb = np.where(ncb_flags & (MISSING | 1), np.nan, anc / anco * psi_ed * psi_c * psi_cp * nb * LBF)
    # bond, 17.6.5
    cna = 10 * d * np.sqrt(tau / 1100)
    anao = (2 * cna) ** 2
    ana = np.minimum((np.minimum(c1, cna) + cna) * (np.minimum(c2, cna) + cna), anao)
    nba = np.where(light, 0.6, 1.0) * tau * np.pi * d * h
    psi_ed_na = np.where(c_min >= cna, 1, 0.7 + 0.3 * c_min / cna)
    psi_cp_na = np.where(cracked | (c_min >= c_ac), 1.0, np.minimum(1, np.maximum(c_min, cna) / c_ac))
    na_flags = np.where(~post, 1, 0) | np.where(outside, 2, 0) | np.where(np.isnan(tau) | no_d | no_h, MISSING, 0)
    na = np.where(na_flags & (MISSING | 1), np.nan, ana / anao * psi_ed_na * psi_cp_na * nba * LBF)
    # governing among what a test in unconfined tension can reach, and the ratio
    reached = (t["tension"] == 1) & (t["unconfined"] == 1)
    least, mode = np.where(reached, nsa, np.nan), np.where(reached & ~np.isnan(nsa), 0, -1).astype(np.int32)
    for k, capacity in ((1, ncb), (2, na)):
        lower = reached & ((capacity < least) | (np.isnan(least) & ~np.isnan(capacity)))
        least, mode = np.where(lower, capacity, least), np.where(lower, k, mode)
    return (nsa, ncb, na, least, t["load"] * 1000 / least), (mode, nsa_flags, ncb_flags, na_flags)


def bare(t):
    fc, h, d, c1, c2 = t["fc"] / PSI, t["h"] / INCH, t["d"] / INCH, t["c1"] / INCH, t["c2"] / INCH
    tau, fu = t["tau"] / PSI, t["fu"] / PSI
    c_min = np.minimum(c1, c2)
    edge = 1.5 * h
    anco = 9 * h**2
    anc = np.minimum((np.minimum(c1, edge) + edge) * (np.minimum(c2, edge) + edge), anco)
    ncb = anc / anco * np.where(c_min >= edge, 1, 0.7 + 0.3 * c_min / edge) * (17 * np.sqrt(np.minimum(fc, 8000)) * h**1.5)
    cna = 10 * d * np.sqrt(tau / 1100)
    anao = (2 * cna) ** 2
    ana = np.minimum((np.minimum(c1, cna) + cna) * (np.minimum(c2, cna) + cna), anao)
    na = ana / anao * np.where(c_min >= cna, 1, 0.7 + 0.3 * c_min / cna) * (tau * np.pi * d * h)
    return np.pi / 4 * d * d * fu * LBF, ncb * LBF, na * LBF


def least_time(work, repeats):
    """(least wall, least processor) time in ms: on a machine with other work only the second says what the work takes"""
    wall, processor = [], []
    for _ in range(repeats):
        start, busy = time.perf_counter(), time.process_time()
        work()
        wall.append(time.perf_counter() - start)
        processor.append(time.process_time() - busy)
    return min(wall) * 1000, min(processor) * 1000


if __name__ == "__main__":
    table = columns(int(sys.argv[1]))
    repeats = int(sys.argv[2]) if len(sys.argv) > 2 else 7
    sums, counts = predict(table)
    print(*least_time(lambda: predict(table), repeats), *least_time(lambda: bare(table), repeats), *(repr(float(each.sum())) for each in sums), *(int((each != 0).sum()) for each in counts))
