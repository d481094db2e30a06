# shellcheck shell=bash
# Make this machine ready: Debian packages, a virtual environment in .venv, pinned libraries with hashes, the project.
# Sourced by `run` and `test` in the project's folder; `prepare run|test` is quick when nothing changed.

WINDOW_PACKAGES="libglib2.0-0 libegl1 libgl1 libdbus-1-3 libfontconfig1 libxkbcommon0
    libxcb-cursor0 libxcb-icccm4 libxcb-keysyms1 libxcb-shape0 libxkbcommon-x11-0"
TEST_PACKAGES="xvfb xauth xdotool strace at-spi2-core dbus libglib2.0-bin"

say() { printf '%s\n' "$*" >&2; }

# missing_packages NAME...: those that are not installed, one a line.
missing_packages() {
    local installed name
    # shellcheck disable=SC2016 # dpkg-query's own fields; it fails where it knows no such package
    installed=$(dpkg-query -W -f='${Package} ${db:Status-Status}\n' "$@" 2>/dev/null || true)
    for name in "$@"; do
        grep -qxF "$name installed" <<<"$installed" || printf '%s\n' "$name"
    done
}

# can_be_root: by being it or by sudo. A password is asked for only where someone can type it.
can_be_root() { [ "$(id -u)" -eq 0 ] || sudo -n true 2>/dev/null || { [ -t 0 ] && sudo -v 2>/dev/null; }; }

as_root() { if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo "$@"; fi; }

# install_packages NAME...: where they can not be installed from here, one sentence names those that are missing.
install_packages() {
    local missing
    command -v dpkg-query >/dev/null || return 0 # not Debian: the libraries are the user's to provide
    missing=$(missing_packages "$@")
    [ -n "$missing" ] || return 0
    mapfile -t missing <<<"$missing"
    if can_be_root; then
        say "Installing Debian packages: ${missing[*]}"
        as_root apt-get update -qq >&2 &&
            as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >&2 &&
            return 0
    fi
    say "Piecewright needs Debian packages that could not be installed from here; as root: apt-get install ${missing[*]}"
    return 1
}

find_python() {
    local name
    for name in python3.11 python3; do
        if "$name" -c 'import sys; sys.exit(sys.version_info[:2] != (3, 11))' 2>/dev/null; then
            command -v "$name"
            return 0
        fi
    done
    say "Piecewright needs Python 3.11; none was found on the path."
    return 1
}

# What an environment must have been made from to be used as it is: the place counts, for its programs name it.
fingerprint() {
    { pwd && cat "packaging/requirements-$1.lock" pyproject.toml packaging/prepare.sh; } | sha256sum | cut -d' ' -f1
}

is_ready() { [ -x .venv/bin/python ] && [ "$(cat ".venv/piecewright-$1" 2>/dev/null)" = "$(fingerprint "$1")" ]; }

make_environment() {
    local python
    if [ -x .venv/bin/python ] && grep -qsF " $PWD/.venv" .venv/pyvenv.cfg; then return 0; fi
    python=$(find_python) || return 1
    "$python" -c 'import ensurepip' 2>/dev/null || install_packages python3-venv || return 1
    say "Making the virtual environment .venv"
    "$python" -m venv --clear .venv
}

install_libraries() {
    local pip=(.venv/bin/python -m pip install --quiet --disable-pip-version-check)
    say "Installing the pinned libraries (the first time takes a minute)"
    "${pip[@]}" --require-hashes -r "packaging/requirements-$1.lock" >&2 &&
        "${pip[@]}" --no-deps --no-build-isolation -e . >&2
}

# prepare run|test: everything the name needs. What the tests need holds all that running needs.
prepare() {
    local kind=$1
    # shellcheck disable=SC2086 # one word a package
    install_packages $WINDOW_PACKAGES || return 1
    if is_ready test || is_ready "$kind"; then return 0; fi
    make_environment || return 1
    install_libraries "$kind" || return 1
    fingerprint "$kind" >".venv/piecewright-$kind"
}

# prepare_tools: what some tests use, an X display without a screen, a hand for its mouse, and a way to fail system calls.
prepare_tools() {
    # shellcheck disable=SC2086 # one word a package
    install_packages $TEST_PACKAGES
}
