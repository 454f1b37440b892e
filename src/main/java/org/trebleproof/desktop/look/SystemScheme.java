package org.trebleproof.desktop.look;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

/**
 * Whether the system is set to dark, asked for as each system offers it: GNOME's and the
 * freedesktop portal's {@code color-scheme}, the GTK theme's name, macOS' {@code
 * AppleInterfaceStyle}, Windows' {@code AppsUseLightTheme}. Where nothing answers, it is light.
 */
public final class SystemScheme {

  private static final long PATIENCE = 2;

  /** Runs a command and gives what it printed; empty where it cannot be run or fails. */
  @FunctionalInterface
  public interface Shell {
    Optional<String> answer(List<String> command);
  }

  private SystemScheme() {}

  /**
   * Whether the system is dark. Starts processes: not for the screen's thread.
   *
   * @param system name of the operating system, as Java gives it
   */
  public static boolean isDark(String system, Map<String, String> environment, Shell shell) {
    String name = system.toLowerCase(Locale.ROOT);
    if (name.contains("mac")) {
      return says(shell, "dark", "defaults", "read", "-g", "AppleInterfaceStyle");
    }
    if (name.contains("win")) {
      return says(
          shell,
          "0x0",
          "reg",
          "query",
          "HKCU\\Software\\Microsoft\\Windows\\CurrentVersion\\Themes\\Personalize",
          "/v",
          "AppsUseLightTheme");
    }
    String theme = environment.getOrDefault("GTK_THEME", "");
    if (!theme.isBlank()) {
      return theme.toLowerCase(Locale.ROOT).contains("dark");
    }
    return says(shell, "dark", "gsettings", "get", "org.gnome.desktop.interface", "color-scheme")
        || says(shell, "dark", "gsettings", "get", "org.gnome.desktop.interface", "gtk-theme");
  }

  private static boolean says(Shell shell, String word, String... command) {
    return shell
        .answer(List.of(command))
        .filter(text -> text.toLowerCase(Locale.ROOT).contains(word))
        .isPresent();
  }

  /** The system's own commands. */
  public static Optional<String> run(List<String> command) {
    try {
      Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
      process.getOutputStream().close();
      if (!process.waitFor(PATIENCE, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        return Optional.empty();
      }
      String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return process.exitValue() == 0 ? Optional.of(text) : Optional.empty();
    } catch (IOException e) {
      return Optional.empty(); // no such command here
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.empty();
    }
  }
}
