package org.trebleproof.desktop.draft;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
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
   * @param account the home folder that the account has, where the environment names no other
   */
  public static Path of(Map<String, String> environment, String system, Path account) {
    String given = environment.get("TREBLEPROOF_STATE");
    if (given != null && !given.isBlank()) {
      return Path.of(given);
    }
    String name = system.toLowerCase(Locale.ROOT);
    Path home = home(environment, name, account);
    if (name.contains("win")) {
      String local = environment.get("LOCALAPPDATA");
      return (local == null ? home.resolve("AppData/Local") : Path.of(local)).resolve(NAME);
    }
    if (name.contains("mac")) {
      return home.resolve("Library/Application Support").resolve(NAME);
    }
    // XDG Base Directory Specification 0.8: XDG_STATE_HOME if it is absolute, else ~/.local/state
    String state = environment.get("XDG_STATE_HOME");
    boolean stated = state != null && !state.isBlank() && Path.of(state).isAbsolute();
    return (stated ? Path.of(state) : home.resolve(".local/state")).resolve(NAME);
  }

  /** Where HOME says, which outside Windows is whose the running program's files are. */
  private static Path home(Map<String, String> environment, String system, Path account) {
    String home = environment.get("HOME");
    boolean stated = home != null && !home.isBlank() && Path.of(home).isAbsolute();
    return stated && !system.contains("win") ? Path.of(home) : account;
  }

  /**
   * The folder, if it can be written to; else one that lasts until the system clears it away.
   *
   * @param say takes the sentence that nothing is kept
   */
  public static Path usable(Path folder, Consumer<String> say) {
    try {
      made(folder);
      Files.delete(Files.createTempFile(folder, ".trial-", ".tmp"));
      return folder;
    } catch (IOException | Refusal e) {
      say.accept(
          "What you edit is not kept for the next start, because "
              + folder
              + " cannot be written to: save often, or set TREBLEPROOF_STATE to another folder.");
    }
    try {
      Path passing = Files.createTempDirectory("trebleproof-state-");
      passing.toFile().deleteOnExit();
      return passing;
    } catch (IOException e) {
      throw new Refusal(
          "Nothing can be written in "
              + System.getProperty("java.io.tmpdir")
              + ": make room there, then start again.",
          e);
    }
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
