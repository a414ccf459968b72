#!/usr/bin/env bash
# Exports the datasets of r-cran-mlbench into a folder and runs a test on them; exit 77 if R or the package is missing.
# usage: with_datasets.sh DIRECTORY COMMAND...
set -euo pipefail
directory=$1
shift
if ! command -v Rscript >/dev/null; then
  echo "skipped: Rscript (r-base-core) is not installed"
  exit 77
fi
mkdir -p "$directory"
Rscript --vanilla "$(dirname "${BASH_SOURCE[0]}")/datasets.R" "$directory"
DATASETS=$directory exec "$@"
