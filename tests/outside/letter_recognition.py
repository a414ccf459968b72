"""The engine's number claims and questions on an open dataset, against scikit-learn on the same split.

Letter Recognition of the UCI repository, as Debian's r-cran-mlbench carries it: 20,000 pictures of the 26 capitals in
20 typefaces, 16 whole numbers from 0 to 15 each; the usual split trains on the first 16,000.

usage: letter_recognition.py PROGRAM (under with_datasets.sh)     exit 77: the package python3-sklearn is missing
"""

import csv
import json
import math
import os
import random
import subprocess
import sys
from collections import Counter

try:
    import numpy
    from sklearn.naive_bayes import CategoricalNB, GaussianNB
except ImportError as missing:
    print(f"skipped: python3-sklearn is not installed ({missing})")
    sys.exit(77)

TRAINING, STEP = 16000, 20
# Stated before any result was seen.
ALL_FEATURES_TOLERANCE = 0.01  # all 16 numbers: as right as CategoricalNB, both ways
ASKED_TOLERANCE = 0.02         # asked until 95 % sure: at most so much below GaussianNB on all 16
MOST_QUESTIONS = 14            # on average, of 16: choosing must pay


def reached(path):
    run = subprocess.run([sys.argv[1], path, str(TRAINING), str(STEP)], check=True, capture_output=True, text=True)
    return json.loads(run.stdout)


def shuffled(path, rows):
    """The same table with the letters dealt out anew: nothing can be learned from it."""
    names = [row[0] for row in rows]
    random.Random(1).shuffle(names)
    other = path + ".shuffled"
    with open(other, "w", encoding="utf-8") as file:
        file.write("header\n")
        file.writelines(",".join([name] + row[1:]) + "\n" for name, row in zip(names, rows))
    return other


def main():
    path = os.path.join(os.environ["DATASETS"], "letterrecognition.csv")
    with open(path, encoding="utf-8") as file:
        rows = list(csv.reader(file))[1:]
    labels = numpy.array([row[0] for row in rows])
    numbers = numpy.array([[int(value) for value in row[1:]] for row in rows])
    assert numbers.shape == (20000, 16) and len(set(labels)) == 26, "not the published table"
    train, test = slice(0, TRAINING), slice(TRAINING, None, STEP)

    def accuracy(judge):
        return float((judge.fit(numbers[train], labels[train]).predict(numbers[test]) == labels[test]).mean())

    categorical = accuracy(CategoricalNB(alpha=1.0, min_categories=16))
    gaussian = accuracy(GaussianNB())
    ours = reached(path)
    assert ours["tested"] == len(labels[test]), "another test split"
    counts = Counter(labels[train])
    prior_bits = -sum(n / TRAINING * math.log2(n / TRAINING) for n in counts.values())
    # An answer is one of 16 values, so it is worth log2 16 bits at most.
    bound = (prior_bits - ours["bits_left"]) / math.log2(16)
    print(f"all 16 numbers: {ours['all_right']:.4f} right; CategoricalNB {categorical:.4f}, GaussianNB {gaussian:.4f}")
    print(f"asked until 95 % sure: {ours['right']:.4f} right after {ours['questions']:.2f} questions; "
          f"no fewer than {bound:.2f} can do")
    problems = []
    if abs(ours["all_right"] - categorical) > ALL_FEATURES_TOLERANCE:
        problems.append("number claims judge otherwise than the same table of frequencies")
    if ours["right"] < gaussian - ASKED_TOLERANCE:
        problems.append("questions lose too much")
    if not bound <= ours["questions"] <= MOST_QUESTIONS:
        problems.append("the number of questions is out of bounds")
    if reached(shuffled(path, rows))["all_right"] > 0.15:
        problems.append("letters dealt out anew were recognised")
    if problems:
        sys.exit("error: " + "; ".join(problems))


main()
