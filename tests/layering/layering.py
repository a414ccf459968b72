"""Reads the module table of DEVELOPERS.md, the modules of CMakeLists.txt and the #include lines of src, and tells where
they disagree. Values in, findings out; the callers are check_tree.py and layering_test.py."""

import re
from dataclasses import dataclass, field

# Which modules may include an outside library: the headers that belong to it, by the start of their name.
LIBRARIES = {
    "SQLite": (("sqlite3.h", "sqlite3ext.h", "SQLiteCpp/"), {"catalogue"}),
    "CLI11": (("CLI/",), {"cli"}),
    "libedit": (("histedit.h", "editline/"), {"cli"}),
    "nlohmann-json": (("nlohmann/",), {"report", "cli"}),
    "toml++": (("toml++/", "toml.hpp"), {"catalogue", "evidence"}),
    "OpenSSL": (("openssl/",), {"base", "catalogue"}),
    "the terminal": (("termios.h", "sys/ioctl.h", "curses.h"), {"cli"}),
    "sockets": (("sys/socket.h", "netinet/", "arpa/"), set()),
}
PROGRAM = "main.cpp"
NO_MODULE = {"libraries only", "nothing", "none"}


@dataclass
class Module:
    """One row of the table: whole modules it may include, and single headers of further ones."""

    name: str
    modules: set = field(default_factory=set)
    headers: set = field(default_factory=set)


@dataclass(frozen=True)
class Include:
    path: str  # below src, as "catalogue/build.cpp"
    line: int
    name: str
    system: bool

    @property
    def module(self):
        return PROGRAM if self.path == PROGRAM else self.path.split("/")[0]

    @property
    def where(self):
        return f"src/{self.path}:{self.line}"


def cells(line):
    return [cell.strip().replace("`", "") for cell in line.strip().strip("|").split("|")]


def read_table(text):
    """Modules by name in the order of the table, and findings. A cell of "may use" is a list of earlier modules and
    of single headers of them ("bench/verdict.h"), "all above", or "libraries only"."""
    modules, findings, columns = {}, [], None
    for number, line in enumerate(text.splitlines(), 1):
        if not line.lstrip().startswith("|"):
            if modules:
                break
            columns = None
            continue
        row = cells(line)
        lowered = [cell.lower() for cell in row]
        if columns is None:
            named = lowered[0].split(" ")[0] == "module" and "may use" in lowered
            columns = lowered.index("may use") if named else -1
            continue
        if columns < 0 or set("".join(row)) <= set("-: "):
            continue
        where = f"DEVELOPERS.md:{number}"
        if columns >= len(row):
            findings.append(f"{where}: the row of '{row[0]}' has no cell under 'may use'")
            continue
        above = set(modules)
        for name in re.split(r",\s*", row[0]):
            if name in modules:
                findings.append(f"{where}: '{name}' has two rows")
            modules[name] = Module(name)
            for item in re.split(r",\s*", row[columns]):
                if item in NO_MODULE:
                    continue
                if item == "all above":
                    modules[name].modules |= above
                elif item in above:
                    modules[name].modules.add(item)
                elif item.endswith(".h") and item.split("/")[0] in above:
                    modules[name].headers.add(item)
                else:
                    findings.append(f"{where}: '{item}' in the row of '{name}' is neither a module of an earlier row, "
                                    "nor one of its headers, nor 'all above', nor 'libraries only'")
    if not modules:
        findings.append("DEVELOPERS.md: no table with the columns 'module' and 'may use' was found")
    return modules, findings


def read_cmake(text):
    """Name -> {"SOURCES": [...], "USES": [...], "LINKS": [...]} of each add_module() call."""
    text = re.sub(r"#[^\n]*", "", text)
    calls = {}
    for call in re.finditer(r"\badd_module\s*\(([^()]*)\)", text):
        words = call.group(1).split()
        if not words:
            continue
        lists = calls.setdefault(words[0], {"SOURCES": [], "USES": [], "LINKS": []})
        current = None
        for word in words[1:]:
            if word.isupper():
                current = lists.setdefault(word, [])
            elif current is not None:
                current.append(word)
    return calls


def read_includes(path, text):
    found = []
    for number, line in enumerate(text.splitlines(), 1):
        match = re.match(r'\s*#\s*include\s*([<"])([^>"]+)[>"]', line)
        if match:
            found.append(Include(path, number, match.group(2), match.group(1) == "<"))
    return found


def judge_system(include):
    for library, (starts, homes) in LIBRARIES.items():
        if include.name.startswith(starts) and include.module not in homes:
            allowed = " and ".join(sorted(homes)) or "no module so far"
            return [f"{include.where}: <{include.name}> is not for '{include.module}'; {library} is for {allowed}"]
    return []


def judge_own(include, modules):
    target = include.name.split("/")[0]
    if "/" not in include.name or target not in modules:
        return [f'{include.where}: "{include.name}" does not start with a module of the table in DEVELOPERS.md']
    row = modules.get(include.module, Module(include.module))
    if target == include.module or target in row.modules or include.name in row.headers:
        return []
    allowed = ", ".join(sorted(row.modules | row.headers)) or "libraries only"
    return [f'{include.where}: \'{include.module}\' must not include "{include.name}"; it may use: {allowed}']


def judge_cmake(calls, modules, includes, sources):
    """USES against the table and the includes, SOURCES against the files."""
    findings = []
    for name, lists in calls.items():
        row = modules.get(name)
        if row is None:
            findings.append(f"CMakeLists.txt: module '{name}' has no row in the table of DEVELOPERS.md")
            continue
        allowed = row.modules | {header.split("/")[0] for header in row.headers}
        uses = set(lists["USES"])
        included = {i.name.split("/")[0] for i in includes if i.module == name and not i.system} - {name}
        for extra in sorted(uses - allowed):
            findings.append(f"CMakeLists.txt: '{name}' USES '{extra}', which its row in DEVELOPERS.md does not allow")
        for idle in sorted((uses & allowed) - included):
            findings.append(f"CMakeLists.txt: '{name}' USES '{idle}', but includes nothing of it")
        for missing in sorted((included & set(modules)) - uses):
            findings.append(f"CMakeLists.txt: '{name}' includes '{missing}' without naming it in USES")
        on_disk = {path.split("/", 1)[1] for path in sources if path.startswith(name + "/") and path.endswith(".cpp")}
        for path in sorted(on_disk - set(lists["SOURCES"])):
            findings.append(f"CMakeLists.txt: src/{name}/{path} is not in the SOURCES of '{name}'")
    return findings


def judge(table_text, cmake_text, sources):
    """All findings about a tree; `sources` maps paths below src to their text."""
    modules, findings = read_table(table_text)
    if not modules:
        return findings
    if PROGRAM not in modules:
        modules[PROGRAM] = Module(PROGRAM, modules={"cli"})
    folders = {path.split("/")[0] for path in sources if "/" in path}
    for name in sorted(folders - set(modules)):
        findings.append(f"src/{name}: no row in the table of DEVELOPERS.md")
    for name in sorted(set(modules) - folders - {PROGRAM}):
        findings.append(f"DEVELOPERS.md: the table has a row for '{name}', but src/{name} holds no code")
    for path in sorted(path for path in sources if "/" not in path and path != PROGRAM):
        findings.append(f"src/{path}: only {PROGRAM} may stand outside a module")
    includes = [include for path, text in sorted(sources.items()) for include in read_includes(path, text)]
    for include in includes:
        findings += judge_system(include) if include.system else judge_own(include, modules)
    calls = read_cmake(cmake_text)
    for name in sorted(folders & set(modules) - set(calls)):
        findings.append(f"CMakeLists.txt: no add_module({name} ...)")
    return findings + judge_cmake(calls, modules, includes, sources)
