# Sourced by ./conewise and ./verify: finds a JDK of version 17 or newer, and installs one where apt can.

# Sets $java to the first java of version 17 or newer, or to nothing.
find_java() {
  java=""
  for candidate in "${JAVA_HOME:+$JAVA_HOME/bin/java}" "$(command -v java 2>/dev/null)"; do
    [ -n "$candidate" ] && [ -x "$candidate" ] || continue
    version=$("$candidate" -version 2>&1 | sed -n 's/.* version "\([0-9]*\).*/\1/p' | head -n 1)
    if [ "${version:-0}" -ge 17 ] 2>/dev/null; then
      java=$candidate
      return
    fi
  done
}

# Prints the command that makes apt-get run with rights, or fails where it cannot.
apt_with_rights() {
  command -v apt-get >/dev/null 2>&1 || return 1
  if [ "$(id -u)" = 0 ]; then
    echo "apt-get"
  elif command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then
    echo "sudo -n apt-get"
  else
    return 1
  fi
}

# Makes sure that a whole JDK (java and javac) is there; $java is set afterwards.
need_jdk() {
  find_java
  if [ -n "$java" ] && [ -x "$(dirname "$(readlink -f "$java")")/javac" ]; then
    # Maven builds with the JDK found here, not with an older one that JAVA_HOME may name.
    JAVA_HOME=$(dirname "$(dirname "$(readlink -f "$java")")")
    export JAVA_HOME
    return
  fi
  if apt=$(apt_with_rights); then
    echo "conewise: no JDK 17 or newer was found; installing one (Debian package default-jdk-headless)." >&2
    DEBIAN_FRONTEND=noninteractive
    export DEBIAN_FRONTEND
    $apt update >/dev/null 2>&1
    $apt install -y --no-install-recommends default-jdk-headless >/dev/null 2>&1
    unset JAVA_HOME
    find_java
    if [ -z "$java" ]; then
      $apt install -y --no-install-recommends openjdk-17-jdk-headless >/dev/null 2>&1
      find_java
    fi
  fi
  if [ -z "$java" ] || [ ! -x "$(dirname "$(readlink -f "$java")")/javac" ]; then
    echo "conewise: a JDK 17 or newer is needed and was not found. On Debian or Ubuntu run:  sudo apt-get install default-jdk-headless" >&2
    echo "  On other systems install any JDK 17 or newer, and set JAVA_HOME to its folder if 'java -version' does not show it." >&2
    exit 69
  fi
  JAVA_HOME=$(dirname "$(dirname "$(readlink -f "$java")")")
  export JAVA_HOME
}
