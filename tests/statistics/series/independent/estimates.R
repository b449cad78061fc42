# REML estimates of eight data sets of bounds.json and censored normal fits of two of lower_bounds.json.
# Run: Rscript estimates.R > estimates.json (R with nlme, survival, jsonlite)
suppressMessages({ library(nlme); library(survival); library(jsonlite) })
cases <- fromJSON("bounds.json", simplifyVector = FALSE)$cases
names(cases) <- vapply(cases, function(one) one$name, "")
chosen <- c("1 cell, 5 series of all 3, ICC 0.85", "1 cell, 8 series of 1 or 10, ICC 0", "1 cell, 12 series of 1 to 10, ICC 0.6",
  "1 cell, 20 series of 1 or 10, ICC 0.6", "1 cell, 88 series of 1 to 10, ICC 0.85", "1 cell, 200 series of 1 or 10, ICC 0.3",
  "4 cells, ICC 0.3", "4 cells, ICC 0.95")
rows <- function(cells) do.call(rbind, lapply(seq_along(cells), function(c) do.call(rbind, lapply(seq_along(cells[[c]]), function(i)
  data.frame(y = unlist(cells[[c]][[i]]), cell = factor(c), series = paste(c, i))))))
tight <- lmeControl(tolerance = 1e-12, msTol = 1e-14, msMaxIter = 500, opt = "nlminb")
reml <- lapply(chosen, function(name) {
  d <- rows(cases[[name]]$cells)
  fit <- if (nlevels(d$cell) == 1) lme(y ~ 1, d, ~ 1 | series, control = tight) else lme(y ~ cell - 1, d, ~ 1 | series, control = tight)
  sd <- c(sqrt(getVarCov(fit)[1, 1]), fit$sigma)
  list(name = unbox(name), means = as.numeric(fixef(fit)), sdBetween = unbox(sd[1]), sdWithin = unbox(sd[2]), icc = unbox(sd[1]^2 / sum(sd^2)))
})
censored <- lapply(fromJSON("lower_bounds.json", simplifyVector = FALSE)$cases[c(1, 5)], function(one) {
  y <- unlist(one$series)
  fit <- survreg(Surv(y, 1 - unlist(one$lowerBound)) ~ 1, dist = "gaussian", control = survreg.control(rel.tolerance = 1e-12, maxiter = 200))
  list(name = unbox(one$name), mean = unbox(as.numeric(coef(fit))), sd = unbox(fit$scale), logLikelihood = unbox(fit$loglik[2]))
})
cat(toJSON(list(reml = reml, censored = censored), digits = 9, pretty = 1), "\n")
