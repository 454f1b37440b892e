package org.trebleproof;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.cli.Main;
import org.trebleproof.desktop.DesktopStart;

/** Chooses the face: the window where nothing is asked for, else the command line. */
public final class Start {

  private Start() {}

  /** Starts the program. */
  public static void main(String[] arguments) {
    if (arguments.length == 0) {
      stayAtHome(System.getenv(), System.getProperty("os.name", ""));
      Optional<String> why = DesktopStart.open();
      if (why.isEmpty()) {
        return;
      }
      System.err.println("trebleproof: " + why.get());
      System.err.println();
    }
    Main.main(arguments);
  }

  /**
   * Java takes the account's home folder for everybody's; where the environment names another, the
   * window's libraries keep what they unpack there (XDG Base Directory Specification 0.8).
   */
  private static void stayAtHome(Map<String, String> environment, String system) {
    String home = environment.getOrDefault("HOME", "");
    if (system.toLowerCase(Locale.ROOT).contains("win") || !Path.of(home).isAbsolute()) {
      return;
    }
    System.setProperty("user.home", home);
    String cache = environment.getOrDefault("XDG_CACHE_HOME", "");
    Path base = Path.of(cache).isAbsolute() ? Path.of(cache) : Path.of(home, ".cache");
    if (System.getProperty("javafx.cachedir") == null) {
      System.setProperty("javafx.cachedir", base.resolve("trebleproof").toString());
    }
  }
}
