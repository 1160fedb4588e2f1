# shellcheck shell=bash
# What the checks need beyond the build: sourced after wasm/toolchain.sh, never run.

# Lint and format commands: part of most Rust installations, a component or a package elsewhere.
need_lints() {
  cargo clippy --version >/dev/null 2>&1 && cargo fmt --version >/dev/null 2>&1 && return 0
  if have rustup && rust_works && rustup component add clippy rustfmt </dev/null >/dev/null 2>&1; then return 0; fi
  have apt-get || fail "clippy and rustfmt are needed: rustup component add clippy rustfmt"
  apt_install rust-web-clippy rustfmt-web
}

# The first that the tests' driver can talk to.
OLDEST_FIREFOX=143

# need_engines ENGINE...: what the browser tests need for each of these engines.
need_engines() {
  local engine
  for engine in "$@"; do "need_$engine"; done
}

# need_program VARIABLE PACKAGE NAME...: exports the path of the first of these programs in VARIABLE, unless it names one
# already; PACKAGE is installed where there is none.
need_program() {
  local variable="$1" package="$2" name
  shift 2
  if [[ -z ${!variable:-} ]]; then
    first_of "$@" >/dev/null || {
      have apt-get || fail "$package is needed: install it, or name its program in $variable"
      apt_install "$package"
    }
    name="$(first_of "$@")" && printf -v "$variable" '%s' "$name"
  fi
  [[ -x ${!variable:-} ]] || fail "no program at \"${!variable:-}\" ($variable)"
  export "${variable?}"
}

first_of() {
  local name
  for name in "$@"; do command -v "$name" && return 0; done
  return 1
}

# The headless program alone takes half the processor that the whole browser takes.
need_chromium() { need_program TABWRIGHT_CHROMIUM chromium-headless-shell chromium-headless-shell chromium chromium-browser google-chrome; }

need_firefox() {
  need_program TABWRIGHT_FIREFOX firefox-esr firefox-esr firefox
  local version
  version="$("$TABWRIGHT_FIREFOX" --version 2>/dev/null | sed 's/[^0-9]*\([0-9]*\).*/\1/')"
  ((version >= OLDEST_FIREFOX)) && return 0
  have apt-get || fail "Firefox $OLDEST_FIREFOX or later is needed, not $version"
  apt_upgrade firefox-esr
}

# WebKit comes as a library with a small browser, a driver for it, and needs a display, here one without a screen.
need_webkit() {
  local folder
  have WebKitWebDriver && have Xvfb || {
    have apt-get || fail "WebKitWebDriver and Xvfb are needed for the tests in WebKit"
    apt_install webkit2gtk-driver xvfb
  }
  if [[ -z ${TABWRIGHT_MINIBROWSER:-} ]]; then
    for folder in /usr/lib/*/webkit2gtk-4.1 /usr/libexec/webkit2gtk-4.1 /usr/lib/webkit2gtk-4.1; do
      [[ -x $folder/MiniBrowser ]] && TABWRIGHT_MINIBROWSER="$folder/MiniBrowser"
    done
  fi
  [[ -x ${TABWRIGHT_MINIBROWSER:-} ]] || fail "no MiniBrowser of WebKitGTK found (TABWRIGHT_MINIBROWSER)"
  export TABWRIGHT_MINIBROWSER
}
