package org.trebleproof.desktop;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.logging.Level;
import java.util.logging.Logger;
import javafx.application.Application;
import org.trebleproof.desktop.text.Texts;

/** Opens the window, where there is a display to open it on. */
public final class DesktopStart {

  /** Kept here, since the logging system forgets loggers that nobody holds. */
  private static final Logger QUIET = Logger.getLogger("javafx");

  private DesktopStart() {}

  /** Opens the window; files named as arguments are opened in it. */
  public static void main(String[] arguments) {
    open(arguments).ifPresent(why -> System.err.println("trebleproof: " + why));
  }

  /**
   * Opens the window and returns when it is closed.
   *
   * @param arguments files to open, as if they had been dropped
   * @return a sentence why there is no window; empty when there was one
   */
  public static Optional<String> open(String... arguments) {
    if (displayMissing(System.getProperty("os.name", ""), System.getenv())) {
      return Optional.of(Texts.of("start.no.display"));
    }
    // JavaFX warns of being on the class path, which is how it is meant here.
    QUIET.setLevel(Level.OFF);
    try {
      Application.launch(BenchApplication.class, arguments);
      return Optional.empty();
    } catch (RuntimeException | UnsatisfiedLinkError | NoClassDefFoundError e) {
      return Optional.of(Texts.of("start.no.window", reason(e)));
    }
  }

  /** Whether nothing can be shown: on X and Wayland systems a variable names the display. */
  static boolean displayMissing(String system, Map<String, String> environment) {
    String name = system.toLowerCase(Locale.ROOT);
    boolean headless = "Monocle".equals(System.getProperty("glass.platform"));
    return !headless
        && !name.contains("win")
        && !name.contains("mac")
        && environment.getOrDefault("DISPLAY", "").isBlank()
        && environment.getOrDefault("WAYLAND_DISPLAY", "").isBlank();
  }

  private static String reason(Throwable e) {
    Throwable cause = e;
    while (cause.getCause() != null) {
      cause = cause.getCause();
    }
    String words =
        cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
    return words.strip().replaceAll("\\s+", " ");
  }
}
