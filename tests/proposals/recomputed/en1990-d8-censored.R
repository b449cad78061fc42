# Bias and scatter with lower bounds by R's survival package, independent of the library.
# Rscript en1990-d8-censored.R prints one name and value a line. The tests are those of en1990-d8.R, four of them as lower bounds.
library(survival)
re <- c(52.1, 61.7, 40.3, 75.2, 88.9, 33.8, 47.5, 69.4, 58.0, 81.3, 44.4, 95.1)
rt <- c(50.0, 55.2, 43.1, 70.8, 80.4, 35.5, 41.9, 71.2, 60.3, 74.6, 46.0, 84.7)
bound <- c(FALSE, TRUE, FALSE, FALSE, TRUE, FALSE, FALSE, FALSE, TRUE, FALSE, FALSE, TRUE)
fit <- survreg(Surv(re / rt, !bound) ~ 1, dist = "lognormal", control = survreg.control(rel.tolerance = 1e-14))
m <- sum(!bound)
s <- fit$scale * sqrt(m / (m - 1))
mu <- unname(coef(fit))
# Expected value of a ratio above its bound, by integrating the log-normal density.
above <- function(c) integrate(function(x) x * dlnorm(x, mu, s), c, Inf, rel.tol = 1e-12)$value / plnorm(c, mu, s, lower.tail = FALSE)
expected <- ifelse(bound, sapply(re / rt, above), re / rt) * rt
out <- list(mu = mu, sigma = fit$scale, sdLog = s, b = sum(expected * rt) / sum(rt^2), Vdelta = sqrt(exp(s^2) - 1))
for (name in names(out)) cat(sprintf("%s %.15g\n", name, out[[name]]))
