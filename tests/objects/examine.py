#!/usr/bin/env python3
"""Plays an examiner that knows only the written description of each object and answers loomkey's own questions from it.

examine.py LOOMKEY CATALOGUE.sqlite [--verbose] [--at-least PERCENT]

Reads every *.toml beside this file. Each object starts from a readings file that holds the bike only; the first
question of the finding is answered from the object's slips or facts, or with 'cannot tell', and so on. Exit code 1: a
value or part id of an object is refused by the program, or fewer objects than PERCENT are right; 2: bad use.
"""

import argparse
import json
import pathlib
import subprocess
import sys
import tempfile
import tomllib
from concurrent.futures import ThreadPoolExecutor

KINDS = ["good", "faulty", "moved", "rewired", "retrofit", "overseas", "not-a-part", "absent"]
VERDICT_CODES = {0, 3, 4, 5}
ENDED = {"settled", "cannot_tell", "not_in_catalogue", "contradicted"}
ACTED_ON = {"settled", "likely"}
QUESTIONS_AT_MOST = 40
PROCESSES = 2
SECONDS_PER_CALL = 120


class Refused(Exception):
    """The program did not take what an object says."""


def load(folder):
    """All objects of the folder; a malformed one is a Refused that names its file."""
    objects = []
    seen = {}
    for path in sorted(folder.glob("*.toml")):
        try:
            found = tomllib.loads(path.read_text(encoding="ascii"))["object"]
        except (KeyError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
            raise Refused(f"{path.name}: no list of objects can be read: {error}") from error
        for thing in found:
            where = f"{path.name}: {thing.get('id', 'object without id')}"
            missing = [key for key in ("id", "kind", "story", "truth", "facts") if key not in thing]
            if missing:
                raise Refused(f"{where}: {', '.join(missing)} missing")
            if thing["kind"] not in KINDS:
                raise Refused(f"{where}: kind '{thing['kind']}' is none of {', '.join(KINDS)}")
            if thing["id"] in seen:
                raise Refused(f"{where}: the id is taken already in {seen[thing['id']]}")
            if not thing["truth"] and thing["kind"] != "absent":
                raise Refused(f"{where}: only an object of kind absent may have no truth")
            seen[thing["id"]] = path.name
            thing["where"] = where
            objects.append(thing)
    return objects


def toml_value(value):
    """Strings, numbers and lists of strings; JSON writes these as TOML does, as all is ASCII."""
    return json.dumps(value)


def readings_text(bike, readings):
    lines = ["schema = 1", 'title = "Examination"', "", "[bike]"]
    lines += [f"{key} = {toml_value(value)}" for key, value in bike.items()]
    lines += ["", "[readings]"]
    lines += [f"{trait} = {toml_value(value)}" for trait, value in readings.items()]
    return "\n".join(lines) + "\n"


class Program:
    """The program under examination with its catalogue."""

    def __init__(self, loomkey, catalogue):
        self.loomkey = loomkey
        self.catalogue = catalogue

    def run(self, *arguments):
        return subprocess.run(
            [self.loomkey, *arguments, "--catalogue", self.catalogue, "--no-overlay"],
            stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=SECONDS_PER_CALL, check=False)

    def identify(self, bike, readings, work):
        """The finding for these readings; Refused with the program's own words otherwise."""
        path = work / "find.toml"
        path.write_text(readings_text(bike, readings), encoding="ascii")
        done = self.run("identify", "--json", "--no-conversation", "--readings", str(path))
        if done.returncode not in VERDICT_CODES:
            raise Refused(" ".join(done.stderr.replace(str(path), "readings").split()))
        return json.loads(done.stdout)

    def knows_part(self, part):
        return self.run("parts", "show", part).returncode == 0


def check(program, thing, work):
    """Every fault of one object, as lines; a fact counts as bad even if no question would have asked for it."""
    bike = thing.get("bike", {})
    facts = thing["facts"]
    slips = thing.get("slips", {})
    faults = [f"{thing['where']}: slip '{trait}' replaces no fact" for trait in slips if trait not in facts]
    for readings in (facts, facts | slips):
        try:
            program.identify(bike, readings, work)
        except Refused as whole:
            singly = []
            for trait, value in readings.items():
                try:
                    program.identify({}, {trait: value}, work)
                except Refused as error:
                    singly.append(f"{thing['where']}: {trait}: {error}")
            faults += singly or [f"{thing['where']}: {whole}"]
            break
    return faults


def examine(program, thing, work):
    """Asks until the program has its verdict; gives the score of one object."""
    bike = thing.get("bike", {})
    knows = thing["facts"] | thing.get("slips", {})
    answers = {}
    finding = program.identify(bike, answers, work)
    while finding["verdict"]["status"] not in ENDED and len(answers) < QUESTIONS_AT_MOST:
        fresh = [question["trait"] for question in finding["questions"] if question["trait"] not in answers]
        if not fresh:
            break
        answers[fresh[0]] = knows.get(fresh[0], "cannot tell")
        finding = program.identify(bike, answers, work)
    return score(thing, finding, answers)


def score(thing, finding, answers):
    truth = thing["truth"]
    verdict = finding["verdict"]
    first_three = finding["candidates"][:3]
    if truth:
        right = verdict["part"] in truth
        near = any(candidate["part"] in truth for candidate in first_three)
        settled_right = right and verdict["status"] in ACTED_ON
    else:
        right = settled_right = verdict["status"] == "not_in_catalogue"
        # 'Not in the catalogue' is no candidate of the list: it is among the first three if two at most are likelier.
        itself = finding["not_in_catalogue"]["probability"]
        near = sum(candidate["probability"] > itself for candidate in first_three) < 3
    return {
        "kind": thing["kind"], "right": right, "near": near, "settled_right": settled_right,
        "settled_wrong": verdict["status"] in ACTED_ON and verdict["part"] not in truth,
        "questions": len(answers), "untold": sum(answer == "cannot tell" for answer in answers.values()),
        "status": verdict["status"], "part": verdict["part"] or "not in the catalogue",
        "probability": verdict["probability"],
    }


def object_line(thing, result):
    word = "right" if result["right"] else "SETTLED WRONG" if result["settled_wrong"] else "wrong"
    line = (f"{thing['kind']:<10}  {thing['id']:<38} {result['questions']:>2} asked, {result['untold']:>2} untold: "
            f"{result['status']:<16} {result['part']} {result['probability']:.3f}  {word}")
    if not result["right"]:
        line += f" (truth: {', '.join(thing['truth']) or 'not in the catalogue'})"
    return line


def table_row(name, results):
    def total(key):
        return sum(result[key] for result in results)

    mean = total("questions") / len(results)
    return (f"{name:<10} {len(results):>7} {total('right'):>6} {total('near'):>12} {total('settled_right'):>14} "
            f"{total('settled_wrong'):>14} {mean:>15.1f}")


def table(results):
    lines = [f"{'kind':<10} {'objects':>7} {'right':>6} {'first three':>12} {'settled right':>14} "
             f"{'settled wrong':>14} {'mean questions':>15}"]
    for kind in KINDS:
        of_kind = [result for result in results if result["kind"] == kind]
        if of_kind:
            lines.append(table_row(kind, of_kind))
    lines.append(table_row("total", results))
    return "\n".join(lines)


def main():
    parser = argparse.ArgumentParser(description="Examine loomkey with written descriptions of objects.")
    parser.add_argument("loomkey", help="the program")
    parser.add_argument("catalogue", help="its catalogue, a .sqlite file")
    parser.add_argument("--verbose", action="store_true", help="print one line for every object")
    parser.add_argument("--at-least", type=float, default=0.0, metavar="PERCENT",
                        help="fail if fewer objects than this share are right")
    options = parser.parse_args()
    for given in (options.loomkey, options.catalogue):
        if not pathlib.Path(given).is_file():
            parser.error(f"'{given}' is no file")
    program = Program(str(pathlib.Path(options.loomkey).resolve()), str(pathlib.Path(options.catalogue).resolve()))

    def one(thing):
        with tempfile.TemporaryDirectory() as work:
            faults = check(program, thing, pathlib.Path(work))
            return faults, None if faults else examine(program, thing, pathlib.Path(work))

    try:
        objects = load(pathlib.Path(__file__).resolve().parent)
        if not objects:
            raise Refused("no objects beside this file")
        # Threads only wait here: each drives one process of the program.
        with ThreadPoolExecutor(PROCESSES) as pool:
            parts = sorted({part for thing in objects for part in thing["truth"]})
            unknown = {part for part, known in zip(parts, pool.map(program.knows_part, parts)) if not known}
            outcomes = list(pool.map(one, objects))
    except (Refused, subprocess.TimeoutExpired) as error:
        print(f"examine: {error}", file=sys.stderr)
        return 1

    faults = [fault for found, _ in outcomes for fault in found]
    faults += [f"{thing['where']}: the catalogue has no part '{part}'"
               for thing in objects for part in thing["truth"] if part in unknown]
    results = [result for _, result in outcomes if result]
    if options.verbose:
        for thing, (_, result) in zip(objects, outcomes):
            if result:
                print(object_line(thing, result))
        print()
    if results:
        print(table(results))
    for fault in faults:
        print(f"examine: bad object: {fault}", file=sys.stderr)
    share = 100 * sum(result["right"] for result in results) / len(objects)
    print(f"right: {share:.1f} percent of {len(objects)} objects")
    if share < options.at_least:
        print(f"examine: fewer than {options.at_least:g} percent are right", file=sys.stderr)
    return 1 if faults or share < options.at_least else 0


if __name__ == "__main__":
    sys.exit(main())
