# Compares treated places with controls, as the reference for src/tracking/analysis/pest_evidence.
#   Rscript evidence.R IN.csv > OUT.csv
# IN has the columns set, place, treated (0 or 1), day, seen, exposure. OUT has a row a set: the
# dispersion about each place's own line, pooled and at least 1; the variance between places; the
# slope of the treated against that of the controls, its standard error and degrees of freedom, and
# the bounds of its 95 % interval.
# Each place's line is R's own glm(quasipoisson) with an offset; one whose pests were all seen at the
# first count has no slope there and gets Firth's, each count raised by half its leverage. Places
# are joined by metafor's rma (Debian: r-cran-metafor): a random-effects model with the two arms as
# moderator, the variance between places by Paule and Mandel, Student's t. Of two places alone the
# slopes are compared by one glm, the dispersion in it.
suppressPackageStartupMessages(library(metafor))
counts <- read.csv(commandArgs(TRUE)[1], colClasses = c("character", "character", rep("numeric", 4)))
settled <- glm.control(epsilon = 1e-14, maxit = 500)
line <- function(d, y = d$seen) {
  suppressWarnings(glm(y ~ day, family = poisson, data = d, offset = log(exposure), control = settled))
}
firth <- function(d) {
  raised <- d$seen + 1 / nrow(d)
  for (step in 1:2000) {
    fit <- line(d, raised)
    next_raised <- d$seen + hatvalues(fit) / 2
    if (max(abs(next_raised - raised)) < 1e-13) break
    raised <- next_raised
  }
  fit
}
one_end <- function(d) {
  at <- d$day[d$seen > 0]
  all(at == min(d$day)) || all(at == max(d$day))
}
cat("set,dispersion,between,slope,error,df,low,high\n")
for (set in unique(counts$set)) {
  squares <- df <- 0
  slopes <- variances <- treated <- c()
  for (place in unique(counts$place[counts$set == set])) {
    d <- counts[counts$set == set & counts$place == place, ]
    if (one_end(d)) {
      fit <- firth(d)
    } else {
      fit <- line(d)
      squares <- squares + sum(residuals(fit, "pearson")^2)
      df <- df + fit$df.residual
    }
    slopes <- c(slopes, coef(fit)[["day"]])
    variances <- c(variances, vcov(fit)["day", "day"])
    treated <- c(treated, d$treated[1])
  }
  dispersion <- max(1, squares / df)
  if (length(slopes) > 2) {
    fit <- rma(slopes, dispersion * variances, mods = ~ treated, method = "PM", test = "t",
               control = list(tol = 1e-14, maxiter = 10000))
    result <- c(fit$tau2, fit$beta[2], fit$se[2])
    degrees <- min(length(slopes) - 2, df)
  } else if (any(sapply(split(counts[counts$set == set, ], counts$place[counts$set == set]), one_end))) {
    result <- c(0, slopes[treated == 1] - slopes[treated == 0], sqrt(dispersion * sum(variances)))
    degrees <- df
  } else {
    both <- counts[counts$set == set, ]
    fit <- glm(seen ~ place + place:day, family = quasipoisson, data = both, offset = log(exposure),
               control = settled)
    two <- coef(summary(fit, dispersion = dispersion))
    slope_of <- function(t) which(treated == t) + 2
    result <- c(0, two[slope_of(1), 1] - two[slope_of(0), 1],
                sqrt(two[slope_of(1), 2]^2 + two[slope_of(0), 2]^2))
    degrees <- df
  }
  reach <- qt(0.975, degrees) * result[3]
  cat(set, sprintf("%.17g", c(dispersion, result, degrees, result[2] - reach, result[2] + reach)), sep = ",")
  cat("\n")
}
