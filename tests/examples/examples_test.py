#!/usr/bin/env python3
"""Runs every readings file under examples/ through the program and compares what it prints with expected.txt beside it.
A few examples also stand for a promise of the program; those promises are checked on the JSON, so that an expected
output cannot quietly drift away from them.

    examples_test.py PROGRAM CATALOGUE            compare
    examples_test.py PROGRAM CATALOGUE --update   write expected.txt anew; read the difference before you commit it
"""

import difflib
import json
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
WIDTH = 80


def run(program, catalogue, *words):
    environment = {**os.environ, "NO_COLOR": "1", "COLUMNS": str(WIDTH), "LC_ALL": "C.UTF-8"}
    return subprocess.run([program, "--catalogue", catalogue, "--no-overlay", *words], cwd=ROOT, capture_output=True, text=True,
                          stdin=subprocess.DEVNULL, env=environment)


def settled_on(part, finding):
    assert finding["verdict"]["status"] in ("settled", "likely"), finding["verdict"]["status"]
    assert finding["verdict"]["part"] == part, finding["verdict"]["part"]


def first_find(finding):
    settled_on("charge-control-can", finding)
    assert all(s["connect"] is None for s in finding["verdict"]["substitutes"]), "steps shown although earth is unmeasured"


def wrong_answer_survived(finding):
    settled_on("regulator-cvc", finding)
    assert "lead_count" in json.dumps(finding["verdict"]["misfits"]), "the wrong reading is not named"


def dead_part(finding):
    best = finding["candidates"][0]
    assert finding["verdict"]["part"].startswith("coil-"), finding["verdict"]["part"]
    assert best["conditions"][0]["condition"] not in ("good", "damaged"), best["conditions"][0]["condition"]


def contradiction(finding):
    assert finding["verdict"]["status"] == "contradicted", finding["verdict"]["status"]
    assert finding["verdict"]["contradiction"]["trait"] in ("letters", "capacitance")


def not_in_catalogue(finding):
    assert finding["verdict"]["status"] == "not_in_catalogue", finding["verdict"]["status"]
    assert finding["not_in_catalogue"]["probability"] > 0.5


def look_alikes(finding):
    assert finding["verdict"]["status"] not in ("settled", "likely"), finding["verdict"]["status"]
    assert {c["part"] for c in finding["candidates"][:3]} >= {"zener-stud", "diode-stud"}
    check = finding["verdict"]["deciding_check"]
    assert {check["part_a"], check["part_b"]} == {"zener-stud", "diode-stud"}, check
    assert check["trait"] == "bench_zener", check


def look_alikes_checked(finding):
    settled_on("zener-stud", finding)


def positive_earth(finding):
    settled_on("flasher-electronic", finding)
    assert "labelled for negative earth" in finding["verdict"]["label_disagrees"]
    assert finding["verdict"]["cautions"][0]["id"] == "earth-first", finding["verdict"]["cautions"][0]


def few_readings(finding):
    assert finding["verdict"]["status"] == "open", finding["verdict"]["status"]
    assert finding["questions"], "nothing is asked"


def faded_stator(finding):
    settled_on("stator-1ph-open", finding)
    three_phase = [c["probability"] for c in finding["candidates"] if c["part"] == "stator-3ph-potted"]
    assert not three_phase or three_phase[0] < 0.05, three_phase


def zener_on_sink(finding):
    assert finding["candidates"][0]["part"] == "zener-on-sink"
    assert all(s["connect"] is None for s in finding["verdict"]["substitutes"])


def plate_rectifier(finding):
    best = {c["part"]: c["probability"] for c in finding["candidates"]}
    both = best.get("rectifier-silicon-plate", 0) + best.get("rectifier-silicon-plate-heavy", 0)
    assert both > 0.9, best


PROMISES = {f.__name__.replace("_", "-"): f for f in (
    first_find, wrong_answer_survived, dead_part, contradiction, not_in_catalogue, look_alikes, look_alikes_checked,
    positive_earth, few_readings, faded_stator, zener_on_sink, plate_rectifier)}


def check(program, catalogue, folder, update):
    """Findings about one example, empty if all is well."""
    readings = str(folder.relative_to(ROOT) / "find.toml")
    said = run(program, catalogue, "identify", "--readings", readings)
    printed = said.stdout + f"[exit code {said.returncode}]\n"
    if said.stderr:
        printed += "[messages]\n" + said.stderr
    expected = folder / "expected.txt"
    findings = []
    wide = [line for line in printed.splitlines() if len(line) > WIDTH]
    if wide:
        findings.append(f"wider than {WIDTH} columns: {wide[0]}")
    if update:
        expected.write_text(printed)
    elif not expected.exists():
        findings.append("expected.txt is missing")
    elif expected.read_text() != printed:
        findings.extend(difflib.unified_diff(expected.read_text().splitlines(), printed.splitlines(), "expected", "printed",
                                             lineterm="", n=1))
    if folder.name in PROMISES:
        as_json = run(program, catalogue, "identify", "--json", "--readings", readings)
        try:
            PROMISES[folder.name](json.loads(as_json.stdout))
        except (AssertionError, KeyError, TypeError, ValueError) as broken:
            findings.append(f"promise broken: {type(broken).__name__}: {broken}")
    return findings


def main():
    if len(sys.argv) not in (3, 4):
        print(__doc__, file=sys.stderr)
        return 2
    program, catalogue, update = str(Path(sys.argv[1]).resolve()), str(Path(sys.argv[2]).resolve()), "--update" in sys.argv
    folders = sorted(p.parent for p in (ROOT / "examples").glob("*/find.toml"))
    missing = set(PROMISES) - {f.name for f in folders}
    failed = 0
    for folder in folders:
        findings = check(program, catalogue, folder, update)
        print(f"{'FAILED' if findings else 'ok    '} {folder.name}")
        for line in findings:
            print("    " + line)
        failed += bool(findings)
    for name in sorted(missing):
        print(f"FAILED {name}: the example is gone")
    print(f"{len(folders)} examples, {failed + len(missing)} failed")
    return 1 if failed or missing else 0


if __name__ == "__main__":
    sys.exit(main())
