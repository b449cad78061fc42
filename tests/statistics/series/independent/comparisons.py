"""Other published ways to the same bound, from memory of the papers, beside the bound of law.py.
Run: python3 comparisons.py > comparisons.json"""
import json
import numpy as np
from scipy.optimize import brentq
from scipy.special import ndtr, ndtri
from law import mixture, quantile, root_chi_square, summaries

# Tensile strength of five batches: data of example 4.1 in Krishnamoorthy and Mathew, Statistical Tolerance Regions (2009),
# which come from Vangel (1992), as listed in a public R package (stla/AOV1R, inst/KM41/KM41.R). The printed limits were not at hand.
BATCHES = [[379, 357, 390, 376, 376], [363, 367, 382, 381, 359], [401, 402, 407, 402, 396], [402, 387, 392, 395, 394], [415, 405, 396, 390, 395]]


def factor(n, fractile, confidence):
    """The one-sided factor of a normal sample of n, a noncentral t over sqrt n."""
    law = {"weight": np.ones(1), "s": np.ones(1), "degrees": n - 1, "means": [np.zeros(1)], "ws": [np.full(1, float(n))]}
    return -quantile(law, 0, -ndtri(fractile), 1 - confidence)


def nested_anova(series, fractile, confidence):
    """MIL-HDBK-17 (after Vangel 1992): factor between that of all tests and that of as many tests as series."""
    sizes = np.array([len(s) for s in series], float)
    y, k, n = np.concatenate(series), len(series), sizes.sum()
    means = np.array([np.mean(s) for s in series])
    between = (sizes * (means - y.mean()) ** 2).sum() / (k - 1)
    within = sum(((np.array(s) - np.mean(s)) ** 2).sum() for s in series) / (n - k)
    size = (n - (sizes ** 2).sum() / n) / (k - 1)
    u = max(between / within, 1.0)
    w = np.sqrt(u / (u + size - 1))
    k0, k1 = factor(n, fractile, confidence), factor(k, fractile, confidence)
    t = (k0 - k1 / np.sqrt(size) + (k1 - k0) * w) / (1 - 1 / np.sqrt(size))
    return y.mean() - t * np.sqrt(between / size + (size - 1) / size * within)


def generalized_pivot(series, fractile, confidence):
    """Krishnamoorthy and Mathew (2004): unweighted mean of series means, harmonic mean of sizes; quadrature, not simulation."""
    sizes = np.array([len(s) for s in series], float)
    k, n, z = len(series), sizes.sum(), -ndtri(fractile)
    means = np.array([np.mean(s) for s in series])
    harmonic = k / (1 / sizes).sum()
    ss_e = sum(((np.array(s) - np.mean(s)) ** 2).sum() for s in series)
    root1, p1 = root_chi_square(k - 1, 40)
    root2, p2 = root_chi_square(n - k, 40)
    of_means, of_error = means.var(ddof=1) / root1 ** 2, ss_e / (n - k) / root2 ** 2
    total = np.sqrt(of_means[:, None] + (1 - 1 / harmonic) * of_error)

    def below(limit):
        return p1 @ (ndtr((limit - means.mean() + z * total) / np.sqrt(of_means / k)[:, None]) @ p2)
    wide = np.ptp(means) + means.std() * 60
    return brentq(lambda limit: below(limit) - (1 - confidence), means.mean() - 20 * wide, means.mean() + wide, xtol=1e-10)


def compare(name, series, fractile=0.05, confidence=0.9):
    ours = quantile(mixture(summaries([series])), 0, -ndtri(fractile), 1 - confidence)
    return {"name": name, "series": series, "fractile": fractile, "confidence": confidence, "bound": round(ours, 8),
            "nestedAnova": round(nested_anova(series, fractile, confidence), 8), "generalizedPivot": round(generalized_pivot(series, fractile, confidence), 6)}


if __name__ == "__main__":
    chosen = ["1 cell, 3 series of all 3, ICC 0", "1 cell, 5 series of 1 to 10, ICC 0", "1 cell, 5 series of all 3, ICC 0.85", "1 cell, 8 series of 1 to 3, ICC 0.3",
              "1 cell, 12 series of 1 to 10, ICC 0.6", "1 cell, 20 series of 1 or 10, ICC 0.6", "1 cell, 40 series of 1 to 10, ICC 0.95", "1 cell, 88 series of 1 to 10, ICC 0.85"]
    cases = {one["name"]: one["cells"][0] for one in json.load(open("bounds.json"))["cases"]}
    found = [compare("five batches, B basis", BATCHES, 0.1, 0.95), compare("five batches", BATCHES)] + [compare(name, cases[name]) for name in chosen]
    print("[\n" + ",\n".join(json.dumps(one, separators=(",", ":")) for one in found) + "\n]")
