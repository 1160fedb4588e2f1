# shellcheck shell=bash
# What the checks need beyond the build: sourced after wasm/toolchain.sh, never run.

# Lint and format commands: part of most Rust installations, a component or a package elsewhere.
need_lints() {
  cargo clippy --version >/dev/null 2>&1 && cargo fmt --version >/dev/null 2>&1 && return 0
  if have rustup && rust_works && rustup component add clippy rustfmt </dev/null >/dev/null 2>&1; then return 0; fi
  have apt-get || fail "clippy and rustfmt are needed: rustup component add clippy rustfmt"
  apt_install rust-web-clippy rustfmt-web
}

# The browser tests find their browser in TABWRIGHT_CHROMIUM.
need_browser() {
  npm_modules "$ROOT/tests/browser"
  local name
  if [[ -z ${TABWRIGHT_CHROMIUM:-} ]]; then
    have chromium || have chromium-browser || have google-chrome || {
      have apt-get || fail "a Chromium browser is needed: install one, or name its program in TABWRIGHT_CHROMIUM"
      apt_install chromium
    }
    for name in chromium chromium-browser google-chrome; do
      have "$name" && TABWRIGHT_CHROMIUM="$(command -v "$name")" && break
    done
  fi
  [[ -x ${TABWRIGHT_CHROMIUM:-} ]] || fail "no browser at \"${TABWRIGHT_CHROMIUM:-}\" (TABWRIGHT_CHROMIUM)"
  export TABWRIGHT_CHROMIUM
}
