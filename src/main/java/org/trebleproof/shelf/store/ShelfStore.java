package org.trebleproof.shelf.store;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Function;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.trebleproof.file.FileTurn;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilCurve;
import org.trebleproof.shelf.item.CoilName;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.KeptMeasurement;
import org.trebleproof.shelf.item.NewCoil;
import org.trebleproof.shelf.item.NewCoil.Role;
import org.trebleproof.shelf.item.PlainName;
import org.trebleproof.shelf.item.Recipe;
import org.trebleproof.shelf.item.ShelvedCoil;

/**
 * A shelf that is open. Every change is one transaction, through to the disk when it returns: a
 * coil is on the shelf whole, with its recording, or not at all. Not for several threads at once.
 */
public final class ShelfStore implements AutoCloseable {

  /** Others' writes are waited for so long [ms]. */
  private static final int PATIENCE = 60_000;

  private final ShelfAddress address;
  private final Handle handle;

  private ShelfStore(ShelfAddress address, Handle handle) {
    this.address = address;
    this.handle = handle;
  }

  /**
   * Opens a shelf, and makes it where there is none.
   *
   * @throws Refusal if it cannot be used
   */
  public static ShelfStore open(ShelfAddress address) {
    address.file().ifPresent(ShelfStore::makeFolder);
    Jdbi jdbi = Jdbi.create(() -> connection(address));
    Runnable bringUp = () -> Schema.bringUp(address, jdbi);
    try {
      if (Schema.version(jdbi) != Schema.VERSION) {
        // Two processes that make the same file at once: one waits for the other.
        address
            .file()
            .ifPresentOrElse(
                file ->
                    FileTurn.during(
                        file,
                        () -> {
                          bringUp.run();
                          return file;
                        }),
                bringUp);
      }
      return new ShelfStore(address, jdbi.open());
    } catch (RuntimeException | LinkageError e) {
      throw StoreTrouble.of(address, e);
    }
  }

  /**
   * Opens a shelf that is there already.
   *
   * @throws Refusal if there is none
   */
  public static ShelfStore existing(ShelfAddress address) {
    if (address.file().isPresent() && !Files.exists(address.file().get())) {
      throw new Refusal(
          "there is no shelf "
              + address.words()
              + " yet: trebleproof shelf add makes it, or name another by --shelf.");
    }
    return open(address);
  }

  private static void makeFolder(Path file) {
    Path folder = file.toAbsolutePath().getParent();
    try {
      Files.createDirectories(folder);
    } catch (IOException e) {
      throw new Refusal(
          "the shelf " + file + " cannot be made: " + folder + " is no folder to write in.", e);
    }
    if (Files.isDirectory(file)) {
      throw new Refusal("the shelf " + file + " is a folder: name a file.");
    }
  }

  /**
   * A connection. For a file: one file beside which nothing stays (a journal that is taken away
   * again), every write through to the disk, and whoever writes takes the file at the beginning of
   * the transaction, so that nobody finds at its end that another was faster.
   */
  private static Connection connection(ShelfAddress address) throws SQLException {
    Properties properties = new Properties();
    if (address.file().isPresent()) {
      properties.setProperty("busy_timeout", String.valueOf(PATIENCE));
      properties.setProperty("transaction_mode", "IMMEDIATE");
      properties.setProperty("journal_mode", "DELETE");
      properties.setProperty("synchronous", "EXTRA");
      properties.setProperty("foreign_keys", "true");
    } else {
      properties.setProperty("options", "-c lock_timeout=" + PATIENCE);
    }
    return DriverManager.getConnection(address.jdbc(), properties);
  }

  private <T> T asked(Function<Handle, T> question) {
    try {
      return question.apply(handle);
    } catch (RuntimeException e) {
      throw StoreTrouble.of(address, e);
    }
  }

  private <T> T changed(Function<Handle, T> change) {
    try {
      return handle.inTransaction(
          h -> {
            if (address.file().isEmpty()) {
              h.execute("LOCK TABLE coil IN SHARE ROW EXCLUSIVE MODE"); // readers go on
            }
            return change.apply(h);
          });
    } catch (RuntimeException e) {
      throw StoreTrouble.of(address, e);
    }
  }

  /** Names of all coils. */
  public Set<String> names() {
    return asked(
        h -> {
          Set<String> names = new TreeSet<>(CoilName.ORDER);
          names.addAll(h.createQuery("SELECT name FROM coil").mapTo(String.class).list());
          return names;
        });
  }

  /** The coil that was added last; of several within a second, the last by name. */
  public Optional<String> newest() {
    return asked(
        h ->
            h
                .createQuery("SELECT name FROM coil WHERE added = (SELECT MAX(added) FROM coil)")
                .mapTo(String.class)
                .list()
                .stream()
                .max(CoilName.ORDER));
  }

  /** The job of what was measured last at a bench, as its file holds it. */
  public Optional<String> lastJob(String bench) {
    return asked(
        h ->
            h.createQuery(
                    "SELECT job FROM measurement WHERE bench = :bench"
                        + " ORDER BY added DESC, id LIMIT 1")
                .bind("bench", bench)
                .mapTo(String.class)
                .findOne());
  }

  /** The coil that was measured by just these recordings. */
  public Optional<String> measuredBy(String recordings) {
    return asked(h -> measuredBy(h, recordings));
  }

  private static Optional<String> measuredBy(Handle h, String recordings) {
    return h.createQuery(
            "SELECT c.name FROM coil c JOIN measurement m ON m.coil = c.id"
                + " WHERE m.recordings = :recordings")
        .bind("recordings", recordings)
        .mapTo(String.class)
        .findOne();
  }

  /**
   * Puts a measurement on the shelf, with its files.
   *
   * @return the name of the coil
   * @throws Refusal if the name is taken or not there, or the recordings are on the shelf already
   */
  public String add(NewCoil coil, CoilAnswer answer) {
    put(coil, answer);
    return coil.name();
  }

  /**
   * Puts a measurement on the shelf as above.
   *
   * @return by what the store knows the measurement
   */
  public String put(NewCoil coil, CoilAnswer answer) {
    return changed(
        h -> {
          Optional<String> before = measuredBy(h, coil.recordings());
          if (before.isPresent()) {
            throw new Refusal(
                "these recordings are on the shelf already, as "
                    + Refusal.quote(before.get())
                    + ".");
          }
          String id = coil(h, coil);
          String measurement = UUID.randomUUID().toString();
          h.createUpdate(
                  "INSERT INTO measurement (id, coil, bench, who, measured, celsius, added, job,"
                      + " recordings) VALUES (:id, :coil, :bench, :who, :measured, :celsius, :added,"
                      + " :job, :recordings)")
              .bind("id", measurement)
              .bind("coil", id)
              .bind("bench", coil.circumstances().bench())
              .bind("who", coil.circumstances().who())
              .bind("measured", coil.circumstances().date())
              .bind("celsius", boxed(coil.circumstances().celsius()))
              .bind("added", now())
              .bind("job", coil.job())
              .bind("recordings", coil.recordings())
              .execute();
          coil.files().forEach((name, file) -> keep(h, measurement, name, file));
          answer(h, measurement, answer);
          return measurement;
        });
  }

  private static String coil(Handle h, NewCoil coil) {
    Optional<String> there =
        h.createQuery("SELECT id FROM coil WHERE name = :name")
            .bind("name", coil.name())
            .mapTo(String.class)
            .findOne();
    if (there.isPresent() && !coil.again()) {
      throw new Refusal(
          "there is a coil "
              + Refusal.quote(coil.name())
              + " on the shelf: give this one another name, or add --again if it is the same.");
    }
    String id = there.orElseGet(() -> UUID.randomUUID().toString());
    if (there.isEmpty()) {
      h.createUpdate(
              "INSERT INTO coil (id, name, kind, recipe, notes, added) VALUES (:id, :name, 'coil',"
                  + " :recipe, :notes, :added)")
          .bind("id", id)
          .bind("name", coil.name())
          .bind("recipe", coil.recipe())
          .bind("notes", coil.notes())
          .bind("added", now())
          .execute();
    }
    coil.tags().forEach(tag -> tag(h, id, tag));
    return id;
  }

  private static void tag(Handle h, String coil, String tag) {
    h.createUpdate(
            "INSERT INTO tag (coil, tag) SELECT :coil, :tag WHERE NOT EXISTS"
                + " (SELECT 1 FROM tag WHERE coil = :coil AND tag = :tag)")
        .bind("coil", coil)
        .bind("tag", tag)
        .execute();
  }

  private static void keep(Handle h, String measurement, String name, NewCoil.KeptFile file) {
    int there =
        h.createQuery("SELECT COUNT(*) FROM content WHERE sha256 = :sha")
            .bind("sha", file.sha256())
            .mapTo(Integer.class)
            .one();
    if (there == 0) {
      ContentPieces.write(h, file);
    }
    h.createUpdate(
            "INSERT INTO file (measurement, name, role, sha256) VALUES (:m, :name, :role, :sha)")
        .bind("m", measurement)
        .bind("name", name)
        .bind("role", file.role().word())
        .bind("sha", file.sha256())
        .execute();
  }

  /**
   * Adds what is said of a measurement now; where it only waited to be worked out, that gives way.
   */
  public void again(String measurement, CoilAnswer answer) {
    changed(
        h -> {
          answer(h, measurement, answer);
          return measurement;
        });
  }

  private static void answer(Handle h, String measurement, CoilAnswer answer) {
    String id = UUID.randomUUID().toString();
    h.createUpdate("DELETE FROM result WHERE measurement = :m AND state = :waiting")
        .bind("m", measurement)
        .bind("waiting", CoilState.WAITING.word())
        .execute();
    int number =
        h.createQuery("SELECT COUNT(*) FROM result WHERE measurement = :m")
            .bind("m", measurement)
            .mapTo(Integer.class)
            .one();
    h.createUpdate(
            "INSERT INTO result (id, measurement, number, program, made, state, reason, json,"
                + " guitar) VALUES (:id, :m, :number, :program, :made, :state, :reason, :json,"
                + " :guitar)")
        .bind("id", id)
        .bind("m", measurement)
        .bind("number", number + 1)
        .bind("program", answer.program())
        .bind("made", now())
        .bind("state", answer.state().word())
        .bind("reason", answer.reason())
        .bind("json", answer.result())
        .bind("guitar", answer.guitar().orElse(null))
        .execute();
    if (!answer.values().isEmpty()) {
      PreparedBatch batch =
          h.prepareBatch(
              "INSERT INTO reading (result, quantity, value, low, high, known) VALUES (:result,"
                  + " :quantity, :value, :low, :high, :known)");
      answer
          .values()
          .forEach(
              (value, e) ->
                  batch
                      .bind("result", id)
                      .bind("quantity", value.code())
                      .bind("value", e.value())
                      .bind("low", finite(e.low()))
                      .bind("high", finite(e.high()))
                      .bind("known", e.known().word())
                      .add());
      batch.execute();
    }
    answer
        .curve()
        .ifPresent(
            c ->
                h.createUpdate(
                        "INSERT INTO curve (result, decibel, low, high) VALUES (:result, :decibel,"
                            + " :low, :high)")
                    .bind("result", id)
                    .bind("decibel", bytes(c.decibel()))
                    .bind("low", bytes(c.low()))
                    .bind("high", bytes(c.high()))
                    .execute());
  }

  private static Double finite(double bound) {
    return Double.isFinite(bound) ? bound : null;
  }

  private static Double boxed(OptionalDouble value) {
    return value.isPresent() ? value.getAsDouble() : null;
  }

  /** The one answer that a question asks of a coil's name. */
  private static String ofCoil(Handle h, String name, String question) {
    return h.createQuery(question)
        .bind("name", name)
        .mapTo(String.class)
        .findOne()
        .orElseThrow(
            () -> new Refusal("there is no coil " + Refusal.quote(name) + " on the shelf."));
  }

  private static String now() {
    return Instant.now().truncatedTo(ChronoUnit.MILLIS).toString();
  }

  /** Doubles one after the other, the most significant byte first. */
  private static byte[] bytes(double[] values) {
    ByteBuffer buffer = ByteBuffer.allocate(values.length * Double.BYTES);
    buffer.asDoubleBuffer().put(values);
    return buffer.array();
  }

  private static double[] doubles(byte[] bytes) {
    double[] values = new double[bytes.length / Double.BYTES];
    ByteBuffer.wrap(bytes).asDoubleBuffer().get(values);
    return values;
  }

  /** The newest result of a measurement. */
  private static final String NEWEST =
      " r.number = (SELECT MAX(x.number) FROM result x WHERE x.measurement = r.measurement)";

  /**
   * Every measurement of every coil, as it was worked out last; coils in the order of their names,
   * the measurements of one by their date, the last one last.
   *
   * @param curves whether their curves are wanted too
   */
  public List<ShelvedCoil> measurements(boolean curves) {
    return asked(
        h -> {
          Map<String, List<String>> tags = new HashMap<>();
          h.createQuery("SELECT coil, tag FROM tag ORDER BY coil, tag")
              .map((rs, ctx) -> List.of(rs.getString(1), rs.getString(2)))
              .forEach(
                  row -> tags.computeIfAbsent(row.get(0), k -> new ArrayList<>()).add(row.get(1)));
          Map<String, Map<CoilValue, Estimate>> values = readings(h);
          Map<String, CoilCurve> shapes = curves ? curves(h) : Map.of();
          List<ShelvedCoil> all =
              h.createQuery(
                      "SELECT c.id, c.name, c.recipe, c.notes, m.id, m.bench, m.who, m.measured,"
                          + " m.celsius, r.id, r.program, r.state, r.reason FROM coil c"
                          + " JOIN measurement m ON m.coil = c.id JOIN result r ON"
                          + " r.measurement = m.id WHERE"
                          + NEWEST
                          + " ORDER BY m.measured, m.added, m.id")
                  .map(
                      (rs, ctx) -> {
                        double celsius = rs.getDouble(9);
                        OptionalDouble known =
                            rs.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(celsius);
                        return new ShelvedCoil(
                            rs.getString(2),
                            rs.getString(3),
                            tags.getOrDefault(rs.getString(1), List.of()).stream()
                                .sorted()
                                .toList(),
                            rs.getString(4),
                            rs.getString(5),
                            new Circumstances(
                                rs.getString(6), rs.getString(7), rs.getString(8), known),
                            rs.getString(11),
                            CoilState.of(rs.getString(12)),
                            rs.getString(13),
                            values.getOrDefault(rs.getString(10), Map.of()),
                            Optional.ofNullable(shapes.get(rs.getString(10))));
                      })
                  .list();
          List<ShelvedCoil> sorted = new ArrayList<>(all);
          sorted.sort((a, b) -> CoilName.ORDER.compare(a.name(), b.name()));
          return sorted;
        });
  }

  private static Map<String, Map<CoilValue, Estimate>> readings(Handle h) {
    Map<String, Map<CoilValue, Estimate>> values = new HashMap<>();
    h.createQuery(
            "SELECT q.result, q.quantity, q.value, q.low, q.high, q.known FROM reading q JOIN result"
                + " r ON r.id = q.result WHERE"
                + NEWEST)
        .map(
            (rs, ctx) -> {
              double low = rs.getDouble(4);
              low = rs.wasNull() ? Double.NEGATIVE_INFINITY : low;
              double high = rs.getDouble(5);
              double to = rs.wasNull() ? Double.POSITIVE_INFINITY : high;
              double from = low;
              String result = rs.getString(1);
              double value = rs.getDouble(3);
              String known = rs.getString(6);
              // A quantity that a later version has added is none that can be shown here.
              CoilValue.of(rs.getString(2))
                  .ifPresent(
                      q ->
                          values
                              .computeIfAbsent(result, k -> new EnumMap<>(CoilValue.class))
                              .put(q, new Estimate(value, from, to, q.unit(), known(known))));
              return result;
            })
        .list();
    return values;
  }

  private static Known known(String word) {
    for (Known known : Known.values()) {
      if (known.word().equals(word)) {
        return known;
      }
    }
    return Known.DERIVED;
  }

  private static Map<String, CoilCurve> curves(Handle h) {
    Map<String, CoilCurve> curves = new HashMap<>();
    h.createQuery(
            "SELECT s.result, s.decibel, s.low, s.high FROM curve s JOIN result r ON r.id = s.result"
                + " WHERE"
                + NEWEST)
        .map(
            (rs, ctx) ->
                Map.entry(
                    rs.getString(1),
                    new CoilCurve(
                        doubles(rs.getBytes(2)), doubles(rs.getBytes(3)), doubles(rs.getBytes(4)))))
        .forEach(e -> curves.put(e.getKey(), e.getValue()));
    return curves;
  }

  /** The curve of one measurement, as it was worked out last. */
  public Optional<CoilCurve> curve(String measurement) {
    return asked(
        h ->
            h.createQuery(
                    "SELECT s.decibel, s.low, s.high FROM curve s JOIN result r ON r.id = s.result"
                        + " WHERE r.measurement = :m AND"
                        + NEWEST)
                .bind("m", measurement)
                .map(
                    (rs, ctx) ->
                        new CoilCurve(
                            doubles(rs.getBytes(1)),
                            doubles(rs.getBytes(2)),
                            doubles(rs.getBytes(3))))
                .findOne());
  }

  /** All that is kept of one measurement beside its values. */
  public KeptMeasurement kept(String measurement) {
    return asked(
        h -> {
          Map<String, KeptMeasurement.Kept> files = new LinkedHashMap<>();
          h.createQuery("SELECT name, role, sha256 FROM file WHERE measurement = :m ORDER BY name")
              .bind("m", measurement)
              .map((rs, ctx) -> List.of(rs.getString(1), rs.getString(2), rs.getString(3)))
              .forEach(
                  row ->
                      files.put(
                          row.get(0), new KeptMeasurement.Kept(Role.of(row.get(1)), row.get(2))));
          return h.createQuery(
                  "SELECT m.job, r.json, r.guitar, m.recordings FROM measurement m JOIN result r ON"
                      + " r.measurement = m.id WHERE m.id = :m AND"
                      + NEWEST)
              .bind("m", measurement)
              .map(
                  (rs, ctx) ->
                      new KeptMeasurement(
                          rs.getString(1),
                          rs.getString(2),
                          Optional.ofNullable(rs.getString(3)),
                          rs.getString(4),
                          files))
              .one();
        });
  }

  /** Writes what is kept under a hash. */
  public void content(String sha256, OutputStream to) throws IOException {
    try {
      ContentPieces.read(handle, sha256, to);
    } catch (RuntimeException e) {
      throw StoreTrouble.of(address, e);
    }
  }

  /** Every content there is, by its hash. */
  public List<String> contents() {
    return asked(
        h ->
            h.createQuery("SELECT sha256 FROM content ORDER BY sha256").mapTo(String.class).list());
  }

  /** Names of the coils that a content belongs to. */
  public List<String> usedBy(String sha256) {
    return asked(
        h ->
            h
                .createQuery(
                    "SELECT DISTINCT c.name FROM coil c JOIN measurement m ON m.coil = c.id JOIN"
                        + " file f ON f.measurement = m.id WHERE f.sha256 = :sha")
                .bind("sha", sha256)
                .mapTo(String.class)
                .list()
                .stream()
                .sorted(CoilName.ORDER)
                .toList());
  }

  /** Keeps a recipe, in place of one of its name. */
  public void keep(Recipe recipe) {
    changed(
        h -> {
          h.createUpdate("DELETE FROM recipe_target WHERE recipe = :name")
              .bind("name", recipe.name())
              .execute();
          h.createUpdate("DELETE FROM recipe WHERE name = :name")
              .bind("name", recipe.name())
              .execute();
          h.createUpdate("INSERT INTO recipe (name, wire) VALUES (:name, :wire)")
              .bind("name", recipe.name())
              .bind("wire", recipe.wire())
              .execute();
          recipe
              .targets()
              .forEach(
                  (value, target) ->
                      h.createUpdate(
                              "INSERT INTO recipe_target (recipe, quantity, target, tolerance)"
                                  + " VALUES (:recipe, :quantity, :target, :tolerance)")
                          .bind("recipe", recipe.name())
                          .bind("quantity", value.code())
                          .bind("target", target.value())
                          .bind("tolerance", target.tolerance())
                          .execute());
          return recipe;
        });
  }

  /** All recipes, by name. */
  public List<Recipe> recipes() {
    return asked(
        h -> {
          Map<String, Map<CoilValue, Marking>> targets = new HashMap<>();
          h.createQuery("SELECT recipe, quantity, target, tolerance FROM recipe_target")
              .map(
                  (rs, ctx) -> {
                    String recipe = rs.getString(1);
                    Marking target = new Marking(rs.getDouble(3), rs.getDouble(4), true);
                    CoilValue.of(rs.getString(2))
                        .ifPresent(
                            q ->
                                targets
                                    .computeIfAbsent(recipe, k -> new EnumMap<>(CoilValue.class))
                                    .put(q, target));
                    return recipe;
                  })
              .list();
          List<Recipe> recipes =
              new ArrayList<>(
                  h.createQuery("SELECT name, wire FROM recipe")
                      .map(
                          (rs, ctx) ->
                              new Recipe(
                                  rs.getString(1),
                                  rs.getString(2),
                                  targets.getOrDefault(rs.getString(1), Map.of())))
                      .list());
          recipes.sort((a, b) -> CoilName.ORDER.compare(a.name(), b.name()));
          return recipes;
        });
  }

  /**
   * Says more of a coil.
   *
   * @param recipe in place of what was said; empty for no change
   * @param notes likewise
   * @param tags to add
   */
  public void say(String name, Optional<String> recipe, Optional<String> notes, List<String> tags) {
    changed(
        h -> {
          String id = ofCoil(h, name, "SELECT id FROM coil WHERE name = :name");
          recipe.ifPresent(
              text ->
                  h.createUpdate("UPDATE coil SET recipe = :text WHERE id = :id")
                      .bind("text", text)
                      .bind("id", id)
                      .execute());
          notes.ifPresent(
              text ->
                  h.createUpdate("UPDATE coil SET notes = :text WHERE id = :id")
                      .bind("text", text)
                      .bind("id", id)
                      .execute());
          new HashSet<>(tags).forEach(tag -> tag(h, id, tag));
          return id;
        });
  }

  /**
   * Keeps photos of a coil, with its last measurement; one that is kept already is passed over.
   *
   * @param photos by the names of their files
   */
  public void photograph(String name, Map<String, NewCoil.KeptFile> photos) {
    changed(
        h -> {
          String measurement =
              ofCoil(
                  h,
                  name,
                  "SELECT m.id FROM measurement m JOIN coil c ON m.coil = c.id WHERE c.name ="
                      + " :name ORDER BY m.measured DESC, m.added DESC, m.id DESC LIMIT 1");
          Map<String, String> there = new HashMap<>();
          h.createQuery("SELECT name, sha256 FROM file WHERE measurement = :m")
              .bind("m", measurement)
              .map((rs, ctx) -> List.of(rs.getString(1), rs.getString(2)))
              .forEach(row -> there.put(row.get(0), row.get(1)));
          photos.forEach(
              (file, photo) -> {
                if (!there.containsValue(photo.sha256())) {
                  String free = PlainName.free(PlainName.ofFile(file), there.keySet());
                  there.put(free, photo.sha256());
                  keep(h, measurement, free, photo);
                }
              });
          return measurement;
        });
  }

  @Override
  public void close() {
    handle.close();
  }
}
