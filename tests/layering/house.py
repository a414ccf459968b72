"""Rules of the house that a reader notices at once: small files, no loose ends, a tidy top level."""

import re

LONGEST_FILE = 600  # lines
TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "src", "schema", "data", "tests", "examples"}
# Spelt in halves, so that this file does not find itself.
LOOSE_ENDS = re.compile(r"\b(" + "|".join(("TO" "DO", "FIX" "ME", "XX" "X")) + r")\b")


def judge_length(path, text):
    lines = text.count("\n")
    if lines < LONGEST_FILE:
        return []
    return [f"{path}: {lines} lines; a file of src stays under {LONGEST_FILE}, so that a reader can hold it"]


def judge_words(path, text):
    return [f"{path}:{number}: '{match.group(1)}' is an issue, not a comment"
            for number, line in enumerate(text.splitlines(), 1) if (match := LOOSE_ENDS.search(line))]


def judge_top_level(names):
    """Dotfiles and build folders (.gitignore) are not looked at."""
    return [f"{name}: not one of the entries the top level may hold ({', '.join(sorted(TOP_LEVEL))}, dotfiles)"
            for name in sorted(names)
            if name not in TOP_LEVEL and not name.startswith(".") and not name.startswith("build")]
