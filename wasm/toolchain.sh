# shellcheck shell=bash
# Everything that building for the browser needs from Rust: sourced after www/tools/setup.sh, never run.
#
# The standard library for wasm32 comes by one of two routes:
#   rustup  the active Rust toolchain has it, or `rustup target add` fetches it;
#   distro  Debian's rustc-web and its library sources: built once, from source, into the cache.
# TABWRIGHT_WASM_ROUTE=rustup|distro forces one; the default, auto, takes the first that works.

WASM_TARGET=wasm32-unknown-unknown
DISTRO_PACKAGES=(rustc-web cargo-web rust-web-src rust-web-llvm lld-22)
DISTRO_BIN=/usr/bin
TARGET_ADD_SECONDS=60

WASM_ROUTE=""        # set by need_wasm_route
WASM_PATH_PREFIX=""  # put before PATH by wasm_env

limited() {
  if have timeout; then timeout "$TARGET_ADD_SECONDS" "$@"; else "$@"; fi
}

# A rustup proxy without a toolchain is on PATH, yet does nothing.
rust_works() { cargo --version >/dev/null 2>&1 && rustc --version >/dev/null 2>&1; }

has_wasm_std() {
  local sysroot
  sysroot="$("$1" --print sysroot 2>/dev/null)" || return 1
  compgen -G "$sysroot/lib/rustlib/$WASM_TARGET/lib/libstd-*.rlib" >/dev/null
}

try_rustup_route() {
  rust_works || return 1
  has_wasm_std rustc && return 0
  have rustup || return 1
  say "fetching the wasm target with rustup"
  limited rustup target add "$WASM_TARGET" </dev/null >/dev/null 2>&1 && has_wasm_std rustc
}

distro_sysroot() {
  [[ -x $DISTRO_BIN/rustc ]] || return 1
  local version
  version="$("$DISTRO_BIN/rustc" --version | cut -d ' ' -f 2)"
  printf '%s/sysroot-%s' "$CACHE" "$version"
}

distro_is_ready() {
  local sysroot
  sysroot="$(distro_sysroot)" && [[ -d $sysroot ]]
}

# The compiler's own library folder stays as it is: a sysroot beside it links to the host's part and holds the wasm part.
build_distro_sysroot() {
  local sysroot="$1" work host lib
  say "building the standard library for $WASM_TARGET (about a minute, once)"
  mkdir -p "$CACHE"
  work="$(mktemp -d "$CACHE/sysroot-build.XXXXXX")"
  host="$("$DISTRO_BIN/rustc" -vV | sed -n 's/^host: //p')"
  lib="$work/sysroot/lib/rustlib/$WASM_TARGET/lib"
  mkdir -p "$work/empty/src" "$work/sysroot/bin" "$lib"

  printf '[package]\nname = "empty"\nversion = "0.0.0"\nedition = "2021"\n[workspace]\n' >"$work/empty/Cargo.toml"
  : >"$work/empty/src/lib.rs"
  (
    cd "$work/empty"
    # RUSTC_BOOTSTRAP lets a stable compiler take -Zbuild-std.
    env -u RUSTFLAGS -u CARGO_TARGET_DIR RUSTC_BOOTSTRAP=1 RUSTC="$DISTRO_BIN/rustc" \
      "$DISTRO_BIN/cargo" build --quiet --release --target "$WASM_TARGET" -Zbuild-std=std,panic_abort </dev/null
  ) || fail "the standard library could not be built; what was left behind: $work"
  rm -f "$work/empty/target/$WASM_TARGET/release/deps/"libempty-*
  cp "$work/empty/target/$WASM_TARGET/release/deps/"*.rlib "$lib/"
  ln -s "$("$DISTRO_BIN/rustc" --print sysroot)/lib/rustlib/$host" "$work/sysroot/lib/rustlib/$host"

  printf '#!/bin/sh\nexec %s/rustc --sysroot "%s" "$@"\n' "$DISTRO_BIN" "$sysroot" >"$work/sysroot/bin/rustc"
  printf '#!/bin/sh\nRUSTC="%s/bin/rustc" exec %s/cargo "$@"\n' "$sysroot" "$DISTRO_BIN" >"$work/sysroot/bin/cargo"
  chmod +x "$work/sysroot/bin/"*
  # Renaming is the last step, so that a folder of this name is always complete, whoever built it first.
  mv -T "$work/sysroot" "$sysroot" 2>/dev/null || [[ -d $sysroot ]] || fail "could not write $sysroot"
  rm -rf "$work"
}

use_distro_route() {
  local sysroot
  distro_is_ready || apt_install "${DISTRO_PACKAGES[@]}"
  sysroot="$(distro_sysroot)" || fail "no compiler at $DISTRO_BIN/rustc"
  [[ -d $sysroot ]] || build_distro_sysroot "$sysroot"
  WASM_ROUTE=distro
  WASM_PATH_PREFIX="$sysroot/bin:"
  # Without another Rust on this machine, native builds take the same one.
  rust_works || PATH="$sysroot/bin:$PATH"
}

# Picks the route, makes it ready, and says in one line which it is.
need_wasm_route() {
  case "${TABWRIGHT_WASM_ROUTE:-auto}" in
    rustup)
      try_rustup_route || fail "rustup could not provide $WASM_TARGET; TABWRIGHT_WASM_ROUTE=distro may work"
      WASM_ROUTE=rustup
      ;;
    distro) use_distro_route ;;
    auto)
      if rust_works && has_wasm_std rustc; then
        WASM_ROUTE=rustup
      elif distro_is_ready; then
        use_distro_route # without asking the network on every start
      elif try_rustup_route; then
        WASM_ROUTE=rustup
      elif have apt-get; then
        use_distro_route
      else
        fail "Rust with the $WASM_TARGET target is needed: install rustup, then run: rustup target add $WASM_TARGET"
      fi
      ;;
    *) fail "TABWRIGHT_WASM_ROUTE is \"$TABWRIGHT_WASM_ROUTE\"; it takes auto, rustup or distro" ;;
  esac
  say "wasm route: $WASM_ROUTE ($(wasm_env rustc --version))"
}

# cargo_tool COMMAND CRATE VERSION [OPTION...]: puts a command into the cache, each version in a folder of its own, so that
# clones of different age do not take turns replacing it; prints the folder it is in.
cargo_tool() {
  local command="$1" crate="$2" version="$3" home="$CACHE/$2-$3"
  shift 3
  if [[ ! -x $home/bin/$command ]]; then
    say "installing $crate $version (some minutes, once)" >&2
    cargo install --quiet "$crate" --version "=$version" --root "$home" "$@" </dev/null >&2 ||
      fail "cargo could not install $crate $version"
  fi
  printf '%s/bin' "$home"
}

pinned_tool() {
  sed -n '/^\[workspace.metadata.tools\]/,/^\[[a-z]/s/^'"$1"' *= *"\([^"]*\)".*/\1/p' "$ROOT/Cargo.toml"
}

locked_crate() {
  awk -v name="name = \"$1\"" '$0 == name { getline; gsub(/version = |"/, ""); print }' "$ROOT/Cargo.lock"
}

# The route, wasm-pack and the wasm-bindgen command that fits the library in Cargo.lock.
need_wasm_tools() {
  local pack_version bindgen_version pack bindgen
  need_wasm_route
  pack_version="$(pinned_tool wasm-pack)"
  bindgen_version="$(locked_crate wasm-bindgen)"
  [[ -n $pack_version ]] || fail "Cargo.toml has no wasm-pack under [workspace.metadata.tools]"
  [[ -n $bindgen_version ]] || fail "Cargo.lock has no wasm-bindgen"
  pack="$(cargo_tool wasm-pack wasm-pack "$pack_version" --locked)"
  # Its own lock file names a crate that has been withdrawn, so it is not held to it.
  bindgen="$(cargo_tool wasm-bindgen wasm-bindgen-cli "$bindgen_version")"
  WASM_PATH_PREFIX="$WASM_PATH_PREFIX$pack:$bindgen:"
}

# wasm_env COMMAND...: runs a command with the compiler and the tools of the route in front.
wasm_env() { env PATH="$WASM_PATH_PREFIX$PATH" "$@"; }
