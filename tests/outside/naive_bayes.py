"""Beliefs of the engine against scikit-learn's CategoricalNB (Debian package python3-sklearn) on the same tables.

usage: naive_bayes.py TABLES_PROGRAM FILE     exit 77: the package is missing
"""

import copy
import json
import subprocess
import sys

try:
    import numpy
    from sklearn.naive_bayes import CategoricalNB
except ImportError as missing:
    print(f"skipped: python3-sklearn is not installed ({missing})")
    sys.exit(77)

TOLERANCE = 1e-9


def largest_difference(table):
    judge = CategoricalNB(alpha=1.0, min_categories=table["states"])
    judge.fit(numpy.array(table["rows"]), numpy.array(table["labels"]))
    beliefs = numpy.abs(judge.predict_proba(numpy.array(table["queries"])) - numpy.array(table["beliefs"])).max()
    chances = max(numpy.abs(log_chance - numpy.array(ours).T).max()
                  for log_chance, ours in zip(judge.feature_log_prob_, table["log_chances"]))
    return max(beliefs, chances)


def main():
    program, path = sys.argv[1:]
    subprocess.run([program, path], check=True)
    with open(path, encoding="utf-8") as file:
        tables = json.load(file)
    assert len(tables) >= 20 and all(len(table["queries"]) >= 40 for table in tables), "too little to compare"
    worst = max(largest_difference(table) for table in tables)
    print(f"{len(tables)} tables: largest difference {worst:.3g}, allowed {TOLERANCE:g}")
    if worst > TOLERANCE:
        sys.exit("error: beliefs or chances differ")
    # A comparison that cannot fail is none: one belief and one chance, each a millionth off, must be noticed.
    for key in ("beliefs", "log_chances"):
        spoilt = copy.deepcopy(tables[0])
        place = spoilt[key][0]
        while isinstance(place[0], list):
            place = place[0]
        place[0] += 1e-6
        if largest_difference(spoilt) <= TOLERANCE:
            sys.exit(f"error: a wrong value among {key} was not noticed")


main()
