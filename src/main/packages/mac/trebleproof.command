#!/bin/sh
# Starts Trebleproof from any folder: the window, or a command. TREBLEPROOF_OPTS goes to Java.
lib=$(cd -- "$(dirname -- "$0")/../lib" && pwd -P) || exit 1
java=java
if [ -n "$JAVA_HOME" ] && [ -x "$JAVA_HOME/bin/java" ]; then java=$JAVA_HOME/bin/java; fi
# shellcheck disable=SC2086
exec "$java" -Xlog:disable -XX:+UseSerialGC -XX:TieredStopAtLevel=1 -Xmx448m $TREBLEPROOF_OPTS \
  -cp "$lib/*" org.trebleproof.Start "$@"
