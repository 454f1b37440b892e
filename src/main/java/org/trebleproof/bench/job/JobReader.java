package org.trebleproof.bench.job;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Supplier;
import org.trebleproof.file.FileTrouble;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonSection;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;

/**
 * Reads job files. Every key is known, every name that is used is defined, every file that is named
 * is there; nothing is added in silence.
 */
public final class JobReader {

  static final List<String> KEYS =
      List.of(
          JsonFile.VERSION_KEY,
          "title",
          "fixture",
          "mainsHz",
          "parts",
          "setups",
          "captures",
          "plans",
          "hum",
          "customer",
          "instrument",
          "bench");

  static final List<String> HUM_KEYS = List.of("now", "after");

  /** States of which silence is recorded, by the names that the hum check has for them. */
  static final List<String> HUM_STATES =
      List.of("hands-off", "on-strings", "on-sleeve", "volume-zero", "no-lead", "turned");

  static final List<String> CAPTURE_KEYS =
      List.of(
          "id",
          "file",
          "setup",
          "across",
          "temperature",
          "sampleRate",
          "otherGain",
          "channelsSwapped");

  /** A mains frequency stays within this of 50 or 60 Hz, even on a generator. [Hz] */
  private static final double MAINS_WANDER = 3;

  /** [Hz] */
  private static final double LEAST_RATE = 8000;

  private static final double MOST_RATE = 768000;

  private final Path file;
  private final JsonSection top;
  private final List<Finding> notes = new ArrayList<>();
  private final List<String> assumed = new ArrayList<>();
  private final boolean unrecorded;

  private JobReader(Path file, JsonSection top, boolean unrecorded) {
    this.file = file;
    this.top = top;
    this.unrecorded = unrecorded;
  }

  /**
   * Reads a job file some or all of whose recordings are still to be made: their files need not be
   * there yet, and there may be no captures at all.
   *
   * @throws Refusal as above
   */
  public static Job readBeforeRecording(Path file) {
    JsonSection top = JsonFile.read(file, "job file", JobFileException::new);
    return new JobReader(file, top.only(KEYS), true).job(LocalDate::now);
  }

  /**
   * Reads a job file.
   *
   * @throws Refusal if it cannot be used ({@link JobFileException}, or that of the calibration file
   *     it names), in one sentence
   */
  public static Job read(Path file) {
    return read(file, Map.of());
  }

  /**
   * Reads a job file, taking what it does not say from elsewhere.
   *
   * @param options values for keys of the file by their place, from the top such as {@code fixture,
   *     input, resistance}; texts, {@link Double} or {@link Boolean} as the key wants. Where the
   *     file says something itself the file counts, with a note.
   */
  public static Job read(Path file, Map<List<String>, Object> options) {
    return read(file, options, LocalDate::now);
  }

  static Job read(Path file, Map<List<String>, Object> options, Supplier<LocalDate> today) {
    JsonSection top = JsonFile.read(file, "job file", JobFileException::new);
    List<Finding> ignored = new ArrayList<>();
    Map<String, Object> content = top.content();
    options.forEach(
        (place, value) -> {
          if (!add(content, place, value)) {
            ignored.add(
                Finding.of(
                    FindingCode.OPTION_IGNORED,
                    "The job file states "
                        + String.join(".", place)
                        + " itself, so the option is not used.",
                    String.valueOf(value),
                    "Change the job file, or leave the option out."));
          }
        });
    JobReader reader = new JobReader(file, top.with(content).only(KEYS), false);
    reader.notes.addAll(ignored);
    return reader.job(today);
  }

  /**
   * Reads a job that is still being written.
   *
   * @param file where it is, or would be: names of sound files count from its folder
   * @param content as the file would hold it: texts, doubles, booleans, lists and maps
   * @throws Refusal if it cannot be used yet, in one sentence
   */
  public static Job of(Path file, Map<String, Object> content) {
    JsonSection top =
        JsonFile.of(String.valueOf(file.getFileName()), content, "job file", JobFileException::new);
    return new JobReader(file, top.only(KEYS), false).job(LocalDate::now);
  }

  /**
   * Reads a job that is still being written and recorded: sound files need not be there yet.
   *
   * @throws Refusal as above
   */
  public static Job beforeRecording(Path file, Map<String, Object> content) {
    JsonSection top =
        JsonFile.of(String.valueOf(file.getFileName()), content, "job file", JobFileException::new);
    return new JobReader(file, top.only(KEYS), true).job(LocalDate::now);
  }

  /**
   * Content of a job file with values for some of its keys.
   *
   * @param options by their place, as above; what the content says itself stays
   */
  public static Map<String, Object> with(
      Map<String, Object> content, Map<List<String>, Object> options) {
    Map<String, Object> more = new LinkedHashMap<>(content);
    options.forEach((place, value) -> add(more, place, value));
    return more;
  }

  /** Adds a value unless one is there; whether it was added. */
  private static boolean add(Map<String, Object> into, List<String> place, Object value) {
    String key = place.get(0);
    if (place.size() == 1) {
      return into.putIfAbsent(key, value) == null;
    }
    Object inner = into.get(key);
    if (inner != null && !(inner instanceof Map<?, ?>)) {
      return false;
    }
    Map<String, Object> copy = new LinkedHashMap<>();
    if (inner instanceof Map<?, ?> map) {
      map.forEach((k, v) -> copy.put((String) k, v));
    }
    into.put(key, copy);
    return add(copy, place.subList(1, place.size()), value);
  }

  /** Recordings of silence go with the job, for the hum check alone: only their keys are held. */
  private void checkHum() {
    Optional<JsonSection> hum = top.optionalSection("hum").map(h -> h.only(HUM_KEYS));
    for (String when : HUM_KEYS) {
      hum.flatMap(h -> h.optionalSection(when))
          .map(h -> h.only(HUM_STATES))
          .ifPresent(states -> states.keys().forEach(states::text));
    }
  }

  private Job job(Supplier<LocalDate> today) {
    checkHum();
    FixtureReader fixtureReader =
        new FixtureReader(top.section("fixture"), folder(), today, assumed, notes);
    Fixture fixture = fixtureReader.read();
    PartReader parts = new PartReader(top.section("parts"), assumed);
    Map<String, Setup> setups = new SetupReader(top.section("setups"), parts, assumed).read();
    List<CaptureEntry> captures = captures(parts, setups);
    checkSecondPickups(parts, setups, captures);
    Map<String, Plan> plans =
        top.has("plans")
            ? new PlanSection(top.section("plans"), parts.parts(), setups).read()
            : Map.of();
    noteAssumed(assumed, notes);
    return new Job(
        top.optionalLine("title").orElse(stem()),
        file,
        fixture,
        mains(),
        parts.parts(),
        setups,
        captures,
        notes,
        fixtureReader.calibration(),
        plans,
        new Job.Heading(
            top.optionalText("customer"),
            top.optionalText("instrument"),
            top.optionalText("bench")));
  }

  private OptionalDouble mains() {
    if (!top.has("mainsHz")) {
      return OptionalDouble.empty();
    }
    double mains = top.number("mainsHz", Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
    if (!isMains(mains)) {
      throw top.wrong("mainsHz", "must lie near 50 or 60, the two there are.");
    }
    return OptionalDouble.of(mains);
  }

  /** Whether mains can have this frequency [Hz]. */
  public static boolean isMains(double hz) {
    return Math.min(Math.abs(hz - 50), Math.abs(hz - 60)) <= MAINS_WANDER;
  }

  private void checkSecondPickups(
      PartReader parts, Map<String, Setup> setups, List<CaptureEntry> captures) {
    Set<String> swept = new HashSet<>();
    captures.forEach(c -> swept.add(setups.get(c.setup()).pickup()));
    for (Setup setup : setups.values()) {
      String second = setup.extras().secondPickup().orElse("");
      if (!second.isEmpty() && !swept.contains(second) && !parts.parts().get(second).known()) {
        throw top.section("setups")
            .wrong(
                setup.name(),
                "has "
                    + Refusal.quote(second)
                    + " on as well, of which nothing is known: sweep it in a setup of its own, or"
                    + " state its resistance, inductance and capacitance in parts.");
      }
    }
  }

  static void noteAssumed(List<String> assumed, List<Finding> notes) {
    if (!assumed.isEmpty()) {
      notes.add(
          Finding.of(
              FindingCode.TOLERANCE_ASSUMED,
              "No tolerance is stated for "
                  + assumed.size()
                  + (assumed.size() == 1
                      ? " value, so the usual one is assumed."
                      : " values, so the usual ones are assumed."),
              String.join(", ", assumed),
              "State tolerances where you know them, such as \"250k 10%\"."));
    }
  }

  private List<CaptureEntry> captures(PartReader parts, Map<String, Setup> setups) {
    List<JsonSection> entries = top.sections("captures");
    if (entries.isEmpty() && !unrecorded) {
      throw top.wrong("captures", "is empty: name at least one recording.");
    }
    List<CaptureEntry> captures = new ArrayList<>();
    Set<String> ids = new HashSet<>();
    for (JsonSection entry : entries) {
      entry.only(CAPTURE_KEYS);
      String id = entry.text("id");
      entry.checkNames(List.of(id));
      if (!ids.add(id)) {
        throw entry.wrong("id", "is \"" + id + "\" like another capture's: give each its own.");
      }
      String setup = entry.text("setup");
      if (!setups.containsKey(setup)) {
        throw entry.wrong(
            "setup",
            "names "
                + Refusal.quote(setup)
                + ", which is no setup of this job"
                + JsonSection.nearest(setup, setups.keySet())
                    .map(n -> ": did you mean \"" + n + "\"?")
                    .orElse(": add it to setups."));
      }
      captures.add(
          new CaptureEntry(
              id,
              sound(entry),
              setup,
              across(entry, parts),
              entry.optionalTemperature("temperature"),
              handling(entry)));
    }
    return captures;
  }

  private static CaptureEntry.Handling handling(JsonSection entry) {
    return new CaptureEntry.Handling(
        entry.has("sampleRate")
            ? OptionalDouble.of(entry.number("sampleRate", LEAST_RATE, MOST_RATE))
            : OptionalDouble.empty(),
        entry.flag("otherGain", false),
        entry.flag("channelsSwapped", false));
  }

  private static List<String> across(JsonSection entry, PartReader parts) {
    List<String> names = entry.texts("across");
    for (String name : names) {
      parts.named(
          name, entry, "across", List.of(Part.Kind.CAPACITOR, Part.Kind.RESISTOR, Part.Kind.CABLE));
    }
    if (new HashSet<>(names).size() < names.size()) {
      throw entry.wrong("across", "names a part twice: it can be clipped on only once.");
    }
    return names;
  }

  private Path sound(JsonSection entry) {
    String name = entry.text("file");
    Path sound;
    try {
      sound = folder().resolve(name);
    } catch (InvalidPathException e) {
      throw entry.wrong("file", "is no file name: " + Refusal.quote(name) + ".");
    }
    if (Files.isDirectory(sound)) {
      throw entry.wrong("file", isFolder(name));
    }
    if (!unrecorded) {
      FileTrouble.reading(sound)
          .ifPresent(
              why -> {
                throw entry.wrong("file", "names " + Refusal.quote(name) + ", which " + why);
              });
    }
    return sound;
  }

  /** What is wrong with a sound file that is a folder. */
  static String isFolder(String name) {
    return "names " + Refusal.quote(name) + ", which is a folder: name the sound file in it.";
  }

  private Path folder() {
    // What a job from a pipe names is looked for where the program was started.
    boolean piped = Files.exists(file) && !Files.isRegularFile(file);
    Path parent = piped ? null : file.getParent();
    return parent == null ? Path.of("") : parent;
  }

  private String stem() {
    String name = String.valueOf(file.getFileName());
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }
}
