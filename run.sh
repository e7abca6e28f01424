#!/bin/sh
# The two commands of Reglet:
#
#   sh run.sh demo [folder]   build Reglet, print simulated copies, lay two together, write the page
#   sh run.sh test            every check and every test
#
# Both install what they need and find missing (Debian and its relatives), and nothing that is there.
# Nothing is asked: both run unattended. `demo` installs a C compiler at most; the rest is for `test`.
set -eu

usage() {
    sed -n '2,5p' "$0" | sed 's/^# \{0,1\}//'
}

say() {
    printf '\n== %s\n' "$*"
}

fail() {
    printf 'run.sh: %s\n' "$*" >&2
    exit 1
}

# The folder of the demo is meant from where the user stands, so it is settled before we move.
started_in=$(pwd)
home=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)

# ---- what must be there -------------------------------------------------------------------------

install_packages() {
    command -v apt-get >/dev/null 2>&1 \
        || fail "missing: $*. This machine has no apt-get; install the like of these Debian packages, then run again."
    if [ "$(id -u)" -eq 0 ]; then
        as_root=env
    elif command -v sudo >/dev/null 2>&1; then
        as_root='sudo env'
    else
        fail "missing: $*. Run as root: apt-get install $*"
    fi
    say "installing: $*"
    # The package lists of a fresh machine are empty or stale: fetch them only when a first try fails.
    $as_root DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@" </dev/null && return
    $as_root DEBIAN_FRONTEND=noninteractive apt-get update </dev/null || fail "apt-get update failed (see above)"
    $as_root DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@" </dev/null \
        || fail "could not install $* (see above)"
}

# A careless program run as root can remove /dev/null; the next one then leaves a plain file there, and
# cargo reads what was thrown away into it as if it were a program.
need_null_device() {
    [ -c /dev/null ] && return
    [ "$(id -u)" -eq 0 ] || fail "/dev/null is no device on this machine. As root: rm -f /dev/null; mknod -m 666 /dev/null c 1 3"
    say "/dev/null is no device here: making it one again"
    rm -f /dev/null
    mknod -m 666 /dev/null c 1 3 || fail "could not make /dev/null (see above)"
}

need_compiler() {
    command -v cc >/dev/null 2>&1 || install_packages build-essential
}

need_rust() {
    if ! command -v cargo >/dev/null 2>&1; then
        if [ -r "$HOME/.cargo/env" ]; then
            # shellcheck disable=SC1091 # made by rustup, outside the repository
            . "$HOME/.cargo/env"
        fi
    fi
    command -v cargo >/dev/null 2>&1 || fail "Rust is missing. Get it from https://rustup.rs, or on Debian 13 and later:
    apt-get install rustup && rustup default stable
then run this command again."
    wanted=$(sed -n 's/^rust-version = "1\.\([0-9]*\).*/\1/p' Cargo.toml)
    found=$(rustc --version | sed -n 's/^rustc 1\.\([0-9]*\).*/\1/p')
    if [ "${found:-0}" -lt "$wanted" ]; then
        fail "Rust 1.$wanted or later is needed; this is $(rustc --version). Bring it up to date: rustup update stable"
    fi
}

need_lints() {
    for part in fmt clippy; do
        cargo "$part" --version >/dev/null 2>&1 && continue
        command -v rustup >/dev/null 2>&1 || fail "cargo $part is missing; install the rustfmt and clippy of your Rust"
        case $part in
            fmt) rustup component add rustfmt ;;
            *) rustup component add clippy ;;
        esac
    done
}

need_chromium() {
    if [ -z "${REGLET_CHROMIUM:-}" ]; then
        command -v chromium >/dev/null 2>&1 || install_packages chromium
        REGLET_CHROMIUM=$(command -v chromium)
    fi
    export REGLET_CHROMIUM
}

# The Python of the reference and browser tests, in a folder of its own; made anew only when the list changes.
need_python() {
    venv=$home/target/venv
    list=$home/tests/reference/requirements.txt
    export REGLET_PYTHON="$venv/bin/python"
    if [ -x "$REGLET_PYTHON" ] && cmp -s "$list" "$venv/made-from.txt"; then
        return
    fi
    if ! python3 -c 'import ensurepip, venv' >/dev/null 2>&1; then
        install_packages python3 python3-venv
    fi
    python3 -c 'import sys; sys.exit(sys.version_info < (3, 11))' \
        || fail "the reference tests need Python 3.11 or later; this is $(python3 --version)"
    say "making target/venv from tests/reference/requirements.txt"
    rm -rf "$venv"
    python3 -m venv "$venv"
    "$REGLET_PYTHON" -m pip install --quiet --disable-pip-version-check --only-binary :all: -r "$list" </dev/null \
        || fail "could not install the Python packages of tests/reference/requirements.txt (see above)"
    cp "$list" "$venv/made-from.txt"
}

# ---- the two commands ---------------------------------------------------------------------------

demo() {
    folder=${1:-reglet-demo}
    case $folder in
        /*) ;;
        *) folder=$started_in/$folder ;;
    esac
    need_null_device
    need_rust
    need_compiler
    say "building reglet (some minutes the first time)"
    cargo build --release --locked --package reglet </dev/null
    cargo run --release --locked --quiet --package reglet -- demo "$folder" </dev/null
    printf '\nThe program is here:\n  %s compare FIRST.jpg SECOND.jpg\n' \
        "${CARGO_TARGET_DIR:-$home/target}/release/reglet"
}

test_all() {
    need_null_device
    need_rust
    need_compiler
    need_lints
    need_chromium
    need_python

    # Everything at once: asked for one by one, packages are built again with other features.
    say "building everything (some minutes the first time)"
    cargo build --release --locked --workspace --all-targets </dev/null

    need_null_device
    say "format, lints, documentation, licences, rooms"
    "${CARGO_TARGET_DIR:-target}/release/xtask" check </dev/null

    say "tests"
    if cargo nextest --version >/dev/null 2>&1; then
        cargo nextest run --release --locked --workspace </dev/null
        cargo test --release --locked --workspace --doc </dev/null
    else
        cargo test --release --locked --workspace </dev/null
    fi

    say "tests against reference libraries, and of the page in a browser"
    "$REGLET_PYTHON" -m pytest --quiet tests </dev/null

    say "all passed"
}

cd "$home"
case ${1:-} in
    demo)
        [ $# -le 2 ] || fail "demo takes one folder at most"
        demo "${2:-}"
        ;;
    test)
        [ $# -eq 1 ] || fail "test takes nothing more"
        test_all
        ;;
    help | --help | -h)
        usage
        ;;
    *)
        usage >&2
        exit 2
        ;;
esac
