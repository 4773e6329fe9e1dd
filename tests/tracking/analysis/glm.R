# Fits each data set of a file with R's own glm, as the reference for src/tracking/analysis/decline.
#   Rscript glm.R IN.csv > OUT.csv
# IN has the columns set, group, day, seen, exposure. OUT has a row a set: figures with 17 digits.
# R stops when the deviance settles to 1e-8, which leaves standard errors (they come from the weights
# of the step before) off; here it goes on.
counts <- read.csv(commandArgs(TRUE)[1], colClasses = c("character", "character", rep("numeric", 3)))
settled <- glm.control(epsilon = 1e-12, maxit = 200)
cat("set,intercept,slope,intercept_error,slope_error,dispersion,df,low,high,normal_low,normal_high,converged\n")
for (set in unique(counts$set)) {
  d <- counts[counts$set == set, ]
  formula <- if (length(unique(d$group)) > 1) seen ~ 0 + group + day else seen ~ day
  fit <- suppressWarnings(glm(formula, family = quasipoisson, data = d, offset = log(exposure), control = settled))
  s <- summary(fit)
  b <- coef(s)
  k <- length(coef(fit))
  if (nrow(b) < k) {  # R leaves out of the summary what it cannot estimate
    cat(set, sprintf("%.17g", b[1, 1]), rep("NA", 4), fit$df.residual, rep("NA", 4), fit$converged, sep = ",")
    cat("\n")
    next
  }
  reach <- qt(0.975, fit$df.residual) * b[k, 2]
  normal <- confint.default(fit)
  cat(set, sprintf("%.17g", c(b[1, 1], b[k, 1], b[1, 2], b[k, 2], s$dispersion, fit$df.residual,
                              b[k, 1] - reach, b[k, 1] + reach, normal[k, 1], normal[k, 2])),
      fit$converged, sep = ",")
  cat("\n")
}
