package org.trebleproof.shelf.store;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.quantity.Refusal;

/**
 * Where a shelf is: a file of its own, or a PostgreSQL data base.
 *
 * @param file of the shelf; empty for a data base
 * @param jdbc address as JDBC writes it
 */
public record ShelfAddress(Optional<Path> file, String jdbc) {

  /** The variable that says where the shelf is when no option does. */
  public static final String VARIABLE = "TREBLEPROOF_SHELF";

  private static final String SHARED = "jdbc:postgresql:";

  /**
   * Reads an address as a person gives it.
   *
   * @throws Refusal if it is of another kind of data base
   */
  public static ShelfAddress of(String text) {
    if (text.startsWith(SHARED)) {
      return new ShelfAddress(Optional.empty(), text);
    }
    if (text.startsWith("jdbc:")) {
      throw new Refusal(
          "a shelf is a file, or a PostgreSQL data base such as"
              + " jdbc:postgresql://server/shelf; "
              + Refusal.quote(withoutPassword(text))
              + " is neither.");
    }
    Path file = Path.of(text);
    return new ShelfAddress(Optional.of(file), "jdbc:sqlite:" + file.toAbsolutePath());
  }

  /** Where the shelf is on this machine if nobody says. */
  public static ShelfAddress usual(Map<String, String> environment, String system) {
    String given = environment.getOrDefault(VARIABLE, "");
    return of(given.isBlank() ? home(environment, system).resolve("shelf.db").toString() : given);
  }

  private static Path home(Map<String, String> environment, String system) {
    String os = system.toLowerCase(Locale.ROOT);
    Path home = Path.of(System.getProperty("user.home", "."));
    if (os.startsWith("windows")) {
      String local = environment.get("LOCALAPPDATA");
      Path base = local == null ? home.resolve("AppData").resolve("Local") : Path.of(local);
      return base.resolve("Trebleproof");
    }
    if (os.startsWith("mac")) {
      return home.resolve("Library").resolve("Application Support").resolve("Trebleproof");
    }
    String data = environment.getOrDefault("XDG_DATA_HOME", "");
    Path base = data.isBlank() ? home.resolve(".local").resolve("share") : Path.of(data);
    return base.resolve("trebleproof");
  }

  /** What a sentence calls it; without a password. */
  public String words() {
    return file.map(Path::toString).orElseGet(() -> withoutPassword(jdbc));
  }

  private static String withoutPassword(String address) {
    return address.replaceAll("\\?.*", "").replaceAll("//[^/@]*@", "//");
  }
}
