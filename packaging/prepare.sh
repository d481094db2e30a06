# Make this machine ready: Debian packages, a virtual environment in .venv, pinned libraries with hashes, the project.
# Sourced by `run` and `test`; `prepare run|test` is quick when nothing changed.

WINDOW_PACKAGES="libglib2.0-0 libegl1 libgl1 libdbus-1-3 libfontconfig1 libxkbcommon0
    libxcb-cursor0 libxcb-icccm4 libxcb-keysyms1 libxcb-shape0 libxkbcommon-x11-0"
TEST_PACKAGES="xvfb xauth xdotool"

say() { printf '%s\n' "$*" >&2; }

missing_packages() {
    local package
    for package in "$@"; do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || printf '%s ' "$package"
    done
}

install_packages() {
    command -v dpkg-query >/dev/null || return 0 # not Debian: the libraries are the user's to provide
    local missing as_root=()
    missing=$(missing_packages "$@")
    [ -n "$missing" ] || return 0
    if [ "$(id -u)" -ne 0 ]; then
        if ! sudo -n true 2>/dev/null; then
            say "Piecewright needs these Debian packages; install them as root, then start again: $missing"
            return 1
        fi
        as_root=(sudo -n)
    fi
    say "Installing Debian packages: $missing"
    "${as_root[@]}" apt-get update -qq >&2
    # shellcheck disable=SC2086 # one word a package
    DEBIAN_FRONTEND=noninteractive "${as_root[@]}" apt-get install -y -qq --no-install-recommends $missing >&2
}

find_python() {
    local name
    for name in python3.11 python3; do
        if command -v "$name" >/dev/null && "$name" -c 'import sys; sys.exit(sys.version_info[:2] != (3, 11))' 2>/dev/null; then
            command -v "$name"
            return 0
        fi
    done
    say "Piecewright needs Python 3.11; none was found on the path."
    return 1
}

fingerprint() { cat "packaging/requirements-$1.lock" pyproject.toml packaging/prepare.sh | sha256sum | cut -d' ' -f1; }

is_ready() { [ "$(cat ".venv/piecewright-$1" 2>/dev/null)" = "$(fingerprint "$1")" ]; }

make_environment() {
    local python
    [ ! -x .venv/bin/python ] || return 0
    python=$(find_python) || return 1
    "$python" -c 'import ensurepip' 2>/dev/null || install_packages python3-venv || return 1
    say "Making the virtual environment .venv"
    "$python" -m venv .venv
}

install_libraries() {
    say "Installing the pinned libraries (the first time takes a minute)"
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r "packaging/requirements-$1.lock" >&2 &&
        .venv/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e . >&2
}

# prepare run|test: everything the name needs. What the tests need holds all that running needs.
prepare() {
    local kind=$1
    # shellcheck disable=SC2086 # one word a package
    case $kind in
        test) install_packages $WINDOW_PACKAGES $TEST_PACKAGES || return 1 ;;
        run) install_packages $WINDOW_PACKAGES || return 1 ;;
    esac
    if is_ready test || is_ready "$kind"; then return 0; fi
    make_environment && install_libraries "$kind" || return 1
    fingerprint "$kind" >".venv/piecewright-$kind"
}
