# Compares counts at treated and control places, each against its exposure, with R's own glm, as the
# reference for src/tracking/analysis/control and trend.
#   Rscript rates.R IN.csv > OUT.csv
# IN has the columns set, treated, after (0 or 1), seen, exposure. OUT has a row a set, in percent:
# the change at the treated place, the effect beyond the control's change (the interaction of a
# saturated Poisson regression with an offset), and the effect by the counts from after alone.
d <- read.csv(commandArgs(TRUE)[1])
settled <- glm.control(epsilon = 1e-13, maxit = 200)
percent <- function(model, name) 100 * (exp(coef(model)[[name]]) - 1)
fit <- function(formula, data) glm(formula, family = poisson, data = data, offset = log(exposure), control = settled)
cat("set,change,effect,after_only\n")
for (set in unique(d$set)) {
  s <- d[d$set == set, ]
  cat(set, sprintf("%.17g", c(percent(fit(seen ~ after, s[s$treated == 1, ]), "after"),
                              -percent(fit(seen ~ treated * after, s), "treated:after"),
                              -percent(fit(seen ~ treated, s[s$after == 1, ]), "treated"))), sep = ",")
  cat("\n")
}
