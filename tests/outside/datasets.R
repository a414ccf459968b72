# Exports UCI Zoo, Soybean and Letter Recognition from Debian's r-cran-mlbench as CSV: Rscript datasets.R DIRECTORY
# Exit 77: the package is missing. The data stay outside the project; missing values are written as empty fields.
if (!requireNamespace("mlbench", quietly = TRUE)) {
  cat("skipped: r-cran-mlbench is not installed\n")
  quit(status = 77)
}
directory <- commandArgs(trailingOnly = TRUE)[1]
for (name in c("Zoo", "Soybean", "LetterRecognition")) {
  data(list = name, package = "mlbench")
  table <- get(name)
  if (name == "Zoo") table <- cbind(animal = rownames(table), table)
  write.csv(table, file.path(directory, paste0(tolower(name), ".csv")), row.names = FALSE, na = "")
}
