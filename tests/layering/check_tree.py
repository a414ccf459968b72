"""Checks one source tree: python3 check_tree.py [FOLDER] layering|house. Prints the findings and
fails if there are any."""

import pathlib
import sys

import house
import layering

CODE = {".h", ".cpp"}
TEXTS = {".h", ".cpp", ".py", ".sh", ".R", ".txt", ".md", ".toml", ".sql", ".json", ".cmake"}


def texts(root, folder, suffixes):
    return {path.relative_to(root).as_posix(): path.read_text(encoding="utf-8", errors="replace")
            for path in sorted((root / folder).rglob("*")) if path.suffix in suffixes and path.is_file()}


def text_of(root, name):
    path = root / name
    return path.read_text(encoding="utf-8") if path.is_file() else ""


def check_layering(root):
    sources = {path.removeprefix("src/"): text for path, text in texts(root, "src", CODE).items()}
    return layering.judge(text_of(root, "DEVELOPERS.md"), text_of(root, "CMakeLists.txt"), sources)


def check_house(root):
    findings = house.judge_top_level(path.name for path in root.iterdir())
    for path, text in texts(root, "src", CODE).items():
        findings += house.judge_length(path, text)
    for folder in ("src", "schema", "data", "tests", "examples"):
        for path, text in texts(root, folder, TEXTS).items():
            findings += house.judge_words(path, text)
    for name in ("CMakeLists.txt", "README.md", "DEVELOPERS.md"):
        findings += house.judge_words(name, text_of(root, name))
    return findings


def main():
    *folder, what = sys.argv[1:]
    root = pathlib.Path(folder[0]) if folder else pathlib.Path(__file__).resolve().parents[2]
    findings = {"layering": check_layering, "house": check_house}[what](root)
    for finding in findings:
        print(finding)
    print(f"{what}: {len(findings)} findings")
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main())
