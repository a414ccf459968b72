"""Drives the real program from outside: program_test.py LOOMKEY CATALOGUE [TestClass...]. Standard library only."""

import csv
import fcntl
import json
import os
import pty
import resource
import shutil
import signal
import stat
import struct
import subprocess
import sys
import tempfile
import termios
import time
import unittest
import xml.etree.ElementTree
from pathlib import Path

LOOMKEY = ""
CATALOGUE = ""

USAGE, OPEN, CONTRADICTED, ABSENT, BAD_INPUT, BAD_CATALOGUE, STORAGE = 2, 3, 4, 5, 6, 7, 8


class ProgramTest(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.home = Path(self.folder.name)

    def environment(self, **extra):
        base = {"HOME": str(self.home), "XDG_STATE_HOME": str(self.home / "state"), "PATH": "/usr/bin:/bin",
                "LANG": "C.UTF-8", "LOOMKEY_CATALOGUE": CATALOGUE}
        base.update(extra)
        return {name: value for name, value in base.items() if value is not None}

    def run_program(self, *words, stdin="", env=None, **options):
        data = stdin.encode() if isinstance(stdin, str) else stdin
        return subprocess.run([LOOMKEY, *map(str, words)], input=data, capture_output=True, timeout=60,
                              env=env or self.environment(), cwd=self.home, check=False, **options)

    def write(self, name, content):
        path = self.home / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    def assert_refused(self, code, *words, says=(), stdin="", env=None):
        """One message on standard error, nothing on standard output."""
        done = self.run_program(*words, stdin=stdin, env=env)
        message = done.stderr.decode()
        self.assertEqual(done.returncode, code, message)
        self.assertEqual(done.stdout, b"")
        self.assertTrue(message.startswith("loomkey: "), message)
        self.assertEqual(message.count("loomkey: "), 1, message)
        folded = " ".join(message.split())
        for piece in says:
            self.assertIn(piece, folded)
        return folded


class ExitCodes(ProgramTest):
    def test_help_and_version_are_answers(self):
        for words in (["--help"], ["--version"], ["identify", "--help"], ["catalogue", "trial", "-h"]):
            done = self.run_program(*words)
            self.assertEqual((done.returncode, done.stderr), (0, b""), words)
            self.assertTrue(done.stdout)

    def test_an_open_case_says_so_unless_told_not_to(self):
        self.assertEqual(self.run_program("identify", "--reading", "form=can").returncode, OPEN)
        self.assertEqual(self.run_program("identify", "--reading", "form=can", "--exit-zero").returncode, 0)

    def test_usage(self):
        self.assert_refused(USAGE, says=["say what 'loomkey' is to do: identify"])
        self.assert_refused(USAGE, "identfy", says=["Did you mean 'identify'?"])
        self.assert_refused(USAGE, "identify", "--redings", "x", says=["Did you mean '--readings'?"])
        self.assert_refused(USAGE, "identify", "--conversation", "--json")
        self.assert_refused(USAGE, "identify", "--conversation", "--readings", "-")
        self.assert_refused(USAGE, "identify", "--conversation", "--no-conversation")
        self.assert_refused(USAGE, "identify", "--readings", "-", "--readings", "-", stdin="schema = 1")
        self.assert_refused(USAGE, "identify", "--force")

    def test_unknown_names(self):
        self.assert_refused(BAD_INPUT, "parts", "show", "zener-stub", says=["Did you mean 'zener-stud'?"])
        self.assert_refused(BAD_INPUT, "parts", "list", "--family", "rectifer", says=["Did you mean 'rectifier'?"])
        self.assert_refused(BAD_INPUT, "traits", "lenght", says=["no trait"])
        self.assert_refused(BAD_INPUT, "compare", "zener-stud", "zener-stud", says=["named twice"])
        self.assert_refused(BAD_INPUT, "why", "nothing-like-it", says=["no part"])
        self.assert_refused(BAD_INPUT, "parts", "search", "qqqqqq", says=["no part holds"])
        self.assert_refused(BAD_INPUT, "catalogue", "template", "rectifer", says=["rectifier"])

    def test_catalogue_trouble(self):
        missing = self.environment(LOOMKEY_CATALOGUE=str(self.home / "none.sqlite"))
        self.assert_refused(BAD_CATALOGUE, "parts", env=missing)
        self.assert_refused(BAD_CATALOGUE, "parts", "--catalogue", self.write("text.sqlite", "no catalogue"))
        self.assert_refused(BAD_CATALOGUE, "catalogue", "check", self.home / "nowhere")
        (self.home / "empty").mkdir()
        done = self.run_program("catalogue", "check", self.home / "empty")
        self.assertEqual(done.returncode, BAD_CATALOGUE)
        self.assertIn(b"mistakes in the sources", done.stderr)


class BadInput(ProgramTest):
    def refuse_file(self, content, code=BAD_INPUT, says=()):
        path = self.write("find.toml", content)
        return self.assert_refused(code, "identify", "--readings", path, says=says)

    def test_files_that_hold_no_readings(self):
        self.refuse_file(b"", says=["is empty"])
        self.refuse_file(b"\x00\x01\x02\xff" * 100, says=["not a text file"])
        self.refuse_file("form = 'gr\u00fc\u00df'\n".encode("latin-1"), says=["find.toml:1", "not UTF-8"])
        self.refuse_file(b"#" * (1024 * 1024 + 1), says=["larger than"])
        self.refuse_file("schema = 99\n", says=["find.toml:1"])
        self.refuse_file("[readings\n", says=["find.toml:1"])

    def test_places_that_are_no_files(self):
        self.assert_refused(BAD_INPUT, "identify", "--readings", self.home, says=["is a folder"])
        self.assert_refused(BAD_INPUT, "identify", "--readings", self.home / "missing.toml", says=["No such file"])
        self.assert_refused(BAD_INPUT, "identify", "--readings", "/dev/zero", says=["larger than"])
        self.assert_refused(BAD_INPUT, "identify", "--readings", "-", stdin="", says=["standard input"])

    @unittest.skipIf(os.geteuid() == 0, "root may read everything")
    def test_a_file_that_may_not_be_read(self):
        path = self.write("secret.toml", "schema = 1\n")
        path.chmod(0)
        self.assert_refused(STORAGE, "identify", "--readings", path, says=["Permission denied"])

    def test_the_line_and_the_nearest_word_are_named(self):
        self.refuse_file("[readings]\nfrom = \"can\"\n", says=["find.toml:2", "'form'"])
        self.refuse_file("[readings]\nform = \"cann\"\n", says=["find.toml:2", "'can'"])
        self.refuse_file("[readings]\nsize_long = \"50 volts\"\n", says=["find.toml:2", "mm"])
        self.refuse_file("[readings]\nform = \"can\"\nform = \"box\"\n", says=["find.toml:3"])

    def test_two_values_for_one_trait_name_both_places(self):
        first = self.write("a.toml", "[readings]\nform = \"can\"\n")
        second = self.write("b.toml", "[readings]\nform = \"box\"\n")
        self.assert_refused(BAD_INPUT, "identify", "--readings", first, "--readings", second,
                            says=["a.toml:2", "b.toml:2"])

    def test_nothing_hostile_is_printed_back(self):
        for words in (["identify", "--reading", "form=\x1b[31mred"], ["parts", "show", "\x1b]0;title\x07"],
                      ["identify", "--readings", "\x1b[2J"], ["identify", "--bike", "volts=\u202e21"]):
            done = self.run_program(*words)
            self.assertEqual(done.returncode, BAD_INPUT)
            self.assertNotIn(b"\x1b", done.stderr)
            self.assertNotIn("\u202e", done.stderr.decode())


class Streams(ProgramTest):
    def test_results_are_data_and_notes_are_messages(self):
        done = self.run_program("identify", "--reading", "size_long=about 30")
        self.assertIn(b"What is it?", done.stdout)
        self.assertIn(b"taken as", done.stderr)
        self.assertNotIn(b"loomkey: ", done.stdout)

    def test_no_terminal_codes_in_a_pipe(self):
        for words in (["identify", "--reading", "form=can"], ["parts"], ["parts", "show", "zener-stud"], ["--help"],
                      ["traits"], ["settings"], ["compare", "zener-stud", "zener-pack"]):
            done = self.run_program(*words, env=self.environment(TERM="xterm"))
            self.assertNotIn(b"\x1b", done.stdout + done.stderr, words)

    def at_a_terminal(self, *words, columns=100, **env):
        """What the program shows on a terminal; its input is none."""
        master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
        process = subprocess.Popen([LOOMKEY, *words], stdin=subprocess.DEVNULL, stdout=slave, stderr=slave,
                                   env=self.environment(**env))
        os.close(slave)
        shown = b""
        while True:
            try:
                block = os.read(master, 65536)
            except OSError:
                break
            if not block:
                break
            shown += block
        os.close(master)
        process.wait(timeout=60)
        return shown

    def test_terminal_codes_only_where_they_are_welcome(self):
        words = ["identify", "--reading", "form=can"]
        self.assertIn(b"\x1b[1m", self.at_a_terminal(*words, TERM="xterm"))
        self.assertNotIn(b"\x1b", self.at_a_terminal(*words, TERM="xterm", NO_COLOR="1"))
        self.assertNotIn(b"\x1b", self.at_a_terminal(*words, TERM="dumb"))
        self.assertNotIn(b"\x1b", self.at_a_terminal(*words))

    def test_lines_fit_the_width(self):
        commands = [["identify", "--reading", "form=can", "--reading", "size_long=30 mm"], ["parts"], ["traits"],
                    ["parts", "show", "regrec-3ph"], ["traits", "form"], ["settings"], ["--help"],
                    ["why", "zener-stud", "--reading", "form=stud"], ["compare", "zener-stud", "zener-pack"]]
        for columns, widest in ((None, 80), ("200", 80), ("60", 60), ("40", 40), ("nonsense", 80)):
            for words in commands:
                done = self.run_program(*words, env=self.environment(COLUMNS=columns))
                for line in done.stdout.decode().splitlines():
                    self.assertLessEqual(len(line), widest, (columns, words, line))
        for line in self.at_a_terminal("parts", columns=50, TERM="dumb").decode().splitlines():
            self.assertLessEqual(len(line), 50)

    def test_a_full_disk_is_noticed(self):
        for words in (["parts"], ["identify", "--json"], ["--help"], ["generate", "man"]):
            with open("/dev/full", "wb") as full:
                done = subprocess.run([LOOMKEY, *words], stdout=full, stderr=subprocess.PIPE, stdin=subprocess.DEVNULL,
                                      env=self.environment(), check=False)
            self.assertEqual(done.returncode, STORAGE, words)
            self.assertIn(b"standard output: cannot be written: No space left", done.stderr)

    def test_a_closed_pipe_ends_quietly(self):
        for words in (["parts"], ["identify", "--json"], ["identify", "--conversation"]):
            reader, writer = os.pipe()
            os.close(reader)
            done = subprocess.run([LOOMKEY, *words], stdout=writer, stderr=subprocess.PIPE, stdin=subprocess.DEVNULL,
                                  env=self.environment(), check=False)
            os.close(writer)
            self.assertEqual((done.returncode, done.stderr), (STORAGE, b""), words)

    def test_a_closed_output_does_not_reach_another_file(self):
        target = self.home / "kept.toml"
        done = subprocess.run(["/bin/sh", "-c", f'"{LOOMKEY}" identify --reading form=can --save "{target}" >&-'],
                              stderr=subprocess.PIPE, stdin=subprocess.DEVNULL, env=self.environment(), check=False)
        self.assertEqual(done.returncode, STORAGE)
        self.assertNotIn("What is it?", target.read_text())

    def test_nothing_hangs_without_a_terminal(self):
        for words in (["identify"], ["identify", "--resume"], ["identify", "--conversation"]):
            self.assertIsNotNone(self.run_program(*words, stdin="").returncode)


class Saving(ProgramTest):
    def test_saved_readings_give_the_same_answer(self):
        words = ["--reading", "form=can (think so)", "--reading", "letters=AL, E, WL", "--bike", "volts=12", "--guess",
                 "flasher", "--tools", "ruler", "--meter-leads-zeroed", "--json"]
        first = json.loads(self.run_program("identify", *words, "--save", "kept.toml").stdout)
        again = json.loads(self.run_program("identify", "--readings", "kept.toml", "--json").stdout)
        self.assertEqual(first["candidates"], again["candidates"])
        self.assertEqual(first["bike"], again["bike"])

    def test_a_file_without_readings_is_left_alone(self):
        other = self.write("letter.txt", "Dear all,\n")
        self.assert_refused(BAD_INPUT, "identify", "--reading", "form=can", "--save", other, says=["--force"])
        self.assertEqual(other.read_text(), "Dear all,\n")
        self.assertEqual(self.run_program("identify", "--reading", "form=can", "--save", other, "--force").returncode, OPEN)
        self.assertIn("form", other.read_text())

    def test_places_that_cannot_be_written(self):
        self.assert_refused(STORAGE, "identify", "--reading", "form=can", "--save", self.home / "no" / "such" / "f.toml")
        self.assert_refused(STORAGE, "identify", "--reading", "form=can", "--save", self.home)
        self.assert_refused(STORAGE, "identify", "--reading", "form=can", "--save", "/dev/full")

    def test_a_disk_that_fills_up_leaves_the_old_file(self):
        kept = self.write("kept.toml", "[readings]\nform = \"can\"\n")

        def small_files():
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (10, 10))

        done = self.run_program("identify", "--reading", "form=box", "--save", kept, preexec_fn=small_files)
        self.assertEqual(done.returncode, STORAGE)
        self.assertEqual(kept.read_text(), "[readings]\nform = \"can\"\n")
        self.assertEqual([p.name for p in self.home.iterdir() if p.name.startswith(".kept")], [])


class Conversation(ProgramTest):
    def test_every_answer_is_kept_and_the_next_run_goes_on(self):
        done = self.run_program("identify", "--conversation", stdin="volts 12\n1\ncannot tell\n")
        self.assertEqual(done.returncode, OPEN)
        last = self.home / "state" / "loomkey" / "last.toml"
        kept = last.read_text()
        self.assertIn('form = "can"', kept)
        self.assertIn("volts = 12", kept)
        again = self.run_program("identify", "--conversation", "--resume", stdin="back\nback\nstop\n").stdout.decode()
        self.assertIn("Going on where you stopped.", again)
        self.assertIn("Taken back: overall form", again)
        self.assertNotIn("form", last.read_text())

    def test_a_new_conversation_sets_the_last_one_aside(self):
        self.run_program("identify", "--conversation", stdin="\n1\n")
        self.run_program("identify", "--conversation", stdin="\n2\n")
        state = self.home / "state" / "loomkey"
        self.assertIn('"can"', (state / "previous.toml").read_text())
        self.assertIn('"cylinder"', (state / "last.toml").read_text())

    def test_a_conversation_can_be_kept_in_a_file_and_taken_up_from_it(self):
        self.run_program("identify", "--conversation", "--save", "find.toml", stdin="\n1\n")
        kept = (self.home / "find.toml").read_text()
        self.assertIn('form = "can"', kept)
        shown = self.run_program("identify", "--conversation", "--resume", "find.toml", stdin="stop\n").stdout
        self.assertIn(b"1 form", shown)
        self.assertEqual((self.home / "find.toml").read_text(), kept)

    def test_resume_without_anything_to_go_on_with(self):
        self.assert_refused(BAD_INPUT, "identify", "--resume", says=["no conversation to go on with"])

    def test_a_home_that_cannot_be_written_does_not_end_it(self):
        env = self.environment(XDG_STATE_HOME="/dev/null/state")
        done = self.run_program("identify", "--conversation", stdin="\n1\n2\nstop\n", env=env)
        self.assertEqual(done.returncode, OPEN)
        self.assertEqual(done.stdout.count(b"cannot be kept"), 1)

    def test_termination_saves_and_says_so(self):
        process = subprocess.Popen([LOOMKEY, "identify", "--conversation"], stdin=subprocess.PIPE,
                                   stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=self.environment())
        process.stdin.write(b"\n1\n")
        process.stdin.flush()
        last = self.home / "state" / "loomkey" / "last.toml"
        deadline = time.monotonic() + 20
        while not last.exists() and time.monotonic() < deadline:
            time.sleep(0.02)
        process.send_signal(signal.SIGINT)
        shown, _ = process.communicate(timeout=20)
        self.assertEqual(process.returncode, 130)
        self.assertIn(b"The readings are kept in", shown)
        self.assertIn("form", last.read_text())

    def test_saved_files_are_whole(self):
        self.run_program("identify", "--conversation", "--save", "find.toml", stdin="\n1\n2\n1\n")
        for path in (self.home / "find.toml", self.home / "state" / "loomkey" / "last.toml"):
            self.assertTrue(stat.S_ISREG(path.stat().st_mode))
            self.assertNotEqual(self.run_program("identify", "--readings", path).returncode, BAD_INPUT)


class JsonDriving(ProgramTest):
    """A script that knows a part by heart answers the program's own questions until it is settled."""

    def answer(self, claims, question):
        claim = claims.get(question["trait"])
        if claim is None:
            return "cannot tell"
        if "states" in claim:
            return max(claim["states"], key=claim["states"].get)
        if "sets" in claim:
            items = max(claim["sets"], key=lambda s: s["share"])["items"]
            return ", ".join(items) if items else "none"
        special = claim.get("special") or {}
        best = max(special, key=special.get, default=None)
        ranges = claim.get("ranges") or []
        if best is not None and (not ranges or special[best] > sum(r["share"] for r in ranges)):
            return best
        widest = max(ranges, key=lambda r: r["share"])
        return f"{(widest['low'] + widest['high']) / 2} {claim['unit']}"

    def drive(self, part):
        claims = {c["trait"]: c for c in json.loads(self.run_program("parts", "show", part, "--json").stdout)["claims"]}
        readings = {}
        for _ in range(40):
            # Without a reading there is no file to write yet.
            words = ["--bike", "earth_measured=negative"]
            if readings:
                lines = ["schema = 1", "[readings]"] + [f"{t} = {json.dumps(v)}" for t, v in readings.items()]
                words += ["--readings", self.write("growing.toml", "\n".join(lines) + "\n")]
            done = self.run_program("identify", *words, "--json")
            finding = json.loads(done.stdout)
            self.assertEqual(finding["schema"].split("/")[:2], ["loomkey", "finding"])
            for key in ("candidates", "verdict", "questions"):
                self.assertIn(key, finding)
            if not finding["questions"]:
                return finding, readings, done.returncode
            question = finding["questions"][0]
            self.assertNotIn(question["trait"], readings)
            readings[question["trait"]] = self.answer(claims, question)
        self.fail(f"{part}: no end after 40 questions")

    def test_a_growing_file_drives_a_conversation_to_its_verdict(self):
        for part in ("charge-control-can", "zener-on-sink", "regrec-mosfet"):
            finding, readings, code = self.drive(part)
            self.assertEqual(finding["status"], "settled", part)
            self.assertEqual(finding["verdict"]["part"], part)
            self.assertEqual(code, 0)
            self.assertLess(len(readings), 25)

    def test_order_of_the_readings_does_not_matter(self):
        words = [("--reading", "form=can"), ("--reading", "letters=AL, E, WL"), ("--reading", "size_long=40 mm")]
        forth = json.loads(self.run_program("identify", *sum(words, ()), "--json").stdout)
        back = json.loads(self.run_program("identify", *sum(reversed(words), ()), "--json").stdout)
        self.assertEqual([(c["part"], c["probability"]) for c in forth["candidates"]],
                         [(c["part"], c["probability"]) for c in back["candidates"]])

    def test_amounts_are_obeyed(self):
        finding = json.loads(self.run_program("identify", "--json", "--questions", "1", "--candidates", "2").stdout)
        self.assertEqual((len(finding["questions"]), len(finding["candidates"])), (1, 2))

    def test_every_json_page_is_json(self):
        for words in (["parts"], ["parts", "list", "--family", "rectifier"], ["parts", "search", "zener"],
                      ["parts", "show", "zener-stud"], ["compare", "zener-stud", "zener-pack"], ["traits"],
                      ["traits", "form"], ["identify", "--reading", "form=can"]):
            place = 2 if words[0] == "parts" and len(words) > 1 else 1
            done = self.run_program(*words[:place], "--json", *words[place:]) if words[0] != "parts" or len(words) > 1 \
                else self.run_program("parts", "list", "--json")
            self.assertIn("schema", json.loads(done.stdout), words)


class Catalogue(ProgramTest):
    def test_info_names_the_file_and_what_is_in_it(self):
        shown = self.run_program("catalogue", "info").stdout.decode()
        self.assertIn(f"path: {CATALOGUE}\n", shown)
        for word in ("hash: ", "parts: ", "advice classes: ", "traits: ", "confusion sets: "):
            self.assertIn(word, shown)

    def test_a_part_names_the_sets_it_is_mixed_up_in(self):
        shown = self.run_program("parts", "show", "charge-control-can").stdout.decode()
        self.assertIn("Mixed up with, several at a time", shown)
        part = json.loads(self.run_program("parts", "show", "--json", "charge-control-can").stdout)
        self.assertIn("cans", [entry["set"] for entry in part["confusion_sets"]])

    def test_a_small_trial_repeats_itself(self):
        words = ["catalogue", "trial", "--cases", "3", "--seed", "7", "--wrong", "10", "--absent", "0", "--mistakes", "own",
                 "--json"]
        first = self.run_program(*words)
        self.assertEqual(first.returncode, 0, first.stderr)
        trial = json.loads(first.stdout)
        self.assertEqual(trial["schema"], "loomkey/trial/2")
        self.assertEqual([observer["observer"]["mistakes"] for observer in trial["observers"]], ["own"])
        self.assertEqual(trial["observers"][0]["all"]["cases"], 3)
        self.assertEqual(first.stdout, self.run_program(*words).stdout)

    def test_pairs_that_nothing_separates_as_text_table_data_and_picture(self):
        done = self.run_program("catalogue", "separability", "--csv", "pairs.csv", "--svg", "picture.svg")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(done.stderr, b"loomkey: written: pairs.csv\nloomkey: written: picture.svg\n")
        self.assertLessEqual(max(map(len, done.stdout.decode().splitlines())), 80)
        with open(self.home / "pairs.csv", newline="", encoding="ascii") as file:
            rows = list(csv.DictReader(file))
        data = json.loads(self.run_program("catalogue", "separability", "--json").stdout)
        self.assertEqual([(r["part_a"], r["part_b"]) for r in rows], [(p["part_a"], p["part_b"]) for p in data["pairs"]])
        self.assertTrue(rows)
        for row in rows:
            self.assertLess(float(row["best_trait_db"]), data["below"])
            self.assertLess(float(row["with_meter_db"]), data["together"])
            self.assertIn(row["part_a"].encode(), done.stdout)
        picture = xml.etree.ElementTree.parse(self.home / "picture.svg").getroot()
        space = "{http://www.w3.org/2000/svg}"
        cells = picture.findall(f"{space}g")
        families = json.loads(self.run_program("parts", "list", "--json").stdout)["parts"]
        count = len({part["family"] for part in families})
        self.assertEqual(len(cells), count * (count + 1) // 2)
        self.assertTrue(all(cell.find(f"{space}title").text for cell in cells))
        self.assertIn("Heat map", picture.find(f"{space}desc").text)

    def test_separability_prints_one_form_only_and_takes_limits(self):
        words = ["catalogue", "separability"]
        self.assert_refused(USAGE, *words, "--csv", "-", "--json")
        self.assert_refused(USAGE, *words, "--below", "much")
        self.assert_refused(STORAGE, *words, "--svg", self.home / "no" / "such.svg")
        self.assertTrue(self.run_program(*words, "--svg", "-").stdout.startswith(b"<svg "))
        few = self.run_program(*words, "--csv", "-", "--below", "3").stdout.count(b"\n")
        many = self.run_program(*words, "--csv", "-", "--below", "9", "--together", "60").stdout.count(b"\n")
        self.assertLess(few, many)

    def test_verdicts_stand_alone(self):
        # What they say of every part is judged by tests/golden: it takes half a minute.
        self.assert_refused(USAGE, "catalogue", "trial", "--verdicts", "v.json", "--cases", "5", says=["--cases"])
        self.assert_refused(BAD_CATALOGUE, "catalogue", "trial", "--verdicts", "-", "--catalogue", self.home / "none")

    def test_settings_are_listed(self):
        self.assertIn(b"class_threshold", self.run_program("settings").stdout)

    def test_a_template_is_text_to_start_from(self):
        self.assertIn(b"[[part]]", self.run_program("catalogue", "template", "rectifier").stdout)


class Overlay(ProgramTest):
    """Parts of one's own, laid over the shipped catalogue."""

    EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "overlay"

    def lay(self, change=lambda name, text: text):
        folder = self.home / "data" / "loomkey" / "overlay"
        for path in self.EXAMPLE.glob("*/*.toml"):
            target = folder / path.relative_to(self.EXAMPLE)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(change(path.parent.name, path.read_text()))
        return folder

    def environment(self, **extra):
        return super().environment(XDG_DATA_HOME=str(self.home / "data"), **extra)

    def shown(self, *words, **options):
        done = self.run_program(*words, **options)
        self.assertEqual((done.returncode, done.stderr), (0, b""), words)
        return done.stdout.decode()

    def info(self, *words):
        return dict(line.split(": ", 1) for line in self.shown("catalogue", "info", *words).splitlines())

    def test_a_part_of_the_users_folder_is_known_to_every_command(self):
        self.lay()
        self.assertIn("club-load-board", self.shown("parts", "list"))
        self.assertTrue(self.shown("parts", "search", "twin load plate").splitlines()[2].startswith("club-load-board"))
        self.assertIn("Load board of the club", self.shown("parts", "show", "club-load-board"))
        self.assertIn("leads", self.shown("compare", "club-load-board", "resistor-load"))
        self.assertIn("club-load-board", self.shown("generate", "words", "parts"))
        words = ["--reading", "form=board", "--reading", "lead_count=4", "--reading", "size=80x50x16", "--reading",
                 "marks_units=ohms", "--reading", "lead_colours=black, black, green/red, green/white", "--reading",
                 "fins=no"]
        finding = json.loads(self.run_program("identify", "--json", *words).stdout)
        self.assertEqual(finding["candidates"][0]["part"], "club-load-board")
        self.assertEqual(finding["catalogue"], self.info()["hash"])

    def test_info_names_the_overlay_and_what_it_does(self):
        plain = self.info()
        folder = self.lay(lambda name, text: text if name == "advice" else
                          text.replace('part = "resistor-load"', 'part = "ballast-modern"')
                          .replace('id = "club-load-board"', 'id = "resistor-load"'))
        laid = self.info()
        self.assertEqual(laid["overlay"], str(folder))
        self.assertEqual(laid["overlay, parts added"], "0")
        self.assertEqual(laid["overlay, parts replaced"], "1 (resistor-load)")
        self.assertEqual(laid["hash without overlay"], plain["hash"])
        self.assertNotEqual(laid["hash"], plain["hash"])
        self.assertEqual(laid["parts"], plain["parts"])
        self.assertEqual(self.info("--no-overlay"), plain)
        self.assertEqual(self.info("--overlay", self.EXAMPLE)["overlay, parts added"], "1 (club-load-board)")

    def test_a_broken_overlay_is_told_once_and_the_rest_is_used(self):
        folder = self.lay(lambda name, text: text.replace('lead_count = "4"', 'lead_cuont = "4"'))
        done = self.run_program("parts", "search", "zener", "--json")
        self.assertEqual(done.returncode, 0)
        self.assertTrue(json.loads(done.stdout)["parts"])
        message = " ".join(done.stderr.decode().split())
        self.assertEqual(message.count("loomkey: "), 1)
        for piece in (f"{folder}/parts/club.toml:31:1: part 'club-load-board' is ignored", "Did you mean 'lead_count'?"):
            self.assertIn(piece, message)
        self.assertEqual(self.run_program("parts", "--no-overlay").stderr, b"")

    def test_a_broken_overlay_is_checked_by_file_and_line(self):
        folder = self.lay(lambda name, text: text.replace('lead_count = "4"', 'lead_cuont = "4"'))
        done = self.run_program("catalogue", "check", folder)
        self.assertEqual((done.returncode, done.stdout), (BAD_CATALOGUE, b""))
        self.assertIn(b"loomkey: parts/club.toml:31:1: unknown trait 'lead_cuont'", done.stderr)
        self.assertIn("no mistakes in this overlay; it adds 1 part (club-load-board), adds 1 advice record",
                      self.shown("catalogue", "check", self.EXAMPLE))

    def test_many_mistakes_do_not_drown_the_answer(self):
        folder = self.lay()
        for number in range(40):
            (folder / "parts" / f"bad-{number}.toml").write_text("[[part]]\nid = 'bad\x1b'\n")
        done = self.run_program("parts", "list")
        self.assertEqual(done.returncode, 0)
        self.assertEqual(done.stderr.decode().count("loomkey: "), 6)
        self.assertNotIn(b"\x1b", done.stderr)
        self.assertIn("club-load-board", done.stdout.decode())

    def test_a_named_overlay_must_be_there(self):
        self.assert_refused(BAD_CATALOGUE, "parts", "--overlay", self.home / "nowhere", says=["no such overlay folder"])
        self.assert_refused(BAD_CATALOGUE, "parts", env=self.environment(LOOMKEY_OVERLAY="/nonexistent"),
                            says=["LOOMKEY_OVERLAY names this folder"])
        self.assert_refused(USAGE, "parts", "--overlay", self.EXAMPLE, "--no-overlay")
        self.assertIn("club-load-board", self.shown("parts", env=self.environment(LOOMKEY_OVERLAY=str(self.EXAMPLE))))
        (self.home / "data" / "loomkey").mkdir(parents=True)
        (self.home / "data" / "loomkey" / "overlay").write_text("a file")
        done = self.run_program("parts")
        self.assertEqual(done.returncode, 0)
        self.assertIn("cannot be opened: Not a directory", " ".join(done.stderr.decode().split()))


class Diff(ProgramTest):
    TREE = Path(__file__).resolve().parents[2]
    DIFFERS = 3

    def changed_sources(self):
        folder = self.home / "data"
        shutil.copytree(self.TREE / "data", folder)
        file = folder / "parts" / "zener.toml"
        text = file.read_text()
        self.assertIn('sound = ', text)
        file.write_text(text.replace('where = "', 'where = "some say ', 1))
        return folder

    def test_a_file_a_folder_and_an_overlay_may_stand_on_either_side(self):
        for old, new in ((CATALOGUE, CATALOGUE), (self.TREE / "data", CATALOGUE), (CATALOGUE, self.TREE / "data")):
            done = self.run_program("catalogue", "diff", old, new)
            self.assertEqual((done.returncode, done.stderr), (0, b""))
            self.assertIn(b"Nothing: the two are identical.", done.stdout)
        done = self.run_program("catalogue", "diff", CATALOGUE, self.TREE / "examples" / "overlay")
        self.assertEqual(done.returncode, self.DIFFERS)
        self.assertIn(b"Parts added\n  - club-load-board", done.stdout)
        done = self.run_program("catalogue", "diff", self.TREE / "examples" / "overlay", CATALOGUE)
        self.assertIn(b"Parts removed\n  - club-load-board", done.stdout)

    def test_a_change_is_told_in_words_and_as_data(self):
        folder = self.changed_sources()
        done = self.run_program("catalogue", "diff", CATALOGUE, folder)
        self.assertEqual(done.returncode, self.DIFFERS)
        shown = " ".join(done.stdout.decode().split())
        self.assertIn("parts 1 changed", shown)
        self.assertIn("usually sits: was ", shown)
        self.assertIn("; now some say ", shown)
        data = json.loads(self.run_program("catalogue", "diff", "--json", CATALOGUE, folder).stdout)
        self.assertEqual((data["schema"], data["identical"]), ("loomkey/diff/1", False))
        self.assertEqual(data["kinds"][0]["changed"][0]["fields"][0]["what"], "usually sits")

    def test_the_users_own_overlay_does_not_meddle(self):
        env = self.environment(LOOMKEY_OVERLAY=str(self.TREE / "examples" / "overlay"))
        self.assertEqual(self.run_program("catalogue", "diff", CATALOGUE, self.TREE / "data", env=env).returncode, 0)

    def test_what_cannot_be_compared_is_refused(self):
        self.assert_refused(BAD_CATALOGUE, "catalogue", "diff", CATALOGUE, self.home / "nowhere")
        self.assert_refused(BAD_CATALOGUE, "catalogue", "diff", self.write("text.sqlite", "no catalogue"), CATALOGUE)
        self.assert_refused(USAGE, "catalogue", "diff", CATALOGUE, says=["needs NEW"])
        folder = self.changed_sources()
        (folder / "parts" / "zener.toml").write_text("[[part]]\nid = 'x'\n")
        done = self.run_program("catalogue", "diff", CATALOGUE, folder)
        self.assertEqual((done.returncode, done.stdout), (BAD_CATALOGUE, b""))
        self.assertIn(b"parts/zener.toml:1:1", done.stderr)


class Generated(ProgramTest):
    def bash_offers(self, *words):
        script = self.write("completions.bash", self.run_program("generate", "completion", "bash").stdout)
        code = ('set -eu; source "$1"; shift; COMP_WORDS=(loomkey "$@"); COMP_CWORD=$#; COMPREPLY=(); '
                '_loomkey loomkey "${@: -1}" loomkey || true; printf "%s\\n" "${COMPREPLY[@]:-}"')
        env = self.environment(PATH=f"{Path(LOOMKEY).parent}:/usr/bin:/bin")
        done = subprocess.run(["bash", "-c", code, "bash", script, *words], capture_output=True, env=env, cwd=self.home,
                              check=True)
        return done.stdout.decode().split()

    def test_bash_completes_commands_options_values_and_ids(self):
        self.assertEqual(self.bash_offers("id"), ["identify"])
        self.assertNotIn("generate", self.bash_offers(""))
        self.assertEqual(self.bash_offers("parts", ""), ["list", "search", "show"])
        self.assertIn("--readings", self.bash_offers("identify", "--re"))
        self.assertIn("--catalogue", self.bash_offers("identify", "--"))
        self.assertEqual(self.bash_offers("identify", "--sure", "g"), ["guess"])
        self.assertIn("zener-stud", self.bash_offers("parts", "show", "zener"))
        self.assertIn("rectifier", self.bash_offers("parts", "list", "--family", "rect"))
        self.assertEqual(self.bash_offers("identify", "--reading", "for"), ["form="])
        self.write("a find.toml", "")
        self.assertEqual(self.bash_offers("identify", "--readings", "a"), ["a", "find.toml"])

    def test_bash_reads_the_completions(self):
        script = self.write("completions.bash", self.run_program("generate", "completion", "bash").stdout)
        subprocess.run(["bash", "-n", script], check=True)

    def test_the_man_page_names_every_command_option_and_exit_code(self):
        page = self.run_program("generate", "man").stdout.decode().replace("\\-", "-")
        for word in ("identify", "parts list", "catalogue trial", "--readings", "--no-conversation", "--catalogue",
                     "EXIT STATUS", "130", "XDG_STATE_HOME", "LOOMKEY_CATALOGUE", "LOOMKEY_OVERLAY", "--no-overlay"):
            self.assertIn(word, page)

    def test_man_renders_the_page_without_a_warning(self):
        page = self.write("loomkey.1", self.run_program("generate", "man").stdout)
        try:
            done = subprocess.run(["man", "--warnings", "-l", page], capture_output=True, check=False,
                                  env=self.environment(MANWIDTH="80", LC_ALL="C.UTF-8"))
        except FileNotFoundError:
            self.skipTest("man is not installed")
        self.assertEqual((done.returncode, done.stderr), (0, b""))
        for line in done.stdout.decode().splitlines():
            self.assertLessEqual(len(line), 80)


if __name__ == "__main__":
    LOOMKEY, CATALOGUE = (str(Path(word).resolve()) for word in sys.argv[1:3])
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
