package org.trebleproof.desktop.draft;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.trebleproof.quantity.Refusal;

/** Where the program keeps what it remembers between two starts, by each system's custom. */
public final class StateFolder {

  private static final String NAME = "trebleproof";

  private StateFolder() {}

  /**
   * The folder; it need not be there yet. {@code TREBLEPROOF_STATE} overrides it.
   *
   * @param environment of the process
   * @param system name of the operating system, as Java gives it
   * @param home of the user
   */
  public static Path of(Map<String, String> environment, String system, Path home) {
    String given = environment.get("TREBLEPROOF_STATE");
    if (given != null && !given.isBlank()) {
      return Path.of(given);
    }
    String name = system.toLowerCase(Locale.ROOT);
    if (name.contains("win")) {
      String local = environment.get("LOCALAPPDATA");
      return (local == null ? home.resolve("AppData/Local") : Path.of(local)).resolve(NAME);
    }
    if (name.contains("mac")) {
      return home.resolve("Library/Application Support").resolve(NAME);
    }
    // XDG Base Directory Specification 0.8: XDG_STATE_HOME, else ~/.local/state
    String state = environment.get("XDG_STATE_HOME");
    Path base = state == null || state.isBlank() ? home.resolve(".local/state") : Path.of(state);
    return base.resolve(NAME);
  }

  /** Makes a folder with all above it. */
  static Path made(Path folder) {
    try {
      return Files.createDirectories(folder);
    } catch (IOException e) {
      throw new Refusal(
          folder
              + " cannot be made: check that its parent may be written to, or set"
              + " TREBLEPROOF_STATE to another folder.",
          e);
    }
  }
}
