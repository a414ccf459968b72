"""Holds conversations at a real terminal, by keys that are sent and screens that are read: terminal_test.py LOOMKEY
CATALOGUE. Exits with 77 where tmux is not installed."""

import re
import shutil
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

LOOMKEY = ""
CATALOGUE = ""
PATIENCE = 20  # seconds that a screen may take to show what is expected
READY = "ready>"  # of the shell
BIKE = "bike>"
FORM = "form>"
QUESTION = r"(?!ready|bike)[a-z_]+>"


class Terminal:
    """A tmux server of its own, with one shell in it."""

    def __init__(self, folder):
        self.socket = folder / "tmux"
        self.tmux("-f", "/dev/null", "new-session", "-d", "-x", "80", "-y", "60",
                  f"env -i HOME='{folder}' XDG_STATE_HOME='{folder}/state' LOOMKEY_CATALOGUE='{CATALOGUE}' TERM=screen "
                  "LANG=C.UTF-8 PATH=/usr/bin:/bin PS1='ready> ' bash --norc --noprofile")
        self.wait_for(READY)

    def tmux(self, *words):
        return subprocess.run(["tmux", "-S", self.socket, *words], capture_output=True, check=True).stdout.decode()

    def close(self):
        subprocess.run(["tmux", "-S", self.socket, "kill-server"], capture_output=True, check=False)

    def screen(self):
        return self.tmux("capture-pane", "-p", "-J").rstrip()

    def keys(self, *names):
        self.tmux("send-keys", *names)

    def wait_for(self, wanted):
        """Waits until the last line that holds anything is wholly matched."""
        deadline = time.monotonic() + PATIENCE
        while time.monotonic() < deadline:
            screen = self.screen()
            if re.fullmatch(wanted, screen.split("\n")[-1].rstrip()):
                return screen
            time.sleep(0.05)
        raise AssertionError(f"waited for {wanted}, and the screen shows:\n{self.screen()}")

    def type(self, text, wanted):
        """Types a line, and waits for the prompt behind it. The echo is awaited first, so that the prompt that stands
        is not taken for the next one."""
        if text:
            self.tmux("send-keys", "-l", text)
            self.wait_for(".*" + re.escape(text.rstrip()))
        self.keys("Enter")
        return self.wait_for(wanted)

    def command(self, text, wanted):
        """Runs a shell command on a clear screen."""
        return self.type("clear; " + text, wanted)


class TerminalTest(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        self.addCleanup(folder.cleanup)
        self.home = Path(folder.name)
        self.terminal = Terminal(self.home)
        self.addCleanup(self.terminal.close)

    def kept(self):
        return (self.home / "state" / "loomkey" / "last.toml").read_text()

    def start(self, *words):
        return self.terminal.command(f"'{LOOMKEY}' identify {' '.join(words)}; echo \"exit $?\"", f"{BIKE}|{FORM}")

    def test_a_conversation_from_greeting_to_stop_and_on(self):
        t = self.terminal
        screen = self.start()
        self.assertIn("Let us find out what this part is.", screen)
        t.type("volts 12, earth measured positive", FORM)
        screen = t.type("1", QUESTION)
        self.assertIn("-> overall form: small closed round can", screen)
        screen = t.type("back", FORM)
        self.assertIn("Taken back: overall form", screen)
        screen = t.type("can?", QUESTION)
        self.assertIn("(think so)", screen)
        prompt = screen.splitlines()[-1].rstrip()
        screen = t.type("why", prompt)
        self.assertIn("It promises", screen)
        screen = t.type("nonsense", prompt)
        self.assertIn("! ", screen)
        screen = t.type("change form", FORM)
        self.assertIn("Enter leaves it as it was.", screen)
        screen = t.type("box", QUESTION)
        self.assertIn("-> overall form: closed box", screen)
        prompt = screen.splitlines()[-1].rstrip()
        screen = t.type("so far", prompt)
        self.assertIn("Candidates", screen)
        t.type("stop", READY)
        self.assertIn("exit 3", t.screen())
        self.assertIn('form = "box"', self.kept())
        self.assertIn('earth_measured = "positive"', self.kept())
        screen = t.command(f"'{LOOMKEY}' identify --resume; echo \"exit $?\"", prompt)
        self.assertIn("1 form  overall form: closed box", screen)
        t.type("stop", READY)

    def test_ctrl_c_saves_and_gives_the_terminal_back(self):
        t = self.terminal
        t.command("stty -g > before", READY)
        self.start()
        t.type("", FORM)
        t.type("1", QUESTION)
        t.keys("h", "a", "l", "f")
        t.wait_for(QUESTION + " half")
        t.keys("C-c")
        screen = t.wait_for(READY)
        self.assertIn("exit 130", screen)
        self.assertIn("The readings are kept in", screen)
        self.assertIn('form = "can"', self.kept())
        t.command("stty -g | diff - before && echo same", READY)
        self.assertIn("same", t.screen())

    def test_ctrl_d_stops(self):
        self.start()
        self.terminal.type("", FORM)
        self.terminal.keys("C-d")
        self.assertIn("exit 3", self.terminal.wait_for(READY))

    def test_ctrl_z_suspends_and_the_shell_gets_it_back(self):
        t = self.terminal
        self.start()
        t.type("", FORM)
        t.keys("b", "o")
        t.wait_for("form> bo")  # Ctrl-Z drops what was typed and not yet read
        t.keys("C-z")
        t.wait_for(READY)
        t.keys("f", "g", "Enter")
        t.wait_for("form> bo")
        t.keys("x", "Enter")
        self.assertIn("-> overall form: closed box", t.wait_for(QUESTION))
        t.type("stop", READY)

    def test_a_line_can_be_edited(self):
        t = self.terminal
        self.start()
        t.type("", FORM)
        t.keys("c", "x", "n", "Left", "BSpace", "a")
        t.wait_for("form> can")
        t.keys("C-u")
        t.tmux("send-keys", "-l", "gr\u00fcn")
        t.wait_for("form> gr\u00fcn")
        t.keys("BSpace", "BSpace", "BSpace", "BSpace", "C-d")
        t.wait_for(READY)

    def test_a_dumb_terminal_holds_the_same_conversation(self):
        t = self.terminal
        t.command(f"TERM=dumb '{LOOMKEY}' identify; echo \"exit $?\"", BIKE)
        t.type("", FORM)
        t.type("can", QUESTION)
        t.type("verdict", READY)
        self.assertIn("exit 3", t.screen())

    def test_readings_that_are_given_are_answered_at_once(self):
        screen = self.terminal.command(f"'{LOOMKEY}' identify --reading form=can --questions 0 > /dev/null; echo \"exit $?\"",
                                       READY)
        self.assertIn("exit 3", screen)


if __name__ == "__main__":
    if shutil.which("tmux") is None:
        print("skipped: tmux is not installed")
        sys.exit(77)
    LOOMKEY, CATALOGUE = (str(Path(word).resolve()) for word in sys.argv[1:3])
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
