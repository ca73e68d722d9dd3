"""The JSON Schema that `rungsheet schema` writes, judged by a validator of its own (PyPI jsonschema).

    schema.py SCHEMA REPOSITORY

Is the schema itself valid (draft 2020-12)? Does it accept every example and every start, and every
build file under tests that the program reads without a stop in its writing? Does it refuse those whose
keys, shapes, words or units are wrong?
"""

import json
import pathlib
import sys
import tomllib

from jsonschema import Draft202012Validator

# Findings about how a file is written that a schema can see too. Left out are those about a file
# that is no TOML at all, about limits of a number with its unit, about the sense of a name or a
# length of several tables together.
SEEN_BY_SCHEMA = {
    "F010", "F011", "F012", "F013", "F016", "N001", "N002", "N005", "U001", "U002", "U003", "U004",
    "U009", "U010", "U016",
}
# Wrong in a way of its own that the schema leaves to the program.
LEFT_TO_PROGRAM = {
    # needed only where other tables ask for it
    "F012-missing-table",
}


def main() -> int:
    schema_file, repository = map(pathlib.Path, sys.argv[1:3])
    schema = json.loads(schema_file.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    faults = []
    accepted = refused = 0

    def errors(path: pathlib.Path) -> list[str]:
        build = tomllib.loads(path.read_text(encoding="utf-8-sig"))
        # A date or a clock of TOML is a text to a schema.
        build = json.loads(json.dumps(build, default=str))
        return [f"{'/'.join(map(str, e.absolute_path))}: {e.message[:120]}" for e in validator.iter_errors(build)]

    good = [*repository.glob("examples/*.toml"), *repository.glob("templates/starts/*.toml")]
    if len(good) < 9:
        faults.append(f"only {len(good)} examples and starts found")
    for path in sorted(repository.glob("tests/findings/*.toml")):
        code, told = path.name[:4], path.with_suffix(".txt").read_text(encoding="utf-8")
        reads = not any(f"stop[{letter}" in told for letter in "FNU")
        if reads and code[0] not in "FNU":
            good.append(path)
        elif code in SEEN_BY_SCHEMA and path.stem not in LEFT_TO_PROGRAM:
            refused += 1
            if not errors(path):
                faults.append(f"{path.name} is wrong and was accepted")
    for path in good:
        accepted += 1
        faults += [f"{path.name} is right and was refused: {error}" for error in errors(path)]
    if accepted < 80 or refused < 12:
        faults.append(f"only {accepted} right and {refused} wrong files were tried")
    print("\n".join(faults) or f"schema: {accepted} right files accepted, {refused} wrong ones refused")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
