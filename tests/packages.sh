# The one list of Debian packages gallipot needs; sourced by tests/run.sh and examples/run.sh.

# To build and to run.
build_packages="build-essential cmake ninja-build pkg-config
  libhpdf-dev libqpdf-dev liblcms2-dev libdeflate-dev libturbojpeg0-dev libpng-dev libqrcodegencpp-dev libyaml-cpp-dev
  libcli11-dev libfmt-dev libicu-dev libboost-dev
  libharfbuzz-dev libsodium-dev libsqlitecpp-dev libmicrohttpd-dev nlohmann-json3-dev
  fonts-noto-core fonts-droid-fallback"

# To test: the framework, and the independent programs that results are checked against.
test_packages="catch2 units iso-codes poppler-utils qpdf mupdf-tools zbar-tools zxing-cpp-tools sqlite3 gettext
  libzbar-dev libzxing-dev r-base-core r-cran-metafor python3 python3-icalendar python3-yaml
  nodejs node-ajv chromium chromium-driver
  man-db groff-base mandoc bsdextrautils zsh fish"

# Installs what is missing of the packages named; asks for nothing when all are there.
install_packages() {
  local missing=() package
  for package in "$@"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] ||
      missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  echo "Installing: ${missing[*]}"
  local as_root=()
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || {
      echo "Install these first, or run this as root: ${missing[*]}" >&2
      return 3
    }
    as_root=(sudo)
  fi
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -qq
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}
