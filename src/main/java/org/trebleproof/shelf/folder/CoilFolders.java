package org.trebleproof.shelf.folder;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.file.FileTrouble;
import org.trebleproof.file.WholeFile;
import org.trebleproof.file.WholeFolder;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonSection;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilCurve;
import org.trebleproof.shelf.item.CoilName;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.KeptMeasurement;
import org.trebleproof.shelf.item.NewCoil;
import org.trebleproof.shelf.item.NewCoil.KeptFile;
import org.trebleproof.shelf.item.NewCoil.Role;
import org.trebleproof.shelf.item.PlainName;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.store.ShelfStore;

/**
 * Measurements as plain folders, one each: the recordings under the names that the job has for
 * them, job and result and guitar as every command reads them, and {@code coil.json} with the rest.
 * Each is made whole or not at all.
 */
public final class CoilFolders {

  private static final String COIL = "coil.json";
  private static final String JOB = "job.json";
  private static final String RESULT = "result.json";
  private static final String GUITAR = "guitar.json";
  private static final String KIND = "coil";

  private CoilFolders() {}

  /**
   * What a folder holds.
   *
   * @param coil as it is to be put on the shelf
   * @param answer as it was worked out where it comes from
   */
  public record Found(NewCoil coil, CoilAnswer answer) {}

  /**
   * Writes measurements into a new folder.
   *
   * @param coils with their curves
   * @throws Refusal if it is there already, or a name on the shelf is none that a file may have
   */
  public static void write(ShelfStore store, List<ShelvedCoil> coils, Path folder) {
    if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
      throw new Refusal(folder + " is there already: name a new folder.");
    }
    int number = 0;
    int width = String.valueOf(coils.size()).length();
    for (ShelvedCoil coil : coils) {
      number++;
      String name =
          String.format(Locale.ROOT, "%0" + width + "d %s", number, PlainName.of(coil.name()));
      writeOne(store, coil, folder.resolve(name.strip()));
    }
  }

  /** Writes one measurement into a new folder of its own. */
  public static void writeOne(ShelfStore store, ShelvedCoil coil, Path folder) {
    KeptMeasurement kept = store.kept(coil.measurement());
    for (String name : kept.files().keySet()) {
      if (!PlainName.isOne(name)) {
        throw new Refusal(
            "coil "
                + Refusal.quote(coil.name())
                + " has a file that is called "
                + Refusal.quote(name)
                + ", which is no plain name: it cannot be written as a file.");
      }
    }
    WholeFolder.make(
        folder,
        () -> {
          kept.files()
              .forEach((name, file) -> writeFile(store, file.sha256(), folder.resolve(name)));
          WholeFile.writeText(folder.resolve(JOB), kept.job());
          WholeFile.writeText(folder.resolve(RESULT), kept.result());
          kept.guitar().ifPresent(text -> WholeFile.writeText(folder.resolve(GUITAR), text));
          WholeFile.writeText(
              folder.resolve(COIL), JsonWriter.file(json -> json.value(tree(coil, kept))));
        });
  }

  private static void writeFile(ShelfStore store, String sha256, Path file) {
    try (FileChannel channel =
            FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel))) {
      store.content(sha256, out);
      out.flush();
      channel.force(true);
    } catch (IOException e) {
      throw new Refusal(file + " could not be written (" + FileTrouble.reason(e) + ").", e);
    }
    if (!SoundFile.sha256(file).equals(sha256)) {
      throw new Refusal(
          file.getFileName()
              + " is damaged on the shelf: trebleproof shelf check names all that is; leave that"
              + " coil out.");
    }
  }

  private static Map<String, Object> tree(ShelvedCoil c, KeptMeasurement kept) {
    Map<String, Object> values = new LinkedHashMap<>();
    for (CoilValue value : CoilValue.values()) {
      c.value(value)
          .ifPresent(
              e ->
                  values.put(
                      value.code(),
                      ordered(
                          "unit",
                          value.unit().code(),
                          "value",
                          e.value(),
                          "low",
                          finite(e.low()),
                          "high",
                          finite(e.high()),
                          "known",
                          e.known().word())));
    }
    List<Object> files = new ArrayList<>();
    kept.files()
        .forEach(
            (name, file) ->
                files.add(
                    ordered("name", name, "role", file.role().word(), "sha256", file.sha256())));
    Map<String, Object> tree =
        ordered(
            JsonFile.VERSION_KEY,
            1,
            "kind",
            KIND,
            "name",
            c.name(),
            "recipe",
            c.recipe(),
            "tags",
            c.tags(),
            "notes",
            c.notes(),
            "bench",
            c.circumstances().bench(),
            "who",
            c.circumstances().who(),
            "date",
            c.circumstances().date());
    c.circumstances().celsius().ifPresent(t -> tree.put("celsius", t));
    tree.put("program", c.program());
    tree.put("verdict", c.state().word());
    tree.put("reason", c.reason());
    tree.put("values", values);
    c.curve()
        .ifPresent(
            curve ->
                tree.put(
                    "curve",
                    ordered("decibel", curve.decibel(), "low", curve.low(), "high", curve.high())));
    tree.put("files", files);
    return tree;
  }

  private static Object finite(double bound) {
    return Double.isFinite(bound) ? bound : Optional.empty();
  }

  private static Map<String, Object> ordered(Object... pairs) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i < pairs.length; i += 2) {
      map.put((String) pairs[i], pairs[i + 1]);
    }
    return map;
  }

  /**
   * The folders that hold measurements: this one, or those in it, in the order of their names.
   *
   * @throws Refusal if there is none
   */
  public static List<Path> in(Path folder) {
    if (Files.isRegularFile(folder.resolve(COIL), LinkOption.NOFOLLOW_LINKS)) {
      return List.of(folder);
    }
    List<Path> found = new ArrayList<>();
    try (DirectoryStream<Path> inside = Files.newDirectoryStream(folder)) {
      for (Path one : inside) {
        if (Files.isDirectory(one, LinkOption.NOFOLLOW_LINKS)
            && Files.isRegularFile(one.resolve(COIL), LinkOption.NOFOLLOW_LINKS)) {
          found.add(one);
        }
      }
    } catch (IOException e) {
      throw new Refusal(
          folder + " cannot be read (" + FileTrouble.reason(e) + "): name a folder.", e);
    }
    if (found.isEmpty()) {
      throw new Refusal(
          folder + " holds no coil: name a folder that trebleproof shelf export has made.");
    }
    found.sort((a, b) -> CoilName.ORDER.compare(a.toString(), b.toString()));
    return found;
  }

  /**
   * Reads one measurement. Nothing outside the folder is read, whatever is written in it: files
   * have plain names, are no links, and hash as they are said to.
   *
   * @throws Refusal if it cannot be used
   */
  public static Found read(Path folder) {
    JsonSection top = JsonFile.read(own(folder, COIL), "coil", Refusal::new);
    if (!top.text("kind").equals(KIND)) {
      throw top.wrong("kind", "must be \"" + KIND + "\".");
    }
    Map<String, KeptFile> files = new LinkedHashMap<>();
    for (JsonSection file : top.sections("files")) {
      String name = file.text("name");
      if (!PlainName.isOne(name)) {
        throw file.wrong("name", "is no plain name of a file: " + Refusal.quote(name) + ".");
      }
      Path path = own(folder, name);
      String sha256 = file.text("sha256");
      if (!SoundFile.sha256(path).equals(sha256)) {
        throw new Refusal(
            path + " is not what " + COIL + " says it is (SHA-256): it was damaged or changed.");
      }
      files.put(name, new KeptFile(Role.of(file.text("role")), sha256, path));
    }
    JsonSection job = JsonFile.read(own(folder, JOB), "job file", Refusal::new);
    for (JsonSection capture : job.sections("captures")) {
      if (!files.containsKey(capture.text("file"))) {
        throw capture.wrong("file", "names no file of this folder.");
      }
    }
    for (String key : List.of("calibration", "sweep", "loopback")) {
      Optional<String> name = job.section("fixture").optionalText(key);
      if (name.isPresent() && !files.containsKey(name.get())) {
        throw job.section("fixture").wrong(key, "names no file of this folder.");
      }
    }
    NewCoil coil =
        new NewCoil(
            CoilName.checked(top.text("name")),
            false,
            text(top, "recipe"),
            top.has("tags") ? top.texts("tags") : List.of(),
            text(top, "notes"),
            new Circumstances(
                text(top, "bench"),
                text(top, "who"),
                text(top, "date"),
                top.has("celsius")
                    ? OptionalDouble.of(top.number("celsius", -20, 60))
                    : OptionalDouble.empty()),
            JsonWriter.file(json -> json.content(job.content())),
            files);
    return new Found(coil, answer(top, folder));
  }

  /** A file that lies in the folder itself and is no link. */
  private static Path own(Path folder, String name) {
    Path file = folder.resolve(name);
    if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      throw new Refusal(
          folder + " has no file " + Refusal.quote(name) + " of its own: export the coil again.");
    }
    return file;
  }

  private static String text(JsonSection section, String key) {
    Object value = section.content().get(key);
    return value instanceof String text ? text : "";
  }

  private static CoilAnswer answer(JsonSection top, Path folder) {
    Map<CoilValue, Estimate> values = new EnumMap<>(CoilValue.class);
    JsonSection section = top.section("values");
    for (String key : section.keys()) {
      CoilValue.of(key)
          .ifPresent(value -> values.put(value, estimate(value, section.section(key))));
    }
    JsonSection result = JsonFile.read(own(folder, RESULT), "result file", Refusal::new);
    Optional<String> guitar =
        Files.isRegularFile(folder.resolve(GUITAR), LinkOption.NOFOLLOW_LINKS)
            ? Optional.of(
                JsonWriter.file(
                    json ->
                        json.content(
                            JsonFile.read(folder.resolve(GUITAR), "guitar file", Refusal::new)
                                .content())))
            : Optional.empty();
    return new CoilAnswer(
        text(top, "program"),
        CoilState.of(top.text("verdict")),
        text(top, "reason"),
        values,
        top.optionalSection("curve").map(CoilFolders::curve),
        JsonWriter.file(json -> json.content(result.content())),
        guitar);
  }

  private static Estimate estimate(CoilValue value, JsonSection s) {
    double most = Double.MAX_VALUE;
    double low = isNumber(s, "low") ? s.number("low", -most, most) : Double.NEGATIVE_INFINITY;
    double high = isNumber(s, "high") ? s.number("high", -most, most) : Double.POSITIVE_INFINITY;
    if (low > high) {
      throw s.wrong("low", "lies above \"high\".");
    }
    Known known = Known.DERIVED;
    for (Known k : Known.values()) {
      known = k.word().equals(text(s, "known")) ? k : known;
    }
    return new Estimate(s.number("value", -most, most), low, high, value.unit(), known);
  }

  private static boolean isNumber(JsonSection s, String key) {
    return s.content().get(key) instanceof Double;
  }

  private static CoilCurve curve(JsonSection s) {
    double[] decibel = numbers(s, "decibel");
    double[] low = numbers(s, "low");
    double[] high = numbers(s, "high");
    if (low.length != decibel.length || high.length != decibel.length) {
      throw s.wrong("low", "and \"high\" must be as long as \"decibel\".");
    }
    return new CoilCurve(decibel, low, high);
  }

  private static double[] numbers(JsonSection s, String key) {
    if (!(s.content().get(key) instanceof List<?> list)
        || !list.stream().allMatch(Double.class::isInstance)) {
      throw s.wrong(key, "must be a list of numbers.");
    }
    return list.stream().mapToDouble(d -> (Double) d).toArray();
  }
}
