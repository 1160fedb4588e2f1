# shellcheck shell=bash
# Shared by every script that sets something up: sourced, never run.
# Gives the folders, the messages, Debian's packages and npm's modules.

ROOT="$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd -P)"
SITE="$ROOT/target/site"
# One folder for all clones; nothing is written to ~/.cargo or to rustup's list of toolchains.
CACHE="${TABWRIGHT_CACHE:-${XDG_CACHE_HOME:-$HOME/.cache}/tabwright}"

say() { printf '%s\n' "$*"; }

fail() {
  printf 'error: %s\n' "$*" >&2
  exit 1
}

have() { command -v "$1" >/dev/null 2>&1; }

# Installs the Debian packages that are missing, and never removes one to make room.
apt_install() {
  local package wanted=()
  for package in "$@"; do
    [[ "$(dpkg-query -W -f '${Status}' "$package" 2>/dev/null)" == *" installed" ]] || wanted+=("$package")
  done
  apt_upgrade ${wanted[@]+"${wanted[@]}"}
}

# Installs Debian packages, or their newest versions where they are installed.
apt_upgrade() {
  local wanted=("$@")
  ((${#wanted[@]})) || return 0
  have apt-get || fail "please install by hand: ${wanted[*]}"

  local as_root=()
  if ((EUID != 0)); then
    have sudo || fail "please install as root: apt-get install ${wanted[*]}"
    as_root=(sudo)
  fi
  # An empty array counts as unset in old versions of bash, hence the ${...+...}.
  local apt=(${as_root[@]+"${as_root[@]}"} env DEBIAN_FRONTEND=noninteractive apt-get -qq -y --no-remove)
  say "installing Debian packages: ${wanted[*]}"
  # A machine's own lists may be months old, and browsers older than the tests are not driven by the same commands.
  "${apt[@]}" update </dev/null >/dev/null 2>&1 || say "the package lists could not be fetched; trying those that are here"
  "${apt[@]}" install --no-install-recommends "${wanted[@]}" </dev/null >/dev/null ||
    fail "apt-get could not install: ${wanted[*]}"
}

need_node() {
  have node && have npm && return 0
  have apt-get || fail "Node.js 18 or later and npm are needed; install them and run this again"
  apt_install nodejs npm
}

# npm_modules FOLDER: the modules that FOLDER's lock file names, installed anew only when that file has changed.
npm_modules() {
  local folder="$1"
  local lock="$folder/package-lock.json" done_for="$folder/node_modules/.installed-lock.json"
  cmp -s "$lock" "$done_for" && return 0
  say "installing npm modules for ${folder#"$ROOT/"}"
  (cd "$folder" && npm ci --silent --ignore-scripts --no-audit --no-fund </dev/null) ||
    fail "npm ci failed in $folder"
  mkdir -p "$folder/node_modules"
  cp "$lock" "$done_for"
}
