package org.trebleproof.shelf.store;

import java.util.Map;
import org.flywaydb.core.Flyway;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.trebleproof.quantity.Refusal;

/**
 * The tables of a store, brought up to this version. Asking for the version is one query; the
 * migrations run only where it is not the newest.
 */
final class Schema {

  /** The newest migration there is. */
  static final int VERSION = 1;

  private static final String PLACE = "classpath:org/trebleproof/shelf";

  private Schema() {}

  /** The version of the tables there are; 0 for none. */
  static int version(Jdbi jdbi) {
    try {
      return jdbi.withHandle(
          h ->
              h
                  .createQuery("SELECT version FROM flyway_schema_history WHERE success = :yes")
                  .bind("yes", true)
                  .mapTo(String.class)
                  .list()
                  .stream()
                  .filter(v -> v != null && v.matches("[0-9]{1,6}"))
                  .mapToInt(Integer::parseInt)
                  .max()
                  .orElse(0));
    } catch (JdbiException e) {
      return 0; // there are no tables yet; whatever else is wrong, making them will say
    }
  }

  static void bringUp(ShelfAddress address, Jdbi jdbi) {
    int there = version(jdbi);
    if (there > VERSION) {
      throw new Refusal(
          "the shelf "
              + address.words()
              + " was made by a newer version of this program: use that one.");
    }
    if (there == VERSION) {
      return;
    }
    try {
      Flyway.configure(Schema.class.getClassLoader())
          .loggers("slf4j")
          .dataSource(address.jdbc(), null, null)
          .locations(PLACE)
          .placeholders(Map.of("bytes", address.file().isPresent() ? "BLOB" : "BYTEA"))
          .load()
          .migrate();
    } catch (RuntimeException e) {
      throw StoreTrouble.of(address, e);
    }
  }
}
