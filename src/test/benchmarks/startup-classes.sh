#!/usr/bin/env bash
# Makes the second part of startup-classes.txt anew: the classes that at least two in five of the
# given jobs load, in the order in which they are met. The first part is kept; it is chosen by hand.
#
#   mvn -q package -DskipTests
#   src/test/benchmarks/startup-classes.sh JOB.pdf...
set -euo pipefail
[ $# -gt 0 ] || { sed -n '2,/^set/{/^#/p}' "$0" >&2; exit 2; }
root=$(cd "$(dirname "$0")/../../.." && pwd)
list=$root/src/main/resources/selvage/cli/startup-classes.txt
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
# In front of the jar's own list: one that loads nothing ahead.
mkdir -p "$work/none/selvage/cli"
echo -- >"$work/none/selvage/cli/startup-classes.txt"
for job in "$@"; do
  java "-Xlog:class+load:file=$work/log" -cp "$work/none:$root/target/selvage.jar" \
    selvage.cli.Main survey "$job" --quiet --json "$work/json" >/dev/null
  awk '/ source: / && !/shared objects/ { print NR, $2 }' "$work/log" >>"$work/met"
done
sed '/^--$/q' "$list" >"$work/list"
grep -E ' (org|com|selvage|java)\.' "$work/met" |
  grep -Ev '/|Lambda| (java\.(lang|sql|time|util\.logging)|org\.xml|picocli|selvage\.cli)\.|logging' |
  grep -Fvwf <(sed '$d' "$work/list") |
  awk -v jobs=$# '{ count[$2]++; sum[$2] += $1 }
    END { for (name in count) if (count[name] >= 0.4 * jobs) print sum[name] / count[name], name }' |
  sort -n | cut -d' ' -f2 >>"$work/list"
cp "$work/list" "$list"
