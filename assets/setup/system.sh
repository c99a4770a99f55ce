# What the set-up needs to know of this machine. POSIX sh, read by `start` and by tests/run.
# shellcheck shell=sh

# Say one line to the person; the standard output belongs to Throatmark itself.
say() {
    printf '%s\n' "$*" >&2
}

# Run a command without its chatter; show all of it when it fails.
quietly() {
    quiet_log=$(mktemp)
    if "$@" >"$quiet_log" 2>&1 </dev/null; then
        rm -f "$quiet_log"
    else
        quiet_status=$?
        cat "$quiet_log" >&2
        rm -f "$quiet_log"
        return "$quiet_status"
    fi
}

# Does this command start a Python that Kivy has wheels for?
usable_python() {
    "$1" -c 'import sys; sys.exit(not (3, 11) <= sys.version_info[:2] < (3, 14))' >/dev/null 2>&1
}

can_make_venv() {
    "$1" -c 'import ensurepip, venv' >/dev/null 2>&1
}

# Print the Python to use: one that can already make a venv, else one that cannot yet.
# Fails when there is none in range.
find_python() {
    for candidate in python3 python3.13 python3.12 python3.11; do
        if usable_python "$candidate" && can_make_venv "$candidate"; then
            echo "$candidate"
            return
        fi
    done
    for candidate in python3 python3.13 python3.12 python3.11; do
        if usable_python "$candidate"; then
            echo "$candidate"
            return
        fi
    done
    return 1
}

# Print the package that gives this Python its venv module on Debian: python3-venv, python3.12-venv.
venv_package() {
    echo "$(basename "$1")-venv"
}

has_apt() {
    command -v apt-get >/dev/null 2>&1
}

# Print what goes before a command that must run as root; fails when this person may not.
root_prefix() {
    if [ "$(id -u)" = 0 ]; then
        echo "env"
    elif sudo -n true >/dev/null 2>&1; then
        echo "sudo -n env"
    else
        return 1
    fi
}

# Install Debian packages without asking anything. Fails when there is no apt or no right to use it.
install_debian() {
    has_apt || return 1
    prefix=$(root_prefix) || return 1
    # The prefix is words on purpose.
    # shellcheck disable=SC2086
    quietly $prefix apt-get -q update &&
        quietly $prefix DEBIAN_FRONTEND=noninteractive apt-get -q -y install --no-install-recommends "$@"
}

# Can this Python load what Kivy's window is drawn with? Only Linux leaves that to its packages.
has_window_libraries() {
    "$1" -c '
import ctypes, sys
if sys.platform == "linux":
    for library in ("libGL.so.1", "libEGL.so.1", "libmtdev.so.1"):
        ctypes.CDLL(library)
' >/dev/null 2>&1
}
