#!/usr/bin/env bash
# Builds the Debian package and tries it as a newcomer would: in a bare Debian 12 made by debootstrap it
# is installed, makes the first label within a minute, runs from any folder for anybody, and leaves
# nothing behind. Needs root, some minutes, and a mirror (that of /etc/apt/sources.list).
#   tests/package.sh [FOLDER]     the root is made in FOLDER (kept), else in a temporary one
#   PACKAGE=x.deb tests/package.sh   tries a package that is there; SUITE=trixie in Debian 13
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
. "$top/tests/packages.sh"
[ "$(id -u)" -eq 0 ] || { echo "debootstrap and chroot need root" >&2; exit 2; }
# shellcheck disable=SC2086
[ -n "${PACKAGE:-}" ] || install_packages $build_packages dpkg-dev
install_packages debootstrap zbar-tools poppler-utils lintian
suite=${SUITE:-bookworm}
mirror=$(sed -n 's/^URIs: *//p; s/^deb \(http[^ ]*\) .*/\1/p' $(find /etc/apt/sources.list* -name '*.list' -o -name '*.sources') |
  sed -n '/debian\/*$/p' | head -1)
[ -n "$mirror" ] || { echo "no Debian mirror in /etc/apt/sources.list or sources.list.d" >&2; exit 3; }
folder=${1:-$(mktemp -d)}
root=$folder/root
mkdir -p "$folder"
fail() { echo "FAILED: $1" >&2; exit 1; }
finish() {
  for place in dev proc; do mountpoint -q "$root/$place" && umount "$root/$place"; done
  [ -n "${kept:-}" ] || rm -rf "$folder"
}
[ $# -eq 0 ] || kept=yes
trap finish EXIT
inside() { chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"; }

echo "== the package"
deb=${PACKAGE:-}
if [ -z "$deb" ]; then
  build=$top/build/release
  cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DGALLIPOT_TESTS=OFF >/dev/null
  cmake --build "$build"
  rm -f "$build"/gallipot_*.deb
  (cd "$build" && cpack -G DEB >/dev/null)
  deb=$(echo "$build"/gallipot_*.deb)
fi
dpkg-deb --info "$deb"
lintian --fail-on error,warning "$deb" || fail "lintian complains"

echo "== a bare Debian ($suite from $mirror)"
[ -e "$root/etc/debian_version" ] || debootstrap --variant=minbase "$suite" "$root" "$mirror" >"$folder/debootstrap.log"
mountpoint -q "$root/proc" || mount -t proc proc "$root/proc"
mountpoint -q "$root/dev" || mount --bind /dev "$root/dev"
cp /etc/resolv.conf "$root/etc/resolv.conf"
inside apt-get update -qq
inside apt-get install -y -qq --no-install-recommends passwd >/dev/null
inside useradd --create-home newcomer 2>/dev/null || true
# In a root that was kept from a run before.
inside apt-get autoremove --purge -y -qq gallipot >/dev/null 2>&1 || true
find "$root/home/newcomer" "$root/tmp" -mindepth 1 -delete
files() { find "$root" -xdev \( -path "$root/proc" -o -path "$root/dev" -o -path "$root/var/lib/apt" -o -path "$root/var/cache" \
  -o -path "$root/var/log" -o -path "$root/home" -o -path "$root/tmp" -o -path "$root/var/lib/dpkg" \) -prune -o -print | LC_ALL=C sort; }
files >"$folder/before"
installed() { inside dpkg-query -W -f '${Package} ${db:Status-Abbrev}\n' | LC_ALL=C sort; }
installed >"$folder/packages-before"

echo "== from the package to the first label"
cp "$deb" "$root/tmp/gallipot.deb"
chmod 644 "$root/tmp/gallipot.deb"
as_newcomer() { inside su newcomer -c "cd ~ && $1"; }
begin=$(date +%s.%N)
inside apt-get install -y -qq --no-install-recommends /tmp/gallipot.deb >"$folder/install.log" 2>&1
got=$(date +%s.%N)
as_newcomer "gallipot new job.yaml && gallipot render job.yaml -o papers"
end=$(date +%s.%N)
awk "BEGIN { printf \"%.1f s to install with what it needs, %.1f s to the papers, %.1f s in all\n\", $got - $begin, $end - $got, $end - $begin
             exit !($end - $begin < 60) }" || fail "the first label took more than a minute"
labels=$root/home/newcomer/papers/labels.pdf
pdftoppm -r 300 -gray -singlefile "$labels" "$folder/label"
zbarimg -q --raw "$folder/label.pgm" 2>/dev/null | sort >"$folder/read"
grep -q '^POISON NOT FOOD K1-1 ' "$folder/read" || fail "the code of the first label is not read"
echo "read from the label: $(grep '^POISON NOT FOOD K1-1 ' "$folder/read")"
as_newcomer "head -1 job.yaml" | grep -qx '# yaml-language-server: $schema=file:///usr/share/gallipot/job.schema.json' ||
  fail "the starter does not name the schema"

echo "== from any folder, and from another place"
inside su newcomer -c 'mkdir -p "/tmp/ein Ordner" && cd "/tmp/ein Ordner" && gallipot check ~/job.yaml >/dev/null 2>&1 && cd / && gallipot plan ~/job.yaml >/dev/null 2>&1' ||
  fail "it does not run from any folder"
inside mkdir -p "/opt/else where/bin" "/opt/else where/share"
inside cp /usr/bin/gallipot "/opt/else where/bin/"
inside cp -r /usr/share/gallipot "/opt/else where/share/"
inside mv /usr/share/gallipot /usr/share/gallipot.away
inside su newcomer -c 'cd ~ && "/opt/else where/bin/gallipot" render job.yaml -o moved >/dev/null 2>&1' || fail "the copied tree does not run"
inside su newcomer -c 'cd ~ && (timeout 2 "/opt/else where/bin/gallipot" serve --listen 127.0.0.1:0 job.yaml || true)' >"$folder/served" 2>/dev/null
grep -q '^Stopped' "$folder/served" || fail "the copied tree does not serve"
inside su newcomer -c 'gallipot render ~/job.yaml -o ~/lost' 2>"$folder/lost" && fail "it runs without its data"
grep -q 'install gallipot again' "$folder/lost" || fail "it does not say what is missing"
inside mv /usr/share/gallipot.away /usr/share/gallipot
inside cmp /home/newcomer/papers/labels.pdf /home/newcomer/moved/labels.pdf || fail "another place gives other bytes"
inside rm -r "/opt/else where"

echo "== away again"
inside apt-get purge -y -qq gallipot >/dev/null 2>&1
inside apt-get autoremove --purge -y -qq >/dev/null 2>&1
installed | diff "$folder/packages-before" - || fail "packages are left"
files >"$folder/after"
# What ldconfig and fontconfig keep of other packages is no file of ours.
left=$(comm -13 "$folder/before" "$folder/after" | sed "s|^$root||" | grep -vE '^/etc/ld.so.cache|^/var/lib/(fontconfig|ucf)' || true)
[ -z "$left" ] || fail "these are left: $left"
echo "nothing is left; the package is $deb"
