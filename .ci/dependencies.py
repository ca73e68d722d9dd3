"""Holds the dependencies against rules: licences, origins, reasons, use, and published advisories.

Licences are read by `license-expression`, versions by `semantic-version` (PyPI). Advisories are those of the RustSec
database, fetched by git; where it cannot be reached, that is said and the rest still counts.
"""

import argparse
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

import semantic_version
from license_expression import get_spdx_licensing

ROOT = pathlib.Path(__file__).resolve().parent.parent
DATABASE = "https://github.com/rustsec/advisory-db"
# Licences that ask for no more than their text beside the program.
ALLOWED = {
    "0BSD", "Apache-2.0", "Apache-2.0 WITH LLVM-exception", "BSD-2-Clause", "BSD-3-Clause", "MIT", "Unicode-3.0", "Unlicense", "Zlib",
}


def metadata():
    done = subprocess.run(["cargo", "metadata", "--locked", "--format-version", "1"], cwd=ROOT, capture_output=True, text=True, check=True)
    return json.loads(done.stdout)["packages"]


def allowed(expression, licensing=get_spdx_licensing()):
    """Whether some choice that the expression leaves needs allowed licences only."""
    def holds(part):
        kind = type(part).__name__
        if kind == "OR":
            return any(map(holds, part.args))
        if kind == "AND":
            return all(map(holds, part.args))
        return part.render("{symbol.key}") in ALLOWED
    return holds(licensing.parse(expression.replace("/", " OR "), validate=True))


def licences(packages):
    for package in packages:
        if not package["license"]:
            yield f"{package['name']} states no licence"
        elif not allowed(package["license"]):
            yield f"{package['name']}: {package['license']} is not among the licences allowed"


def origins(packages):
    for package in packages:
        if package["source"] and package["source"] != "registry+https://github.com/rust-lang/crates.io-index":
            yield f"{package['name']} comes from {package['source']}"


def reasons():
    """Each dependency has its reason on its line, and is named in the code that it is there for."""
    text = (ROOT / "Cargo.toml").read_text(encoding="utf-8")
    lines = {line.split("=")[0].strip(): line for line in text.splitlines() if "=" in line}
    for table, folders in (("dependencies", ["src"]), ("dev-dependencies", ["tests", "src"])):
        code = "\n".join(p.read_text(encoding="utf-8") for folder in folders for p in (ROOT / folder).rglob("*.rs"))
        for name in tomllib.loads(text)[table]:
            if not re.search(r"#\s*\w+", lines[name]):
                yield f"{name} has no reason beside it"
            if not re.search(rf"\b{name.replace('-', '_')}(::|!)|\buse {name.replace('-', '_')}\b", code):
                yield f"{name} is used nowhere"


def advisories(packages, database):
    """Advisories that hold for a version in use; those on upkeep alone are told by their kind."""
    built = {}
    for package in packages:
        built.setdefault(package["name"], []).append(semantic_version.Version(package["version"]))
    for path in sorted((database / "crates").glob("*/*.md")):
        if path.parent.name not in built:
            continue
        head = re.match(r"```toml\n(.*?)\n```", path.read_text(encoding="utf-8"), re.S)
        told = tomllib.loads(head[1])
        advisory, versions = told["advisory"], told.get("versions", {})
        if "withdrawn" in advisory:
            continue
        fine = [semantic_version.SimpleSpec(spec.replace(" ", "")) for kind in ("patched", "unaffected") for spec in versions.get(kind, [])]
        for version in built[path.parent.name]:
            if not any(version in spec for spec in fine):
                yield f"{path.parent.name} {version}: {advisory['id']} {advisory.get('informational', 'unsafe')}"


def fetched(folder):
    """The database, or nothing where it cannot be reached."""
    if not folder.exists():
        done = subprocess.run(["git", "clone", "-q", "--depth", "1", DATABASE, str(folder)], capture_output=True, timeout=120, check=False)
        if done.returncode != 0:
            return None
    return folder


def prove(packages):
    """A made database: of a patched version, an unaffected one and an unsafe one, the last alone is told."""
    ours = [package for package in packages if package["source"]][:3]
    with tempfile.TemporaryDirectory() as folder:
        for place, (package, versions) in enumerate(zip(ours, ('patched = [">= 0.0.0, < 999.0.0"]', 'unaffected = ["< 999"]', 'patched = [">= 999.0.0"]'))):
            crate = pathlib.Path(folder) / "crates" / package["name"]
            crate.mkdir(parents=True)
            (crate / "A.md").write_text(f'```toml\n[advisory]\nid = "{place}"\n[versions]\n{versions}\n```\n# Made\n', encoding="utf-8")
        told = list(advisories(ours, pathlib.Path(folder)))
    if told != [f"{ours[2]['name']} {ours[2]['version']}: 2 unsafe"]:
        yield f"advisories are not read rightly: {told}"
    if allowed("GPL-3.0-only") or allowed("MIT AND GPL-3.0-only") or not allowed("MIT OR GPL-3.0-only"):
        yield "licences are not read rightly"


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--database", type=pathlib.Path, default=ROOT / "target" / "advisories", help="advisories, fetched where it is not there")
    options = parser.parse_args()
    packages = metadata()
    faults = [*licences(packages), *origins(packages), *reasons(), *prove(packages)]
    database = fetched(options.database)
    found = list(advisories(packages, database)) if database else []
    faults += found
    for fault in faults:
        print(f"FAULT {fault}")
    known = f"{len(found)} advisories hold" if database else "advisories not checked: their database was not reached"
    print(f"dependencies: {len(packages)} packages, {len(faults)} faults; {known}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
