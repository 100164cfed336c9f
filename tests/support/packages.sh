# What has to be installed, and the one function that sees to it. Sourced by ui/start and tests/run.
BUILD_PACKAGES=(g++ cmake ninja-build pkg-config ccache libeigen3-dev libboost-program-options-dev libtomlplusplus-dev nlohmann-json3-dev libfmt-dev libsodium-dev)
WINDOW_PACKAGES=(libsfml-dev libx11-6 fonts-lato fonts-dejavu-core)
TEST_PACKAGES=(catch2 xvfb xauth git gettext chromium poppler-utils)

# need PACKAGE...: installs those that are missing, as root or through sudo. Nothing is asked of the network if all are there.
need() {
  local missing=() p
  for p in "$@"; do
    dpkg-query -W -f='${Status}' "$p" 2>/dev/null | grep -q 'ok installed' || missing+=("$p")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  if ! command -v apt-get >/dev/null; then
    echo "missing: ${missing[*]} (no apt-get here: install them by hand)" >&2
    return 1
  fi
  local as=()
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || { echo "missing: ${missing[*]} (install them as root)" >&2; return 1; }
    as=(sudo)
  fi
  echo "installing: ${missing[*]}"
  "${as[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}" >/dev/null 2>&1 && return 0
  "${as[@]}" apt-get update
  "${as[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}"
}
