#!/bin/sh
# Installs Skep from this folder below a prefix, ~/.local when none is given.
#   ./install.sh [PREFIX]            ./install.sh --remove [PREFIX]
set -eu
here=$(cd "$(dirname "$0")" && pwd)
remove=
[ "${1:-}" = --remove ] && { remove=1; shift; }
prefix=${1:-$HOME/.local}
(cd "$here" && find bin share -type f) | while read -r f; do
  if [ -n "$remove" ]; then rm -f "$prefix/$f"; else
    mkdir -p "$prefix/$(dirname "$f")"
    cp "$here/$f" "$prefix/$f"
  fi
done
for c in "update-mime-database $prefix/share/mime" "update-desktop-database $prefix/share/applications"; do
  command -v "${c%% *}" >/dev/null 2>&1 && $c >/dev/null 2>&1 || true
done
[ -n "$remove" ] && echo "Skep is gone from $prefix; your designs and batches are where they were." || echo "Skep is in $prefix/bin/skep"
