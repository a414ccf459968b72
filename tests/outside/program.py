"""What the checks against the outside world share: the compiled catalogue as plain values, the program as a script
drives it, and one line of report for each check. Standard library only.

Exit codes of such a script: 0 all hold, 1 some do not, 77 something it needs is missing."""

import json
import os
import sqlite3
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

SKIPPED = 77
ROOT = Path(__file__).resolve().parents[2]


class Claim(NamedTuple):
    states: dict   # id of the state -> share
    ranges: list   # (low, high), in the unit of the trait
    sets: list     # frozensets of letters or lead colours; an empty one means "none"
    special: dict  # ol, zero, jumps, na -> share


class Catalogue:
    """The compiled catalogue. `texts` holds what it says, under "part:ID", "advice:ID", "caution:ID" or "trait:ID";
    `claims` what it expects, under (part, condition, trait), the good part having condition ""."""

    def __init__(self, path):
        with sqlite3.connect(f"file:{path}?mode=ro", uri=True) as self.database:
            self.parts = dict(self._rows("SELECT p.id, a.id FROM part p JOIN advice a ON a.idx = p.advice"))
            self.families = dict(self._rows("SELECT p.id, f.id FROM part p JOIN family f ON f.idx = p.family"))
            self.colours = {colour for colour, in self._rows("SELECT id FROM colour")}
            self.carried = {}  # part -> cautions that go with it
            for part, caution in self._rows("SELECT p.id, c.id FROM part p JOIN advice_caution l ON l.advice = p.advice"
                                            " JOIN caution c ON c.idx = l.caution"):
                self.carried.setdefault(part, set()).add(caution)
            self.texts = {}
            self._read_texts()
            self.claims = {}
            self._read_claims()
        self.database.close()

    def _rows(self, query, *values):
        return self.database.execute(query, values).fetchall()

    def _say(self, where, *words):
        self.texts[where] = self.texts.get(where, "") + " | ".join(word for word in words if word) + "\n"

    def _read_texts(self):
        for caution, hazard, text in self._rows("SELECT id, hazard, text FROM caution"):
            self._say("caution:" + caution, hazard, text)
        for trait, *words in self._rows("SELECT id, name, ask, how FROM trait"):
            self._say("trait:" + trait, *words)
        for advice, *words in self._rows("SELECT id, title, function, needed FROM advice"):
            self._say("advice:" + advice, *words)
        for advice, *words in self._rows(
                "SELECT a.id, s.what, (SELECT group_concat(c.text, '; ') FROM substitute_condition c"
                " WHERE c.substitute = s.idx), s.connect, s.connect_positive, s.connect_negative"
                " FROM substitute s JOIN advice a ON a.idx = s.advice ORDER BY s.idx"):
            self._say("advice:" + advice, *words)
        for part, *words in self._rows(
                "SELECT p.id, p.name, f.name, f.does, p.usual_place, p.strays, p.redundant_when, p.note"
                " FROM part p JOIN family f ON f.idx = p.family"):
            self._say("part:" + part, *words)
        of_part = "(SELECT id FROM part WHERE idx = part)"
        for columns, table in (("how, good, bad, caveat", "meter_check"), ("tell", "look_alike"),
                               ("name, sees", "part_condition"), ("word", "part_word WHERE list = 0")):
            for part, *words in self._rows(f"SELECT {of_part}, {columns} FROM {table}"):
                self._say("part:" + part, *words)

    def _read_claims(self):
        stated = {}  # (kind of owner, owner, trait) -> Claim
        for claim, trait, family, part, condition, *special in self._rows(
                "SELECT c.idx, t.id, c.family, c.part, c.condition, c.ol, c.zero, c.jumps, c.na"
                " FROM claim c JOIN trait t ON t.idx = c.trait"):
            sets = {seq: set() for seq, in self._rows("SELECT seq FROM claim_set WHERE claim = ?", claim)}
            for seq, word in self._rows("SELECT seq, word FROM claim_set_item WHERE claim = ?", claim):
                sets[seq].add(word)
            value = Claim(
                dict(self._rows(
                    "SELECT s.id, l.share FROM claim_state l JOIN claim c ON c.idx = l.claim"
                    " JOIN trait_state s ON s.trait = c.trait AND s.seq = l.state WHERE l.claim = ?", claim)),
                self._rows("SELECT low, high FROM claim_range WHERE claim = ?", claim),
                [frozenset(words) for words in sets.values()],
                dict(zip(("ol", "zero", "jumps", "na"), special)))
            owner = next(((kind, idx) for kind, idx in (("condition", condition), ("part", part), ("family", family))
                          if idx is not None), ("trait", None))
            stated[owner + (trait,)] = value
        traits = [trait for trait, in self._rows("SELECT id FROM trait")]
        for part, idx, family in self._rows("SELECT id, idx, family FROM part"):
            conditions = self._rows("SELECT id, idx FROM part_condition WHERE part = ?", idx)
            for trait in traits:
                good = stated.get(("part", idx, trait)) or stated.get(("family", family, trait)) \
                    or stated.get(("trait", None, trait))
                if good:
                    self.claims[part, "", trait] = good
                for condition, number in conditions:
                    if (value := stated.get(("condition", number, trait))):
                        self.claims[part, condition, trait] = value

    def words_claimed(self, part, trait):
        """Every letter or lead colour the good part may carry."""
        return set().union(*self.claims[part, "", trait].sets)


class Program:
    """The real program with one catalogue, in a home folder of its own."""

    def __init__(self, loomkey, catalogue):
        self.loomkey, self.catalogue = os.path.abspath(loomkey), os.path.abspath(catalogue)
        self.home = tempfile.TemporaryDirectory()

    def json(self, *words, stdin=""):
        done = self.run(*words, "--json", stdin=stdin)
        if not done.stdout:
            raise RuntimeError(f"loomkey {' '.join(map(str, words))}: {done.stderr.strip()}")
        return json.loads(done.stdout)

    def run(self, *words, stdin=""):
        environment = {"HOME": self.home.name, "PATH": "/usr/bin:/bin", "LANG": "C.UTF-8",
                       "LOOMKEY_CATALOGUE": self.catalogue}
        return subprocess.run([self.loomkey, *map(str, words)], input=stdin, capture_output=True, text=True, timeout=60,
                              env=environment, cwd=self.home.name, check=False)


class Report:
    """Prints one line for each check and remembers whether any failed."""

    def __init__(self):
        self.checks = self.failed = 0

    def tell(self, name, problems):
        self.checks += 1
        self.failed += bool(problems)
        print(f"{'FAILED' if problems else 'ok    '} {name}" + "".join(f"\n         {text}" for text in problems))

    def end(self):
        print(f"{self.checks} checks, {self.failed} failed")
        return 1 if self.failed else 0


def needed(*files):
    """Ends the script as skipped if a file is missing."""
    for file in files:
        if not Path(file).is_file():
            print(f"skipped: {file} is missing")
            sys.exit(SKIPPED)


def arguments():
    """LOOMKEY_PROGRAM CATALOGUE.sqlite"""
    if len(sys.argv) != 3:
        print(f"usage: python3 {sys.argv[0]} LOOMKEY_PROGRAM CATALOGUE.sqlite")
        sys.exit(2)
    needed(*sys.argv[1:])
    return sys.argv[1:]
