#!/bin/sh
# Checks PDF files by programs that had no part in writing them.
#
#   .ci/outside.sh FILE.pdf...      checks these files
#   .ci/outside.sh --packets        prints the examples on both papers, holds them against the page rules,
#                                   measures templates, breaks packets on purpose, prints hostile builds
#   .ci/outside.sh --schema         holds the JSON Schema of build files against a validator
#   .ci/outside.sh --dependencies   holds the dependencies against rules of licence, origin, reason and use
#   .ci/outside.sh --reference      makes the reference values of published libraries anew and compares them
#   .ci/outside.sh                  writes the test suite's samples and checks those, proves that broken
#                                   files are seen, and measures full-size bars
#
# Installs what it needs, on Debian or a system like it, unless it is there already.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
work=${OUTSIDE_WORK:-"$here/../target/outside"}
mkdir -p "$work"

packages=""
have() { command -v "$1" >/dev/null 2>&1; }
have qpdf || packages="$packages qpdf"
have pdftoppm || packages="$packages poppler-utils"
have java || packages="$packages default-jre-headless"
have python3 || packages="$packages python3"
python3 -c 'import venv, ensurepip' 2>/dev/null || packages="$packages python3-venv"
for jar in pdfbox2:libpdfbox2-java javax.activation:libactivation-java jaxb-api:libjaxb-api-java; do
    [ -e "/usr/share/java/${jar%%:*}.jar" ] || packages="$packages ${jar##*:}"
done
if [ -n "$packages" ]; then
    sudo=""
    [ "$(id -u)" = 0 ] || sudo=sudo
    $sudo apt-get update -q
    # shellcheck disable=SC2086 # a list of names
    DEBIAN_FRONTEND=noninteractive $sudo apt-get install -y -q --no-install-recommends $packages
fi

python="$work/venv/bin/python"
needed="$here/../tests/outside/page_rules/requirements.txt"
if ! cmp -s "$needed" "$work/installed.txt" || ! "$python" -c 'import pikepdf, outloud, fontTools, pypdfium2, PIL, license_expression, semantic_version' 2>/dev/null; then
    python3 -m venv "$work/venv"
    "$python" -m pip install -q 'outloud==0.2.1' -r "$needed"
    cp "$needed" "$work/installed.txt"
fi
export PATH="$work/venv/bin:$PATH"

if [ "${1:-}" = --reference ]; then
    reference="$here/../tests/outside/reference"
    # A place of its own: these libraries are large, and pinned to what the stored tables were made with.
    if ! cmp -s "$reference/requirements.txt" "$work/reference.txt"; then
        python3 -m venv "$work/reference"
        "$work/reference/bin/python" -m pip install -q -r "$reference/requirements.txt"
        cp "$reference/requirements.txt" "$work/reference.txt"
    fi
    exec "$work/reference/bin/python" "$reference/afresh.py"
fi
rules="$here/../tests/outside/page_rules"
if [ "${1:-}" = --dependencies ]; then
    exec "$python" "$here/dependencies.py"
fi
if [ "${1:-}" = --packets ]; then
    root="$here/.."
    (cd "$root" && cargo build --quiet)
    program="$root/target/debug/rungsheet"
    packets="$work/packets"
    mkdir -p "$packets"
    set --
    for build in "$root"/examples/*.toml; do
        for paper in a4 letter; do
            packet="$packets/$(basename "$build" .toml)-$paper.pdf"
            "$program" print "$build" --paper "$paper" -o "$packet"
            set -- "$@" "$packet"
        done
    done
    status=0
    # What is handed over with one step is printed on both sides; sheets may be picked out too.
    both="$packets/one-step.pdf"
    "$program" print "$root/examples/field-van.toml" --step 3 --with-sheets -o "$both" 2> "$work/one-step.txt"
    "$program" print "$root/examples/field-van.toml" --step 11 -o "$packets/step-alone.pdf" 2>> "$work/one-step.txt"
    "$program" print "$root/examples/field-van.toml" --only 7,L1 -o "$packets/picked.pdf" 2>> "$work/one-step.txt"
    "$python" "$rules" --brief --table "$@" "$both" "$packets/step-alone.pdf" "$packets/picked.pdf" || status=1
    pairs="$both=$root/examples/field-van.toml"
    for packet in "$@"; do
        name=$(basename "$packet" .pdf)
        pairs="$pairs $packet=$root/examples/${name%-*}.toml"
    done
    # shellcheck disable=SC2086 # a list of files
    "$python" "$rules/navigation.py" $pairs || status=1
    "$python" "$rules/full_size.py" "$@" --work "$work" > "$work/full-size.txt" || status=1
    grep -v "mm allowed$" "$work/full-size.txt"
    # Each of these two uses one processor.
    "$python" "$here/../tests/outside/tiles.py" "$program" --work "$work" > "$work/tiles.txt" &
    tiles=$!
    "$python" "$here/../tests/outside/wraps.py" "$program" --work "$work" || status=1
    "$python" "$rules/broken.py" "$packets/galley-shelf-a4.pdf" --build "$root/examples/galley-shelf.toml" --work "$work" || status=1
    wait "$tiles" || status=1
    cat "$work/tiles.txt"
    "$python" "$rules/hostile.py" "$program" "$root/examples/field-van.toml" --work "$work" || status=1
    exit $status
fi
if [ "${1:-}" = --schema ]; then
    (cd "$here/.." && cargo build --quiet)
    "$here/../target/debug/rungsheet" schema -o "$work/schema.json"
    exec "$python" "$here/../tests/outside/schema.py" "$work/schema.json" "$here/.."
fi
if [ $# -gt 0 ]; then
    exec "$python" "$here/outside.py" --work "$work" "$@"
fi
samples="$work/samples"
mkdir -p "$samples"
(cd "$here/.." && PAPER_SAMPLES="$samples" cargo test -q --test all paper::pdf::samples_for_outside_checks)
# The sample's second page has a bar from x = 8 mm to 208 mm at y = 50 mm, and one from y = 50 mm to
# 200 mm at x = 6 mm.
"$python" "$here/outside.py" --work "$work" --prove \
    --bar 2:8:50:200:across --bar 2:6:50:150:down "$samples/sample.pdf"
exec "$python" "$here/outside.py" --work "$work" "$samples/sheets.pdf" "$samples/long.pdf"
