package org.trebleproof.desktop.draft;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobContent;
import org.trebleproof.bench.job.JobEdit;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.file.FileTurn;
import org.trebleproof.file.FilesInUse;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.LeadLength;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Refusal;

/**
 * A job file's content while it is being written; it need not make sense yet. Every edit gives a
 * new draft, so that an edit is undone by keeping the old one.
 *
 * @param source the job file, or where it would be: names of sound files count from its folder
 * @param filed whether the job file is there
 * @param content as in the file
 */
public record JobDraft(Path source, boolean filed, Map<String, Object> content) {

  private static final String TITLE = "title";
  private static final String FIXTURE = "fixture";
  private static final String PARTS = "parts";
  private static final String SETUPS = "setups";
  private static final String CAPTURES = "captures";
  private static final String PLANS = "plans";
  private static final String HUM = "hum";
  private static final String KIND = "kind";

  /** Keys of a setup under which no part is named. */
  private static final List<String> NO_PARTS =
      List.of(
          "extends",
          "tonePosition",
          "dcResistance",
          "bleedStyle",
          "tap",
          "joint",
          "phase",
          "output",
          "volumeWiring");

  private static final String LENGTH = "length";
  private static final String PART = "part";
  private static final String ROTATION = "rotation";

  private static final String FROM = "from";

  public JobDraft {
    content = Collections.unmodifiableMap(new LinkedHashMap<>(content));
  }

  /**
   * A part as it is written.
   *
   * @param kind pickup, pot, resistor, capacitor or cable
   * @param value its marking as text; empty for a pickup whose resistance nobody has read
   */
  public record PartLine(String name, String kind, String value) {

    /** What it is marked with. */
    public MarkedQuantity quantity() {
      return quantityOf(kind);
    }
  }

  /**
   * A capture as it is written.
   *
   * @param file as the job names it
   * @param setup empty while nobody has said what was recorded
   */
  public record CaptureLine(String id, String file, String setup, List<String> across) {}

  /**
   * A draft of some recordings that belong to no job yet. Nothing is assumed about how they were
   * recorded.
   */
  public static JobDraft ofRecordings(List<Path> recordings, String title, String pickup) {
    Path folder = recordings.get(0).toAbsolutePath().normalize().getParent();
    Map<String, Object> content = new LinkedHashMap<>();
    content.put(JsonFile.VERSION_KEY, 1.0);
    content.put(TITLE, title);
    content.put(FIXTURE, Map.of());
    content.put(PARTS, Map.of(pickup, Map.of(KIND, "pickup")));
    content.put(SETUPS, new LinkedHashMap<>());
    content.put(CAPTURES, List.of());
    JobDraft draft = new JobDraft(folder.resolve("job.json"), false, content);
    for (Path recording : recordings) {
      draft = draft.withRecording(recording);
    }
    return draft;
  }

  /** A draft of nothing yet, whose recordings are to lie in a folder. */
  public static JobDraft begun(Path folder, String title, String pickup, String setup) {
    Map<String, Object> content = new LinkedHashMap<>();
    content.put(JsonFile.VERSION_KEY, 1.0);
    content.put(TITLE, title);
    content.put(FIXTURE, Map.of());
    content.put(PARTS, Map.of(pickup, Map.of(KIND, "pickup")));
    content.put(SETUPS, Map.of(setup, Map.of("pickup", pickup)));
    content.put(CAPTURES, List.of());
    return new JobDraft(folder.resolve("job.json"), false, content);
  }

  /**
   * The draft of a job file.
   *
   * @throws Refusal if it is no JSON of this format
   */
  public static JobDraft read(Path file) {
    return new JobDraft(
        file.toAbsolutePath().normalize(),
        true,
        JsonFile.read(file, "job file", Refusal::new).content());
  }

  /**
   * The job it makes.
   *
   * @throws Refusal if it makes none yet, in one sentence
   */
  public Job job() {
    return JobReader.of(source, content);
  }

  /**
   * The job it makes, with recordings that are still to be made.
   *
   * @throws Refusal if it makes none yet
   */
  public Job jobBeforeRecording() {
    return JobReader.beforeRecording(source, content);
  }

  /**
   * Writes the job file, whole or not at all.
   *
   * @throws Refusal if that cannot be done
   */
  public void write() {
    StateFolder.made(folder());
    FilesInUse files = new FilesInUse();
    files.savesJob("", source);
    FileTurn.during(
        source,
        () -> {
          files.write("", JsonWriter.file(json -> json.content(content)));
          return source;
        });
  }

  /** The same with some things about it said otherwise. */
  public JobDraft with(List<JobEdit> edits) {
    return new JobDraft(source, filed, JobContent.with(content, edits));
  }

  public String title() {
    return text(content, TITLE);
  }

  /** A text of the heading, such as {@code customer}; empty when it is not there. */
  public String heading(String key) {
    return text(content, key);
  }

  /** How the captures were taken: series, exciter, strike, or empty while nobody has said so. */
  public String fixtureKind() {
    return text(section(FIXTURE), KIND);
  }

  /** A text of the fixture, such as {@code seriesResistance}; empty when it is not there. */
  public String fixtureText(String key) {
    return text(section(FIXTURE), key);
  }

  /** A text of the recorder's input; empty when it is not there. */
  public String inputText(String key) {
    return section(FIXTURE).get("input") instanceof Map<?, ?> input
        ? String.valueOf(input.containsKey(key) ? input.get(key) : "")
        : "";
  }

  public List<PartLine> parts() {
    List<PartLine> lines = new ArrayList<>();
    section(PARTS)
        .forEach(
            (name, value) -> {
              Map<String, Object> part = map(value);
              String kind = text(part, KIND);
              String length = kind.equals("cable") ? text(part, LENGTH) : "";
              lines.add(
                  new PartLine(name, kind, length.isEmpty() ? text(part, valueKey(kind)) : length));
            });
    return lines;
  }

  /** What a part is marked with; empty where nothing is. */
  public String valueOfPart(String name) {
    return parts().stream()
        .filter(p -> p.name().equals(name))
        .map(PartLine::value)
        .findFirst()
        .orElse("");
  }

  /** Names of the parts of a kind. */
  public List<String> parts(String kind) {
    return parts().stream().filter(p -> p.kind().equals(kind)).map(PartLine::name).toList();
  }

  public List<String> setups() {
    return List.copyOf(section(SETUPS).keySet());
  }

  /** The part in a place of a setup, also where the setup takes it over from another. */
  public Optional<String> placed(String setup, String place) {
    Object value = written(setup, place);
    Object name = value instanceof Map<?, ?> pot ? pot.get(PART) : value;
    return Optional.ofNullable(name).map(String::valueOf);
  }

  /** Where a pot of a setup stands, from 0 to 1; full up where nothing is said. */
  public double rotation(String setup, String place) {
    return written(setup, place) instanceof Map<?, ?> pot
            && pot.get(ROTATION) instanceof Number turned
        ? turned.doubleValue()
        : 1;
  }

  /** What stands at a key of a setup, or of the one it takes it over from; null for nothing. */
  private Object written(String setup, String key) {
    Map<String, Object> own = map(section(SETUPS).get(setup));
    for (int depth = 0; depth < section(SETUPS).size(); depth++) {
      if (own.containsKey(key)) {
        return own.get(key);
      }
      if (!(own.get("extends") instanceof String base)) {
        break;
      }
      own = map(section(SETUPS).get(base));
    }
    return null;
  }

  /** An ohmmeter's reading in a setup; empty when there is none. */
  public String setupText(String setup, String key) {
    return text(map(section(SETUPS).get(setup)), key);
  }

  public List<CaptureLine> captures() {
    List<CaptureLine> lines = new ArrayList<>();
    for (Object entry : list(content.get(CAPTURES))) {
      Map<String, Object> capture = map(entry);
      lines.add(
          new CaptureLine(
              text(capture, "id"),
              text(capture, "file"),
              text(capture, "setup"),
              list(capture.get("across")).stream().map(String::valueOf).toList()));
    }
    return lines;
  }

  /** What would be changed next, as a plan of that name says it; empty where there is none. */
  public Map<String, String> plan(String name) {
    Map<String, String> changes = new LinkedHashMap<>();
    map(section(PLANS).get(name))
        .forEach(
            (key, value) -> {
              if (!key.equals(FROM)) {
                changes.put(key, String.valueOf(value));
              }
            });
    return changes;
  }

  /** With a plan that changes a setup; without changes there is no plan of that name. */
  public JobDraft withPlan(String name, String setup, Map<String, String> changes) {
    Map<String, Object> plan = new LinkedHashMap<>();
    plan.put(FROM, setup);
    plan.putAll(changes);
    Map<String, Object> plans = changed(section(PLANS), name, changes.isEmpty() ? null : plan);
    return with(PLANS, plans.isEmpty() ? null : plans);
  }

  /** Whether nothing but plans differs, which no measurement depends on. */
  public boolean measuresLike(JobDraft other) {
    return source.equals(other.source) && measured().equals(other.measured());
  }

  private Map<String, Object> measured() {
    return changed(changed(content, PLANS, null), HUM, null);
  }

  /**
   * A job of a coil alone that was recorded as this job's captures are, by the same bench.
   *
   * @throws Refusal if this job does not say how
   */
  public Map<String, Object> bareCoil(Path recording) {
    if (fixtureKind().isEmpty()) {
      throw new Refusal(Texts.of("shelf.fixture"));
    }
    Map<String, Object> fixture = section(FIXTURE);
    for (String file : List.of("calibration", "sweep", "loopback")) {
      fixture.computeIfPresent(
          file, (key, name) -> folder().resolve(String.valueOf(name)).toString());
    }
    String name = "coil";
    Map<String, Object> coil = new LinkedHashMap<>();
    coil.put(JsonFile.VERSION_KEY, 1.0);
    coil.put(TITLE, stem(recording));
    coil.put(FIXTURE, fixture);
    if (content.containsKey("mainsHz")) {
      coil.put("mainsHz", content.get("mainsHz"));
    }
    coil.put(PARTS, Map.of(name, Map.of(KIND, "pickup")));
    coil.put(SETUPS, Map.of(name, Map.of("pickup", name)));
    String file = recording.toAbsolutePath().normalize().toString();
    coil.put(CAPTURES, List.of(Map.of("id", name, "file", file, "setup", name)));
    return coil;
  }

  /** Recordings of silence by the key of their state, now or after a mod. */
  public Map<String, Path> silence(boolean after) {
    Map<String, Path> files = new LinkedHashMap<>();
    map(section(HUM).get(after ? "after" : "now"))
        .forEach((state, file) -> files.put(state, folder().resolve(String.valueOf(file))));
    return files;
  }

  /** With recordings of silence by the key of their state. */
  public JobDraft withSilence(Map<String, Path> now, Map<String, Path> after) {
    Map<String, Object> hum = new LinkedHashMap<>();
    put(hum, "now", now);
    put(hum, "after", after);
    return with(HUM, hum.isEmpty() ? null : hum);
  }

  private void put(Map<String, Object> hum, String when, Map<String, Path> files) {
    Map<String, Object> named = new LinkedHashMap<>();
    files.forEach((state, file) -> named.put(state, named(file)));
    if (!named.isEmpty()) {
      hum.put(when, named);
    }
  }

  public JobDraft withTitle(String title) {
    return with(TITLE, title);
  }

  /** With a text of the heading, such as {@code customer}; an empty one takes it away. */
  public JobDraft withHeading(String key, String text) {
    return text.isBlank()
        ? new JobDraft(source, filed, changed(content, key, null))
        : with(key, text.strip());
  }

  /** With a text of the fixture; an empty one takes it away. */
  public JobDraft withFixture(String key, String text) {
    return with(FIXTURE, changed(section(FIXTURE), key, text.isBlank() ? null : text.strip()));
  }

  /** With another kind of fixture, and without what only the old kind knows. */
  public JobDraft withFixtureKind(String kind) {
    Map<String, Object> fixture = section(FIXTURE);
    if (!kind.equals("series")) {
      fixture = changed(fixture, "seriesResistance", null);
    }
    if (kind.equals("strike")) {
      for (String key : List.of("referenceChannel", "channels", "sweep", "coilFixed")) {
        fixture = changed(fixture, key, null);
      }
    }
    return with(FIXTURE, changed(fixture, KIND, kind));
  }

  /** With a text of the recorder's input; an empty one takes it away. */
  public JobDraft withInput(String key, String text) {
    Map<String, Object> input =
        changed(map(section(FIXTURE).get("input")), key, text.isBlank() ? null : text.strip());
    return with(FIXTURE, changed(section(FIXTURE), "input", input.isEmpty() ? null : input));
  }

  /** With a part's marking. */
  public JobDraft withPartValue(String name, String text) {
    Map<String, Object> part = map(section(PARTS).get(name));
    String kind = text(part, KIND);
    Map<String, Object> bare = changed(changed(part, LENGTH, null), valueKey(kind), null);
    return withPart(
        name, changed(bare, valueKey(kind, text), text.isBlank() ? null : text.strip()));
  }

  /** With one more part. */
  public JobDraft withNewPart(String name, String kind, String value) {
    Map<String, Object> part = new LinkedHashMap<>();
    part.put(KIND, kind);
    if (!value.isBlank()) {
      part.put(valueKey(kind, value), value.strip());
    }
    return withPart(name, part);
  }

  /** Without a part; where it is used, that is gone too. */
  public JobDraft withoutPart(String name) {
    JobDraft draft = with(PARTS, changed(section(PARTS), name, null));
    for (String setup : setups()) {
      for (String place : places(setup)) {
        if (placed(setup, place).filter(name::equals).isPresent()) {
          draft = draft.withPlaced(setup, place, "");
        }
      }
    }
    for (CaptureLine capture : captures()) {
      if (capture.across().contains(name)) {
        draft =
            draft.withAcross(
                capture.id(), capture.across().stream().filter(a -> !a.equals(name)).toList());
      }
    }
    return draft;
  }

  private List<String> places(String setup) {
    List<String> places = new ArrayList<>(List.of("volume", "tone", "toneCapacitor", "cable"));
    places.addAll(map(section(SETUPS).get(setup)).keySet());
    places.removeAll(NO_PARTS);
    places.remove("pickup");
    return places;
  }

  /** With a part under another name, wherever it is named. */
  public JobDraft withPartRenamed(String name, String fresh) {
    return with(PARTS, renamed(section(PARTS), name, fresh))
        .withEach(SETUPS, NO_PARTS, name, fresh)
        .withEach(PLANS, List.of(FROM), name, fresh)
        .with(
            CAPTURES,
            list(content.get(CAPTURES)).stream()
                .map(c -> swapped(map(c), List.of("id", "file", "setup"), name, fresh))
                .map(Object.class::cast)
                .toList());
  }

  /** With a setup under another name, wherever it is named. */
  public JobDraft withSetupRenamed(String name, String fresh) {
    List<Object> captures = new ArrayList<>();
    for (Object entry : list(content.get(CAPTURES))) {
      Map<String, Object> capture = map(entry);
      captures.add(text(capture, "setup").equals(name) ? changed(capture, "setup", fresh) : entry);
    }
    Map<String, Object> setups = renamed(section(SETUPS), name, fresh);
    setups.replaceAll((key, setup) -> followed(map(setup), "extends", name, fresh));
    Map<String, Object> plans = section(PLANS);
    plans.replaceAll((key, plan) -> followed(map(plan), FROM, name, fresh));
    return with(SETUPS, setups)
        .with(PLANS, plans.isEmpty() ? null : plans)
        .with(CAPTURES, captures);
  }

  /** With a capture under another name. */
  public JobDraft withCaptureRenamed(String id, String fresh) {
    return withCapture(id, "id", fresh);
  }

  private static Map<String, Object> followed(
      Map<String, Object> from, String key, String name, String fresh) {
    return text(from, key).equals(name) ? changed(from, key, fresh) : from;
  }

  private static Map<String, Object> renamed(Map<String, Object> from, String name, String fresh) {
    Map<String, Object> renamed = new LinkedHashMap<>();
    from.forEach((key, value) -> renamed.put(key.equals(name) ? fresh : key, value));
    return renamed;
  }

  private JobDraft withEach(String key, List<String> besides, String name, String fresh) {
    Map<String, Object> all = section(key);
    all.replaceAll((k, one) -> swapped(map(one), besides, name, fresh));
    return with(key, all.isEmpty() && !content.containsKey(key) ? null : all);
  }

  /** Another name in all values but some, also within the values. */
  private static Map<String, Object> swapped(
      Map<String, Object> from, List<String> besides, String name, String fresh) {
    Map<String, Object> swapped = new LinkedHashMap<>();
    from.forEach(
        (key, value) ->
            swapped.put(key, besides.contains(key) ? value : swapped(value, name, fresh)));
    return swapped;
  }

  private static Object swapped(Object value, String name, String fresh) {
    if (value instanceof List<?> all) {
      return all.stream().map(v -> swapped(v, name, fresh)).toList();
    }
    if (value instanceof Map<?, ?>) {
      return swapped(map(value), List.of(), name, fresh);
    }
    return name.equals(value) ? fresh : value;
  }

  private JobDraft withPart(String name, Map<String, Object> part) {
    return with(PARTS, changed(section(PARTS), name, part));
  }

  /** With a part in a place of a setup; an empty name takes it away. */
  public JobDraft withPlaced(String setup, String place, String part) {
    Map<String, Object> own = map(section(SETUPS).get(setup));
    Map<String, Object> next = new LinkedHashMap<>(own);
    if (!part.isEmpty()) {
      // Another pot in a place stands where the one before it stood.
      double rotation = rotation(setup, place);
      next.put(place, rotation == 1 ? part : Map.of(PART, part, ROTATION, rotation));
    } else if (own.containsKey("extends")) {
      next.put(place, null);
    } else {
      next.remove(place);
    }
    return with(SETUPS, changed(section(SETUPS), setup, next));
  }

  /** With a pot of a setup turned, from 0 to 1. */
  public JobDraft withRotation(String setup, String place, double rotation) {
    Optional<String> part = placed(setup, place);
    if (part.isEmpty()) {
      return this;
    }
    Map<String, Object> turned = new LinkedHashMap<>();
    turned.put(PART, part.get());
    turned.put(ROTATION, rotation);
    return with(
        SETUPS,
        changed(
            section(SETUPS),
            setup,
            changed(map(section(SETUPS).get(setup)), place, rotation == 1 ? part.get() : turned)));
  }

  /**
   * With a switch or a way of wiring set.
   *
   * @param usual what holds where nothing is written
   */
  public JobDraft withSetupChoice(String setup, String key, String word, String usual) {
    boolean unsaid = word.equals(usual) && !map(section(SETUPS).get(setup)).containsKey("extends");
    return withSetupText(setup, key, unsaid ? "" : word);
  }

  /** With an ohmmeter's reading in a setup; an empty text takes it away. */
  public JobDraft withSetupText(String setup, String key, String text) {
    Map<String, Object> own = map(section(SETUPS).get(setup));
    Map<String, Object> next = changed(own, key, text.isBlank() ? null : text.strip());
    return with(SETUPS, changed(section(SETUPS), setup, next));
  }

  /**
   * With one more setup, like the last one but for its name. Captures that are of none yet and
   * begin with its name are taken to be of it.
   */
  public JobDraft withNewSetup(String name) {
    List<String> all = setups();
    Map<String, Object> setup = new LinkedHashMap<>();
    if (all.isEmpty()) {
      parts("pickup").stream().findFirst().ifPresent(p -> setup.put("pickup", p));
    } else {
      String last = all.get(all.size() - 1);
      setup.putAll(map(section(SETUPS).get(last)));
      setup.remove("dcResistance");
    }
    JobDraft draft = with(SETUPS, changed(section(SETUPS), name, setup));
    for (CaptureLine capture : captures()) {
      if (capture.setup().isEmpty() && capture.id().startsWith(name)) {
        draft = draft.withCaptureSetup(capture.id(), name);
      }
    }
    return draft;
  }

  /** Without a setup; its captures wait for another. */
  public JobDraft withoutSetup(String name) {
    JobDraft draft = with(SETUPS, changed(section(SETUPS), name, null));
    for (CaptureLine capture : captures()) {
      if (capture.setup().equals(name)) {
        draft = draft.withCapture(capture.id(), "setup", "");
      }
    }
    return draft;
  }

  /** With a recording as one more capture; in the only setup, if there is just one. */
  public JobDraft withRecording(Path recording) {
    List<String> taken = captures().stream().map(CaptureLine::id).toList();
    String stem = stem(recording);
    String id = stem;
    for (int n = 2; taken.contains(id); n++) {
      id = stem + " " + n;
    }
    Map<String, Object> capture = new LinkedHashMap<>();
    capture.put("id", id);
    capture.put("file", named(recording));
    String setup =
        setups().size() == 1
            ? setups().get(0)
            : setups().stream().filter(s -> stem.startsWith(s)).findFirst().orElse("");
    capture.put("setup", setup);
    List<Object> captures = new ArrayList<>(list(content.get(CAPTURES)));
    captures.add(capture);
    return with(CAPTURES, captures);
  }

  /** With a recording just made as a capture, instead of one of that name if there is one. */
  public JobDraft withCapture(String id, Path recording, String setup, List<String> across) {
    Map<String, Object> capture = new LinkedHashMap<>();
    capture.put("id", id);
    capture.put("file", named(recording));
    capture.put("setup", setup);
    if (!across.isEmpty()) {
      capture.put("across", List.copyOf(across));
    }
    List<Object> captures = new ArrayList<>(withoutCapture(id).captureList());
    captures.add(capture);
    return with(CAPTURES, captures);
  }

  private List<Object> captureList() {
    return list(content.get(CAPTURES));
  }

  /** A capture moved to another setup. */
  public JobDraft withCaptureSetup(String id, String setup) {
    return withCapture(id, "setup", setup);
  }

  /** What is clipped across the jack for a capture. */
  public JobDraft withAcross(String id, List<String> parts) {
    return withCapture(id, "across", parts.isEmpty() ? null : List.copyOf(parts));
  }

  private JobDraft withCapture(String id, String key, Object value) {
    List<Object> captures = new ArrayList<>();
    for (Object entry : list(content.get(CAPTURES))) {
      Map<String, Object> capture = map(entry);
      captures.add(text(capture, "id").equals(id) ? changed(capture, key, value) : entry);
    }
    return with(CAPTURES, captures);
  }

  /** Without a capture; its file stays where it is. */
  public JobDraft withoutCapture(String id) {
    return with(
        CAPTURES,
        list(content.get(CAPTURES)).stream().filter(c -> !text(map(c), "id").equals(id)).toList());
  }

  /** The same job as it stands in a file elsewhere: the sound files are named from there. */
  public JobDraft filedAt(Path file) {
    Path place = file.toAbsolutePath().normalize();
    JobDraft moved = new JobDraft(place, true, content);
    List<Object> captures = new ArrayList<>();
    for (Object entry : list(content.get(CAPTURES))) {
      Map<String, Object> capture = map(entry);
      Path sound = folder().resolve(text(capture, "file"));
      captures.add(changed(capture, "file", moved.named(sound)));
    }
    return moved.with(CAPTURES, captures).withSilence(silence(false), silence(true));
  }

  /** The file of a capture. */
  public Path file(CaptureLine capture) {
    return folder().resolve(capture.file());
  }

  private Path folder() {
    Path parent = source.getParent();
    return parent == null ? Path.of("") : parent;
  }

  /** A sound file as the job names it: from its folder where it lies in or below it. */
  private String named(Path sound) {
    Path whole = sound.toAbsolutePath().normalize();
    Path folder = folder().toAbsolutePath().normalize();
    return whole.startsWith(folder)
        ? folder.relativize(whole).toString().replace('\\', '/')
        : whole.toString();
  }

  private static String stem(Path file) {
    String name = String.valueOf(file.getFileName());
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }

  /** Under which key a part states this value: a lead may be stated by its length. */
  private static String valueKey(String kind, String value) {
    return kind.equals("cable") && LeadLength.isMeant(value) ? LENGTH : valueKey(kind);
  }

  /** Under which key a part of a kind states its value. */
  private static String valueKey(String kind) {
    return switch (kind) {
      case "pickup" -> "resistance";
      case "cable" -> "capacitance";
      default -> "value";
    };
  }

  /** What a part of a kind is marked with. */
  public static MarkedQuantity quantityOf(String kind) {
    return switch (kind) {
      case "pickup" -> MarkedQuantity.PICKUP_RESISTANCE;
      case "pot" -> MarkedQuantity.POT;
      case "capacitor" -> MarkedQuantity.CAPACITOR;
      case "cable" -> MarkedQuantity.CABLE;
      default -> MarkedQuantity.RESISTOR;
    };
  }

  private JobDraft with(String key, Object value) {
    return new JobDraft(source, filed, changed(content, key, value));
  }

  private Map<String, Object> section(String key) {
    return map(content.get(key));
  }

  private static Map<String, Object> changed(Map<String, Object> from, String key, Object value) {
    Map<String, Object> changed = new LinkedHashMap<>(from);
    if (value == null) {
      changed.remove(key);
    } else {
      changed.put(key, value);
    }
    return changed;
  }

  private static Map<String, Object> map(Object value) {
    Map<String, Object> copy = new LinkedHashMap<>();
    if (value instanceof Map<?, ?> map) {
      map.forEach((key, inner) -> copy.put(String.valueOf(key), inner));
    }
    return copy;
  }

  private static List<Object> list(Object value) {
    return value instanceof List<?> list ? new ArrayList<>(list) : List.of();
  }

  private static String text(Map<String, Object> from, String key) {
    return from.get(key) instanceof String text ? text : "";
  }
}
