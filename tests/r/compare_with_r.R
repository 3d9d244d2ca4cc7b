# Runs the program on published tables and compares it with R's own functions and the package psych.
# Rscript compare_with_r.R PROGRAM REFERENCE_FOLDER
if (!requireNamespace("psych", quietly = TRUE)) {
  cat("skipped: the R package psych is not installed\n")
  quit(status = 0)
}
arguments <- commandArgs(trailingOnly = TRUE)
program <- arguments[1]
goniometers <- file.path(arguments[2], "goniometer_29x6.csv")

run <- function(...) {
  read.csv(text = system2(program, c(..., "--format", "csv", "--quiet"), stdout = TRUE))
}
same <- function(what, got, wanted, tolerance) {
  if (length(got) != length(wanted) || any(abs(got - wanted) > tolerance)) {
    cat(what, "\n  program", format(got, digits = 10), "\n  R      ", format(wanted, digits = 10), "\n")
    quit(status = 1)
  }
}

scores <- read.csv(goniometers)[, c("U1", "U2", "U3")]
found <- run("agreement", goniometers, "--columns", "U1,U2,U3", "--table", "icc")
wanted <- psych::ICC(scores, lmer = FALSE)$results
same("ICC", found$icc, wanted$ICC, 6e-5)
same("lower ends", found$ci_low, wanted$"lower bound", 6e-4)
same("upper ends", found$ci_high, wanted$"upper bound", 6e-4)
same("F", found$f, wanted$F, 6e-4)

long <- tempfile(fileext = ".csv")
table <- data.frame(participant = sleep$ID, condition = paste("drug", sleep$group), extra = sleep$extra)
write.csv(table, long, row.names = FALSE, quote = FALSE)
found <- run("summary", long, "--value", "extra", "--by", "''", "--compare", shQuote("condition=drug 1,drug 2"))
first <- sleep$extra[sleep$group == 1]
second <- sleep$extra[sleep$group == 2]
for (paired in c(TRUE, FALSE)) {
  row <- found[found$design == if (paired) "paired" else "independent", ]
  test <- t.test(second, first, paired = paired)
  same("t", row$t, unname(test$statistic), 6e-4)
  same("degrees of freedom", row$degrees_of_freedom, unname(test$parameter), 0.06)
  same("p", row$p, test$p.value, 6e-5)
  same("interval", c(row$ci_low, row$ci_high), as.vector(test$conf.int), 6e-3)
}

found <- run("summary", long, "--value", "extra", "--by", "condition")
for (group in 1:2) {
  values <- sleep$extra[sleep$group == group]
  row <- found[found$condition == paste("drug", group), ]
  same("mean and SD", c(row$mean, row$sd), c(mean(values), sd(values)), 6e-3)
  same("quartiles", c(row$lower_quartile, row$middle, row$upper_quartile),
       unname(quantile(values, c(0.25, 0.5, 0.75))), 6e-3)
  same("interval of the mean", c(row$ci_low, row$ci_high), as.vector(t.test(values)$conf.int), 6e-3)
}
cat("the program and R agree\n")
