"""Which verdicts a change of the catalogue or the engine moves: golden_verdicts.py LOOMKEY CATALOGUE [--update].

The program identifies the typical example of every part, asked as the engine asks and answered without a mistake
(loomkey catalogue trial --verdicts). verdicts.json beside this file keeps what came out: the class that was called, the
chance of it, the number of questions. Every verdict that differs is told in words, and fails the test; --update takes the
new ones over, after somebody has read the list. Standard library only."""

import json
import subprocess
import sys
from pathlib import Path

GOLDEN = Path(__file__).with_name("verdicts.json")
SECONDS = 300
MOST = 0.99  # nothing is certain, so nothing is kept as 1.00
# Two decimals are kept. A chance that lies on the edge between two of them shall not move by a last digit.
SLACK = 0.006


def kept(probability):
    return min(MOST, round(probability, 2))


def golden_of(verdict):
    """What is kept of one verdict as the program prints it."""
    called = verdict["called_class"]
    return {"called": called, "right": called == verdict["class"], "status": verdict["status"],
            "probability": kept(verdict["probability"]), "questions": verdict["questions"]}


def same(was, verdict):
    now = golden_of(verdict)
    plain = all(was[key] == now[key] for key in ("called", "right", "status", "questions"))
    exact = min(MOST, verdict["probability"])
    return plain and (was["probability"] == now["probability"] or abs(was["probability"] - exact) <= SLACK)


def words(entry):
    called = entry["called"] or "not in the catalogue"
    questions = f"{entry['questions']} question{'' if entry['questions'] == 1 else 's'}"
    return f"{called} ({entry['status'].replace('_', ' ')}, {entry['probability'] * 100:.0f} %, {questions})"


def verdict_on_it(was, now):
    if was["right"] == now["right"]:
        return ""
    return ", right at last" if now["right"] else ", WRONG NOW"


def moves(golden, verdicts):
    """One line a part whose verdict moved: what was, what is. Those that are called something else come first."""
    found = {verdict["part"]: verdict for verdict in verdicts}
    lines, minor = [], []
    for part in sorted(golden.keys() | found.keys()):
        if part not in found:
            lines.append(f"{part}: was {words(golden[part])}; the part is gone")
        elif part not in golden:
            now = golden_of(found[part])
            lines.append(f"{part}: a new part, called {words(now)}{'' if now['right'] else ', WRONG'}")
        elif not same(golden[part], found[part]):
            now = golden_of(found[part])
            line = f"{part}: was {words(golden[part])}; now {words(now)}{verdict_on_it(golden[part], now)}"
            (minor if golden[part]["called"] == now["called"] else lines).append(line)
    return lines + minor


def updated(golden, verdicts):
    """The file's new text, a line a part; what has not moved keeps its line."""
    lines = []
    for verdict in sorted(verdicts, key=lambda v: v["part"]):
        part = verdict["part"]
        entry = golden[part] if part in golden and same(golden[part], verdict) else golden_of(verdict)
        lines.append(f"{json.dumps(part)}: {json.dumps(entry)}")
    return "{\n" + ",\n".join(lines) + "\n}\n"


def run(program, catalogue):
    done = subprocess.run([program, "--catalogue", catalogue, "--no-overlay", "catalogue", "trial", "--verdicts", "-"],
                          stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=SECONDS, check=False)
    if done.returncode != 0:
        sys.exit(f"loomkey ended with {done.returncode}: {done.stderr.strip()}")
    return json.loads(done.stdout)["verdicts"]


def main():
    if len(sys.argv) not in (3, 4) or sys.argv[3:] not in ([], ["--update"]):
        print(__doc__, file=sys.stderr)
        return 2
    update = sys.argv[3:] == ["--update"]
    golden = json.loads(GOLDEN.read_text(encoding="ascii")) if GOLDEN.exists() else {}
    verdicts = run(*sys.argv[1:3])
    moved = moves(golden, verdicts)
    print(*moved, sep="\n")
    right = sum(golden_of(verdict)["right"] for verdict in verdicts)
    was_right = sum(entry["right"] for entry in golden.values())
    print(f"{len(moved)} verdicts moved; right are {right} of {len(verdicts)}, were {was_right} of {len(golden)}")
    if update:
        GOLDEN.write_text(updated(golden, verdicts), encoding="ascii")
        print(f"written: {GOLDEN}")
        return 0
    if moved:
        print("If all of this is as it should be: python3 tests/golden/golden_verdicts.py build/loomkey "
              "build/catalogue.sqlite --update")
    return 1 if moved else 0


if __name__ == "__main__":
    sys.exit(main())
