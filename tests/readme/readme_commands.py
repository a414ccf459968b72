"""Runs the commands that README.md shows, so that none of them goes stale: python3 readme_commands.py TREE BUILD.

Read are the blocks fenced as ```sh. Of their lines (a backslash at the end joins the next one, `#` starts a comment),
those starting with `loomkey` or `build/loomkey` are run at the root of the tree, with the built program first on the
PATH, no terminal and an empty home folder, and must exit with 0, or with N where the line ends in `# exits with N`.
`bash SCRIPT` must name a script that bash can read; first-find.sh is run as well. Other lines are not judged. A block
that is not to be run is fenced as ```console or ```text."""

import os
import pathlib
import re
import subprocess
import sys
import tempfile

PROGRAM = re.compile(r"(?:build/)?loomkey\b")
MUST_SHOW = ("bash examples/first-find.sh", "bash tests/run.sh")
RUN_TOO = "examples/first-find.sh"
SECONDS = 300


def commands(text):
    """(line number, command) of each ```sh block."""
    inside, joined, found = None, "", []
    for number, line in enumerate(text.splitlines(), 1):
        if line.lstrip().startswith("```"):
            inside = line.strip() == "```sh" if inside is None else None
            continue
        if not inside:
            continue
        joined += line.strip()
        if joined.endswith("\\"):
            joined = joined[:-1]
            continue
        if joined and not joined.startswith("#"):
            found.append((number, joined))
        joined = ""
    return found


def run(command, tree, build, home):
    path = f"{build}:{os.environ.get('PATH', '/usr/bin:/bin')}"
    environment = {"PATH": path, "HOME": home, "LANG": "C.UTF-8", "TERM": "dumb"}
    return subprocess.run(["bash", "-c", command], cwd=tree, env=environment, stdin=subprocess.DEVNULL,
                          capture_output=True, text=True, errors="replace", timeout=SECONDS, check=False)


def judge(number, command, tree, build, home):
    """A finding, or nothing."""
    where = f"README.md:{number}: {command}"
    script = re.match(r"bash (\S+\.sh)", command)
    if script:
        read = subprocess.run(["bash", "-n", script.group(1)], cwd=tree, capture_output=True, text=True, check=False)
        if read.returncode != 0:
            return f"{where}\n  bash cannot read it: {read.stderr.strip()}"
    if not PROGRAM.match(command) and not (script and script.group(1) == RUN_TOO):
        return None
    stated = re.search(r"# exits with (\d+)$", command)
    wanted = int(stated.group(1)) if stated else 0
    done = run(command.replace("build/loomkey", "loomkey"), tree, build, home)
    if done.returncode != wanted:
        return f"{where}\n  exit code {done.returncode}, wanted {wanted}\n{done.stderr.strip()[-2000:]}"
    if wanted == 0 and not done.stdout.strip() and ">" not in command:
        return f"{where}\n  printed nothing"
    return None


def main():
    tree, build = (pathlib.Path(argument).resolve() for argument in sys.argv[1:3])
    shown = commands((tree / "README.md").read_text(encoding="utf-8"))
    findings = [f"README.md does not show: {wanted}" for wanted in MUST_SHOW
                if not any(command.startswith(wanted) for _, command in shown)]
    with tempfile.TemporaryDirectory() as home:
        for number, command in shown:
            print(f"README.md:{number}: {command}", flush=True)
            finding = judge(number, command, tree, build, home)
            if finding:
                findings.append(finding)
    print(*findings, sep="\n")
    print(f"{len(shown)} commands shown, {len(findings)} findings")
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main())
