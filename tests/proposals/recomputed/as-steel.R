# The ratio of steel and FRP with series as random effect, by restricted maximum likelihood, for the rows of as-steel.json:
# ln(ratio) on cell, FRP, study and ln(diameter) by material, centred on the FRP bars. The rows were drawn by Rscript as-steel.R draw.
# Run: Rscript as-steel.R        prints delta [FRP], its standard error and the share of the variance between series (R with nlme)
suppressMessages({ library(nlme); library(jsonlite) })
if (identical(commandArgs(TRUE), "draw")) {
  set.seed(13)
  series <- expand.grid(cell = c("single P", "single Q", "group P", "group Q"), frp = 0:1, copy = 1:3, stringsAsFactors = FALSE)
  series$study <- ifelse((seq_len(nrow(series)) %% 3) == 0, "B", "A")
  series$diameter <- sample(c(9.5, 12.7, 15.9, 19.1), nrow(series), replace = TRUE)
  mean <- c("single P" = 0.30, "single Q" = 0.10, "group P" = 0.20, "group Q" = 0.02)
  rows <- do.call(rbind, lapply(seq_len(nrow(series)), function(i) with(series[i, ], {
    between <- rnorm(1, 0, 0.08)
    n <- sample(2:5, 1)
    y <- mean[[cell]] + log(0.85) * frp + 0.05 * (study == "B") - 0.15 * log(diameter / 16) + between + rnorm(n, 0, 0.07)
    data.frame(series = paste0("s", i), study, cell, frp, diameter, ratio = signif(exp(y), 7))
  })))
  cat(toJSON(list(rows = rows), digits = 9, dataframe = "values"), "\n")
} else {
  d <- as.data.frame(fromJSON("as-steel.json")$rows)
  names(d) <- c("series", "study", "cell", "frp", "diameter", "ratio")
  d[c("frp", "diameter", "ratio")] <- lapply(d[c("frp", "diameter", "ratio")], as.numeric)
  d$size <- log(d$diameter) - mean(log(d$diameter[d$frp == 1]))
  fit <- lme(log(ratio) ~ cell - 1 + frp + study + size + frp:size, d, ~ 1 | series, control = lmeControl(tolerance = 1e-12, msTol = 1e-14, msMaxIter = 500))
  table <- summary(fit)$tTable["frp", ]
  sd <- c(sqrt(getVarCov(fit)[1, 1]), fit$sigma)
  cat(sprintf("delta %.7f se %.7f icc %.4f df %g diameter %.5f n %d\n", table["Value"], table["Std.Error"], sd[1]^2 / sum(sd^2), table["DF"], exp(mean(log(d$diameter[d$frp == 1]))), nrow(d)))
}
