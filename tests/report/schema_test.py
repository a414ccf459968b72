"""Judges the JSON of findings from outside: python3 schema_test.py SAMPLES SCHEMA. SAMPLES is a program that prints one
finding a line. Each must follow the schema, and its weights must add up to its probabilities. Exit code 77: no
jsonschema here."""

import json
import subprocess
import sys

try:
    import jsonschema
except ImportError:
    print("skipped: the Python module jsonschema is not installed")
    sys.exit(77)


def additions(finding):
    """What does not add up, from the JSON alone."""
    absent = finding["not_in_catalogue"]["probability"]
    for candidate in finding["candidates"]:
        for condition in candidate["conditions"]:
            name = f"{candidate['part']}, {condition['condition']}"
            if len(condition["weights"]) != len(finding["lines"]):
                yield f"{name}: {len(condition['weights'])} weights for {len(finding['lines'])} lines"
            total = condition["prior_db"] + sum(condition["weights"])
            if abs(total - condition["total_db"]) > 1e-5:
                yield f"{name}: the weights add up to {total}, not {condition['total_db']}"


def main():
    samples, schema_path = sys.argv[1:]
    with open(schema_path, encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    lines = subprocess.run([samples], check=True, capture_output=True, text=True, encoding="ascii").stdout.splitlines()
    findings = 0
    statuses = set()
    for number, line in enumerate(lines, 1):
        sample = json.loads(line)
        statuses.add(sample["status"])
        for error in validator.iter_errors(sample):
            findings += 1
            print(f"sample {number}: {'/'.join(map(str, error.path))}: {error.message[:200]}")
        for text in additions(sample):
            findings += 1
            print(f"sample {number}: {text}")
    # A schema that lets everything through would prove nothing.
    spoilt = json.loads(lines[0])
    spoilt["verdict"]["probability"] = 1
    spoilt["surprise"] = True
    if len(list(validator.iter_errors(spoilt))) != 2:
        findings += 1
        print("the schema does not refuse a probability of 1 and an unknown key")
    if len(statuses) != 6:
        findings += 1
        print(f"samples of six statuses were expected, not of {sorted(statuses)}")
    print(f"{len(lines)} samples, {findings} findings")
    return 1 if findings or not lines else 0


if __name__ == "__main__":
    sys.exit(main())
