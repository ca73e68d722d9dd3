#!/bin/sh
# Checks PDF files by programs that had no part in writing them.
#
#   .ci/outside.sh FILE.pdf...      checks these files
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
if ! "$python" -c 'import pikepdf, outloud' 2>/dev/null; then
    python3 -m venv "$work/venv"
    "$python" -m pip install -q pikepdf 'outloud==0.2.1'
fi
export PATH="$work/venv/bin:$PATH"

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
