# Time and memory by the size of a job, both axes logarithmic:  Rscript scaling.R in.csv out.png
arguments <- commandArgs(trailingOnly = TRUE)
runs <- read.csv(arguments[1])
commands <- unique(runs$command)
png(arguments[2], width = 1400, height = 620, res = 130, type = "cairo")
par(mfrow = c(1, 2), mar = c(4, 4, 2, 1), las = 1)
draw <- function(column, title, unit) {
  plot(NULL, log = "xy", xlim = range(runs$stations), ylim = range(runs[[column]]),
       xlab = "stations", ylab = unit, main = title, axes = FALSE)
  axis(1, at = unique(runs$stations), labels = format(unique(runs$stations), big.mark = ",", scientific = FALSE, trim = TRUE))
  axis(2)
  grid(equilogs = FALSE)
  for (i in seq_along(commands)) {
    these <- runs[runs$command == commands[i], ]
    lines(these$stations, these[[column]], type = "b", pch = i, lty = i, lwd = 1.5)
  }
}
draw("seconds", "Time", "seconds")
legend("topleft", commands, pch = seq_along(commands), lty = seq_along(commands), bty = "n")
draw("memory_mib", "Memory", "MiB")
invisible(dev.off())
