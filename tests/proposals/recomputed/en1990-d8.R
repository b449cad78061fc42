# EN 1990:2002 Annex D.8 recomputed independently of the library, in R only.
# Rscript en1990-d8.R prints one name and value a line. The tests are invented.
re <- c(52.1, 61.7, 40.3, 75.2, 88.9, 33.8, 47.5, 69.4, 58.0, 81.3, 44.4, 95.1)
rt <- c(50.0, 55.2, 43.1, 70.8, 80.4, 35.5, 41.9, 71.2, 60.3, 74.6, 46.0, 84.7)
d  <- c(10, 12, 10, 16, 20, 8, 12, 16, 12, 20, 10, 20)
V  <- c(0.5 * 0.15, 0.02, 0.10)          # sqrt(f_c) with 15 %, diameter 2 %, bond 10 %
nominal <- 0.82                          # r_n / g_rt(X_m)
n <- length(re)
fit <- lm(re ~ 0 + rt)
b <- unname(coef(fit))
Delta <- log(re / (b * rt))
Vdelta <- sqrt(exp(var(Delta)) - 1)
Vrt <- sqrt(prod(V^2 + 1) - 1)
Vr <- sqrt((Vdelta^2 + 1) * prod(V^2 + 1) - 1)
Q <- sqrt(log(Vr^2 + 1)); Qrt <- sqrt(log(Vrt^2 + 1)); Qd <- sqrt(log(Vdelta^2 + 1))
D1 <- approx(1 / c(10, 20), c(1.92, 1.76), 1 / n)$y
D2 <- approx(1 / c(10, 20), c(4.51, 3.64), 1 / n)$y
res <- function(kinf, k) b * exp(-kinf * Qrt / Q * Qrt - k * Qd / Q * Qd - Q^2 / 2)
rk <- res(1.64, D1); rd <- res(3.04, D2)
kx <- qt(0.95, n - 1) * sqrt(1 + 1 / n); kdx <- qt(0.999, n - 1) * sqrt(1 + 1 / n)
trend <- summary(lm(Delta ~ d))$coefficients["d", ]
out <- list(b = b, meanRatio = mean(re / rt), sdLog = sd(Delta), Vdelta = Vdelta, Vrt = Vrt, Vr = Vr, Q = Q,
  kn = D1, kdn = D2, rk = rk, rd = rd, gamma = rk / rd, nominalGamma = nominal / rd, factor = rk / nominal,
  rkExact = res(1.64, kx), rdExact = res(3.04, kdx),
  rkLarge = b * exp(-1.64 * Q - Q^2 / 2), rdLarge = b * exp(-3.04 * Q - Q^2 / 2),
  slope = unname(trend["Estimate"]), p = unname(trend["Pr(>|t|)"]))
for (name in names(out)) cat(sprintf("%s %.15g\n", name, out[[name]]))
