"""The shipped catalogue against published rows: wire colours, terminal letters, values, meter tests and hazards.

Use: python3 published_rows.py LOOMKEY_PROGRAM CATALOGUE.sqlite

The rows stand in tests/reference/{wire_colours,terminals,values,hazards}.csv; each names its source in words and says
whether it was read on a page or is known from memory. A row from memory is a plausibility check, no more. The tables in
published_marks.py and published_values.py say what must agree with which row. Afterwards the same judges are given
wrong rows, and catalogues whose parts have changed places, and each of them must refuse.
"""

import copy
import csv
import re
import sys
import tomllib

import program
from published_marks import LEADS, ROLES, SPOKEN
from published_values import AT_LEAST, AT_MOST, CENTRE, HAZARDS, HOLDS, INSIDE, OVERLAP, SAME, VALUES
from unpublished_marks import GENERIC_WIRING, NUMBERED, UNPUBLISHED_LEADS, UNPUBLISHED_LETTERS

FILES = ("wire_colours", "terminals", "values", "hazards")
WORDS = {"four": 4, "ten": 10, "double": 2}
DIAGRAM_LETTER = "British wiring-diagram letter code"
INTERNATIONAL_LETTER = "IEC 60757 letter code"


def read_rows():
    rows = {}
    for name in FILES:
        path = program.ROOT / "tests" / "reference" / f"{name}.csv"
        program.needed(path)
        with path.open(encoding="utf-8", newline="") as file:
            rows |= {row["id"]: row | {"file": name} for row in csv.DictReader(file)}
    return rows


def text_of(row):
    return f"{row['value']} ({row['conditions']})"


# Lead colours


def plain(colour):
    """The colour as the catalogue writes it: "light green" is light-green, "slate (grey)" grey, "violet" purple."""
    colour = re.sub(r"^slate \((\w+)\)$", r"\1", colour.strip())
    return {"violet": "purple"}.get(colour, colour.replace(" ", "-"))


def letter_codes(rows):
    pairs = (row["value"].split(" = ") for row in rows.values() if row["quantity"] == DIAGRAM_LETTER)
    return {code: plain(colour) for code, colour in pairs}


def decoded(code, codes):
    """"GY" as green/yellow, "LG N" as light-green/brown: base first, tracer second."""
    return "/".join(codes.get(letter, "?") for letter in re.findall("LG|[A-Z]", code))


def colours_of(row, codes, known):
    """The lead colours a row speaks of: before the colon as letters or a word, otherwise after it as words. Where a row
    gives letters and words, both must be the same colour."""
    head, _, tail = row["value"].partition(":")
    letters = re.fullmatch(r"((?:LG|[A-Z])(?: ?(?:LG|[A-Z]))?)(?: \((.*)\))?", head)
    if letters and set(plain(letters[2] or "red").split("/")) <= known:  # else it is a terminal, "L (left indicator)"
        colour = decoded(letters[1], codes)
        return {colour} if plain(letters[2] or colour) == colour else set()
    if plain(head) in known:
        return {plain(head)}
    one = "|".join(sorted((colour.replace("-", " ") for colour in known), key=len, reverse=True))
    return {plain(colour) for colour in re.findall(rf"\b(?:{one})(?:/(?:{one}))?\b", tail)}


def part_says(catalogue, part, pattern):
    words = catalogue.texts["part:" + part] + catalogue.texts["advice:" + catalogue.parts[part]]
    return [] if re.search(pattern, words) else [f"{part}: nothing like '{pattern}' is said of it"]


def judge_lead(entry, rows, catalogue):
    row, colour, published, parts, says = entry
    problems = []
    if colour not in colours_of(rows[row], letter_codes(rows), catalogue.colours):
        problems.append(f"{row} speaks of another colour: {rows[row]['value']}")
    if not re.search(published, rows[row]["value"]):
        problems.append(f"{row} does not say '{published}': {rows[row]['value']}")
    for part in parts:
        if colour not in catalogue.words_claimed(part, "lead_colours"):
            problems.append(f"{part}: claims no lead of {colour}")
        problems += part_says(catalogue, part, says)
    return problems


def not_covered(claimed, published, unpublished, families):
    """Marks of parts that no row covers and no system lists for the family of the part, and lists nobody needs."""
    rest = {(part, families[part], mark) for part, mark in claimed - published}
    needed = {(family, mark) for _, family, mark in rest}
    listed = [(system, mark, family) for system, marks in unpublished.items()
              for mark, (_, of_families) in marks.items() for family in of_families.split()]
    known = {(family, mark) for _, mark, family in listed}
    return [f"{part} ({family}): {mark} is neither published nor listed as unpublished"
            for part, family, mark in sorted(rest) if (family, mark) not in known] + [
            f"{system}: {mark} is listed for {family}, but no such part needs it"
            for system, mark, family in listed if (family, mark) not in needed]


def judge_leads_are_covered(catalogue):
    published = {(part, colour) for _, colour, _, parts, _ in LEADS for part in parts}
    claimed = {(part, colour) for part in catalogue.parts for colour in catalogue.words_claimed(part, "lead_colours")
               if "/" in colour and part not in GENERIC_WIRING}
    return not_covered(claimed, published, UNPUBLISHED_LEADS, catalogue.families)


def judge_vocabulary(rows, catalogue, loomkey):
    with (program.ROOT / "data" / "colours.toml").open("rb") as file:
        in_sources = {colour["id"] for colour in tomllib.load(file)["colour"]}
    problems = []
    for row in rows.values():
        if row["quantity"] in (DIAGRAM_LETTER, INTERNATIONAL_LETTER):
            colour = plain(row["value"].split(" = ")[1])
            if colour not in in_sources & catalogue.colours:
                problems.append(f"{row['id']}: the catalogue knows no lead of {colour}")
    for row, said in SPOKEN.items():
        word = rows[row]["value"].split(" = ")[1]
        understood = loomkey.json("identify", "--exit-zero", "--reading", f"lead_colours={said}")["readings"][0]
        if plain(word.replace(" with ", "/").replace(" tracer", "")) != understood["value"]:
            problems.append(f"{row}: '{said}' is understood as {understood['value']}, published as {word}")
    return problems


# Letters


def names_of(row):
    """The letters a row speaks of: "49a", "D+/61", "B (switch)"."""
    name, _, now = re.sub(r" \(.*?\)", "", row["value"].partition(":")[0]).partition(" -> ")
    return {name, *name.split("/"), *(each for each in now.split(", ") if each.startswith(name) and each != name)}


def is_plain_number(part, letter):
    """A cylinder, way, position or pin: such numbers need no row."""
    return part in NUMBERED and re.fullmatch(r"[1-7]|1[1-4]|A[12]", letter)


def judge_role(entry, rows, catalogue):
    parts, name, letters, (fewest, most), published, said_by, says = entry
    problems = []
    for letter, row in letters.items():
        if row and (letter not in names_of(rows[row]) or not re.search(published, rows[row]["value"])):
            problems.append(f"{row} does not make {letter} the {name}: {rows[row]['value']}")
        if not any(letter in catalogue.words_claimed(part, "letters") for part in parts):
            problems.append(f"no part of {parts} is lettered {letter}")
    for part in parts:
        for letters_claimed in catalogue.claims[part, "", "letters"].sets:
            count = len(letters_claimed & letters.keys())
            lettered = any(re.match(r"\w", letter) and not is_plain_number(part, letter) for letter in letters_claimed)
            if lettered and not fewest <= count <= most:
                problems.append(f"{part}: {' '.join(sorted(letters_claimed))} holds {count} letters for the {name}")
    for part in said_by:
        problems += part_says(catalogue, part, says)
    return problems


def judge_letters_are_covered(catalogue):
    published = {(part, letter) for parts, _, letters, *_ in ROLES for part in parts
                 for letter, row in letters.items() if row}
    claimed = {(part, letter) for part in catalogue.parts for letter in catalogue.words_claimed(part, "letters")
               if re.match(r"\w", letter) and not is_plain_number(part, letter)}
    return not_covered(claimed, published, UNPUBLISHED_LETTERS, catalogue.families)


# Values and hazards


def number(word):
    return float(WORDS.get(word, word))


def figures(word):
    """The last printed figure, halved: 0.05 for 12.6."""
    return 0.5 * 10 ** -len(word.partition(".")[2]) * (1 + 1e-9)


def agree(how, published, exact, said):
    """Whether printed numbers agree; `exact` holds the published ones as they enter the comparison."""
    values = [number(word) for word in said]
    low, high, rounding = min(values), max(values), max(map(figures, said))
    if exact == list(map(number, published)):
        rounding = max([rounding, *map(figures, published)])
    return {
        INSIDE: low <= min(exact) and max(exact) <= high,
        HOLDS: min(exact) - rounding <= low and high <= max(exact) + rounding,
        SAME: len(exact) == len(values) and all(abs(a - b) <= rounding for a, b in zip(exact, values)),
        OVERLAP: low <= max(exact) and min(exact) <= high,
        CENTRE: min(exact) <= (low + high) / 2 <= max(exact),
        AT_LEAST: low >= max(exact),
        AT_MOST: high <= min(exact),
    }[how]


def catalogue_words(catalogue, where):
    """The words at "part:ID", "advice:ID", "caution:ID@PART" (as that part is given it), or the likeliest answer of
    "claim:PART:TRAIT" and "claim:PART#CONDITION:TRAIT" with the ends of its ranges; None where there are none."""
    kind, _, name = where.partition(":")
    if kind == "claim":
        owner, _, trait = name.partition(":")
        part, _, condition = owner.partition("#")
        claim = catalogue.claims.get((part, condition, trait))
        if not claim:
            return None, []
        answers = claim.states | {name: share for name, share in claim.special.items() if share > 0}
        return max(answers, key=answers.get, default=""), [str(end) for ends in claim.ranges for end in ends]
    if kind == "caution":
        name, _, part = name.partition("@")
        if name not in catalogue.carried.get(part, ()):
            return None, []
    return catalogue.texts.get(f"{kind}:{name}"), []


def judge_value(entry, rows, catalogue, bend=1):
    row, reads, where, says, how, change = (*entry, *(None,) * (6 - len(entry)))
    published = re.search(reads, text_of(rows[row]))
    if not published:
        return [f"{row} does not say '{reads}': {text_of(rows[row])}"]
    words, said = catalogue_words(catalogue, where)
    found = words is not None and (re.search(says, words) if says else said)
    if not found:
        return [f"{where} does not say '{says}'"]
    if not how:
        return []
    said = list(found.groups()) if says else said
    convert = change if callable(change) else lambda value: value * (change or 1)
    exact = [convert(number(word)) * bend for word in published.groups()]
    if agree(how, published.groups(), exact, said):
        return []
    return [f"{where} says {' to '.join(said)}, {row} {' to '.join(published.groups())}; wanted: {how}"]


# Everything together


def every_check(rows, catalogue):
    """(name, rows, judge) of each check that compares one entry of the tables; a judge takes rows and catalogue."""
    for entry in LEADS:
        yield f"a lead of {entry[1]}: {entry[2]}", [entry[0]], lambda r, c, entry=entry: judge_lead(entry, r, c)
    for entry in ROLES:
        used = [row for row in entry[2].values() if row]
        yield (f"letters {' '.join(entry[2])} on {entry[0][0]}: {entry[1]}", used,
               lambda r, c, entry=entry: judge_role(entry, r, c))
    for entry in VALUES + HAZARDS:
        yield (f"{rows[entry[0]]['quantity']}: {entry[2]}", [entry[0]],
               lambda r, c, entry=entry: judge_value(entry, r, c))


def moved(rows, names):
    """The rows with the values of `names` exchanged for those of a row half a file away."""
    wrong = copy.deepcopy(rows)
    for name in names:
        of_file = [row for row in rows.values() if row["file"] == rows[name]["file"]]
        other = of_file[(of_file.index(rows[name]) + len(of_file) // 2) % len(of_file)]
        wrong[name] |= {"value": other["value"], "conditions": other["conditions"]}
    return wrong


def mixed_up(catalogue, share):
    """The catalogue with what it says of each part, advice and caution exchanged for that of one a share of the list
    away."""
    wrong = copy.copy(catalogue)

    def turned(names):
        names = sorted(names)
        step = int(len(names) * share)
        return dict(zip(names, names[step:] + names[:step]))

    parts = turned(catalogue.parts)
    kinds = [turned(where for where in catalogue.texts if where.startswith(kind)) for kind in
             ("part:", "advice:", "caution:")]
    wrong.texts = {where: catalogue.texts[other] for kind in kinds for where, other in kind.items()}
    wrong.claims = {(part, *rest): catalogue.claims[parts[part], *rest] for part, *rest in catalogue.claims
                    if (parts[part], *rest) in catalogue.claims}
    return wrong


def main():
    loomkey, path = program.arguments()
    rows, catalogue = read_rows(), program.Catalogue(path)
    checks = list(every_check(rows, catalogue))
    report = program.Report()
    for name, used, judge in checks:
        memory = all(rows[row]["how_known"] == "memory" for row in used)
        report.tell(f"{', '.join(used)}{' (from memory)' if memory else ''} {name}", judge(rows, catalogue))
    report.tell("lead colours of the published codes are known and understood",
                judge_vocabulary(rows, catalogue, program.Program(loomkey, path)))
    report.tell("every two-colour lead is published, or listed as unpublished", judge_leads_are_covered(catalogue))
    report.tell("every terminal letter is published, or listed as unpublished", judge_letters_are_covered(catalogue))

    spoken = {row["id"] for row in rows.values() if row["quantity"] in (DIAGRAM_LETTER, INTERNATIONAL_LETTER)}
    unused = rows.keys() - spoken - SPOKEN.keys() - {row for _, used, _ in checks for row in used}
    report.tell("every reference row is used", [f"{row} is not" for row in sorted(unused)])
    wrong = [mixed_up(catalogue, share) for share in (1 / 4, 1 / 3, 1 / 2)]
    report.tell("a wrong row is refused by each check", [name for name, used, judge in checks
                                                         if not judge(moved(rows, used), catalogue)])
    report.tell("wrong figures are refused by each check of figures", [
        " ".join(map(str, entry[:3])) for entry in VALUES + HAZARDS if len(entry) > 4
        and not any(judge_value(entry, rows, catalogue, bend) for bend in (0.1, 0.5, 2, 10))])
    report.tell("parts that have changed places are refused by each check", [
        name for name, _, judge in checks if not any(judge(rows, one) for one in wrong)])
    report.tell("marks on parts that have changed places are refused", [
        judge.__name__ for judge in (judge_leads_are_covered, judge_letters_are_covered)
        if not all(judge(one) for one in wrong)])
    return report.end()


if __name__ == "__main__":
    sys.exit(main())
