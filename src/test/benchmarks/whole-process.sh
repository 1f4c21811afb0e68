#!/usr/bin/env bash
# Times whole processes, cold, at 150 dpi, and prints tables for docs/benchmarks.md.
#
#   mvn -q package -DskipTests
#   src/test/benchmarks/whole-process.sh compare   # survey beside three renderers
#   src/test/benchmarks/whole-process.sh area      # survey by sheet size, A4 to A0, -Xmx512m
#   src/test/benchmarks/whole-process.sh pages     # survey by number of pages
#
# Needs hyperfine, GNU time, ghostscript, poppler-utils and mupdf-tools. Jobs are drawn once into
# target/benchmarks (some minutes for A0). RUNS sets how often each process is timed (default 7).
set -euo pipefail
cd "$(dirname "$0")/../../.."
export LC_ALL=C

jar=target/selvage.jar
jobs=target/benchmarks
out=$jobs/out
runs=${RUNS:-7}
mkdir -p "$out"

draw() { # FILE CLASS ARGUMENTS...
  local file=$jobs/$1 class=$2
  shift 2
  if [ ! -f "$file" ]; then
    java -Xmx4g -cp target/test-classes:$jar "selvage.draw.$class" "$file.part" "$@"
    mv "$file.part" "$file"
  fi
}

heading() {
  echo "| $1 | median s | least s | user + system s | peak MB |"
  echo "| --- | ---: | ---: | ---: | ---: |"
}

row() { # NAME COMMAND...
  local name=$1 csv=$out/times.csv peak
  shift
  hyperfine -N --warmup 1 --runs "$runs" --export-csv "$csv" "$*" >/dev/null 2>"$out/hyperfine.txt" ||
    { cat "$out/hyperfine.txt" >&2; return 1; }
  peak=$(/usr/bin/time -f %M "$@" 2>&1 >/dev/null | tail -1)
  awk -F, -v name="$name" -v peak="$peak" 'NR == 2 {
    printf "| %s | %.2f | %.2f | %.2f | %.0f |\n", name, $4, $7, $5 + $6, peak / 1024 }' "$csv"
  find "$out" -type f \( -name 'page*' -o -name '*.tif' \) -delete
}

survey() { # NAME FILE JAVA_OPTIONS...
  local name=$1 file=$2
  shift 2
  row "$name" java "$@" -jar $jar survey "$file" --quiet --json "$out/page.json"
}

compare() {
  draw photograph.pdf BenchmarkPage
  draw sheet-A4.pdf SizedSheet A4
  local file
  for file in testdata/demo-job.pdf $jobs/photograph.pdf $jobs/sheet-A4.pdf; do
    echo
    heading "$(basename "$file")"
    survey "survey" "$file"
    row "Ghostscript, separations" \
      gs -q -dNOPAUSE -dBATCH -sDEVICE=tiffsep -r150 "-sOutputFile=$out/page-%03d.tif" "$file"
    row "MuPDF, inks and spots, no smoothing" \
      mutool draw -q -r150 -F psd -c cmyk -O 2 -A0 -o "$out/page-%d.psd" "$file"
    row "Poppler, CMYK with overprint, no spots" \
      pdftoppm -r 150 -jpegcmyk -overprint "$file" "$out/page"
  done
}

area() {
  local size
  heading "sheet, eight spots, photograph over all"
  for size in A4 A3 A2 A1 A0; do
    draw "sheet-$size.pdf" SizedSheet "$size"
    survey "$size" "$jobs/sheet-$size.pdf" -Xmx512m
  done
}

pages() {
  local count
  heading "A4 pages, eight spots, photograph over all"
  for count in 1 2 4 8 16; do
    draw "pages-$count.pdf" SizedSheet A4 "$count"
    survey "$count" "$jobs/pages-$count.pdf"
  done
}

case ${1:-} in
  compare | area | pages) ;;
  *)
    sed -n '2,/^set/{/^#/p}' "$0" >&2
    exit 2
    ;;
esac
[ -f $jar ] || { echo "$jar is missing; run mvn -q package -DskipTests first" >&2; exit 3; }
load=$(cut -d' ' -f1 /proc/loadavg)
echo "$(date -u +%F), $(nproc) processors, load $load at the start, runs: $runs"
"$1"
