# Functions shared by the scripts in tools/; sourced, not run.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)

die() {
  printf '%s: %s\n' "$(basename "$0")" "$*" >&2
  exit 1
}

# Runs a command and shows what it printed only when it fails: quietly WHAT COMMAND...
quietly() {
  local what=$1 log status=0
  shift
  log=$(mktemp)
  "$@" >"$log" 2>&1 || status=$?
  if [ "$status" -ne 0 ]; then
    cat "$log" >&2
    printf '%s: %s failed\n' "$(basename "$0")" "$what" >&2
  fi
  rm -f "$log"
  return "$status"
}

as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  else
    sudo "$@"
  fi
}

# Node may come from elsewhere than Debian; any from version 18 on will do.
have_node() {
  local version
  command -v npm >/dev/null && version=$(node --version 2>/dev/null) || return 1
  version=${version#v}
  [ "${version%%.*}" -ge 18 ]
}

# Prints those of the packages in the files that are not installed.
missing_packages() {
  local wanted installed package
  wanted=$(sed 's/#.*//' "$@" | tr -s ' \t' '\n' | sort -u | sed '/^$/d')
  # dpkg-query complains about packages it has never heard of; they are just missing.
  # shellcheck disable=SC2086
  installed=$(dpkg-query -W -f '${db:Status-Abbrev}${binary:Package}\n' $wanted 2>/dev/null |
    sed -n 's/^ii *\([^:]*\).*/\1/p' || true)
  for package in $wanted; do
    case $package in
      nodejs | npm) have_node && continue ;;
    esac
    grep -qxF "$package" <<<"$installed" || printf '%s\n' "$package"
  done
}

# Installs what is missing, and does not touch the network when nothing is.
install_packages() {
  local missing
  missing=$(missing_packages "$@")
  [ -n "$missing" ] || return 0
  # shellcheck disable=SC2086
  missing=$(printf ' %s' $missing)
  if [ "$(id -u)" -ne 0 ] && ! command -v sudo >/dev/null; then
    die "to be installed by root, as there is no sudo here:$missing"
  fi
  printf 'Installing:%s\n' "$missing"
  quietly "apt-get update" as_root env DEBIAN_FRONTEND=noninteractive apt-get update || return 1
  # shellcheck disable=SC2086
  quietly "apt-get install" as_root env DEBIAN_FRONTEND=noninteractive \
    apt-get -o DPkg::Lock::Timeout=300 install --yes --no-install-recommends $missing
}

# Installs the npm packages of a folder unless they are those of its lock file already: node_packages FOLDER
node_packages() {
  local folder=$root/$1 stamp=$root/$1/node_modules/.lock-sum sum
  sum=$(sha256sum <"$folder/package-lock.json")
  [ "$(cat "$stamp" 2>/dev/null)" = "$sum" ] && return
  (cd "$folder" && quietly "npm ci" npm ci --no-audit --no-fund --ignore-scripts) && printf '%s\n' "$sum" >"$stamp"
}

# Configures (once) and builds a preset, or some targets of it: build_preset NAME [TARGET...]
build_preset() {
  local preset=$1 folder=$root/build/$1
  shift
  if [ ! -f "$folder/build.ninja" ] || [ "$root/CMakePresets.json" -nt "$folder/build.ninja" ]; then
    (cd "$root" && quietly "configuring $preset" cmake --preset "$preset") || return 1
  fi
  (cd "$root" && quietly "building $preset" cmake --build --preset "$preset" ${1:+--target "$@"})
}

# The version, from the one place where it stands.
project_version() {
  sed -n 's/^project(fingerway VERSION \([0-9.]*\).*/\1/p' "$root/CMakeLists.txt"
}

# All C++ files of ours, one a line, relative to the root.
cpp_files() {
  (cd "$root" && find include src tests -name node_modules -prune -o -type f \( -name '*.hpp' -o -name '*.cpp' \) -print |
    sort)
}

# Names the files that clang-format would change.
check_format() {
  local file status=0
  while IFS= read -r file; do
    clang-format --dry-run --Werror "$root/$file" 2>/dev/null && continue
    printf '%s: not formatted (clang-format -i %s)\n' "$file" "$file" >&2
    status=1
  done < <(cpp_files)
  return "$status"
}

check_layers() {
  cmake -D "ROOT=$root" -P "$root/tools/cmake/layers.cmake"
}
