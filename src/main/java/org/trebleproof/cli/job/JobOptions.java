package org.trebleproof.cli.job;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Stream;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobOutline;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.job.JobSketch;
import org.trebleproof.bench.job.QuickJob;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.cli.command.TradeNumber;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.file.KnownContent;
import org.trebleproof.fixture.CalibrationFile;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import picocli.CommandLine.Model.ArgGroupSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/**
 * The job of a command: a job file with options for what it does not say, or recordings with
 * options for all the rest.
 */
public final class JobOptions {

  private static final List<String> SOUND_ENDINGS =
      List.of(
          ".wav", ".wave", ".flac", ".aif", ".aiff", ".aifc", ".ogg", ".oga", ".opus", ".mp3",
          ".m4a", ".aac", ".caf", ".amr");

  /** Options that not every kind of fixture has, by their key in a job file. */
  private static final Map<String, String> FIXTURE_OPTIONS =
      new TreeMap<>(
          Map.of(
              "--series-resistance", "seriesResistance",
              "--channel-ratio", "channels",
              "--channel-delay", "channels",
              "--reference-channel", "referenceChannel",
              "--coil-fixed", "coilFixed"));

  private static final String STRIKE = "strike";
  private static final String CLIPPED = "--clipped";

  private static final String NOT_SAID_WHAT =
      "--clipped needs to know what was clipped on: add --clip \"1n 1%\", or what it is.";

  static final String NO_RESISTOR =
      "the series fixture needs its resistor: add --series-resistance 100k, with a tolerance if you"
          + " know it.";

  private static final double USUAL_DELAY_HALF_WIDTH = 2e-6;

  private final ParseResult given;

  private JobOptions(ParseResult given) {
    this.given = given;
  }

  static void addTo(CommandSpec spec) {
    addTo(spec, "Job file, or one recording (WAV, FLAC, AIFF).");
    spec.addArgGroup(
        SketchOptions.group(
                "For one recording without a job file; without --now it is of a bare pickup:")
            .addArg(SketchOptions.now())
            .addArg(SketchOptions.clip())
            .addArg(clipped())
            .build());
  }

  /** The same for a command that wants two recordings where it gets no job file. */
  static void addPair(CommandSpec spec) {
    addTo(spec, "Job file, or the recording before the change (WAV, FLAC, AIFF).");
    addAfter(spec);
  }

  private static void addTo(CommandSpec spec, String description) {
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("JOB")
            .index("0")
            .arity("1")
            .required(true)
            .type(Path.class)
            .description(description)
            .build());
    spec.addArgGroup(
        bench("%nWhat the job file does not say, or for a recording without one:%n")
            .addArg(
                OptionSpec.builder("--pickup")
                    .paramLabel("FILE")
                    .type(Path.class)
                    .description(
                        "Pickup of a job of pick strikes as it was fitted before: that job, or a"
                            + " guitar kept by --save.")
                    .build())
            .build());
  }

  /**
   * Options for one recording without a job file, in a command that takes other things too and has
   * an option of its own that says what is wired.
   */
  public static void addRecording(CommandSpec spec) {
    spec.addArgGroup(
        bench(
                "%nFor a recording without a job file, of what --now says is wired, or of a bare"
                    + " pickup:%n")
            .addArg(SketchOptions.clip())
            .addArg(clipped())
            .build());
  }

  /**
   * The job of such a recording: of what the options say is wired, else of a bare pickup.
   *
   * @throws WrongUsage where an option is missing
   */
  public static Job recording(ParseResult given, Path sound) {
    JobOptions options = new JobOptions(given);
    Map<Slot, String> now = SketchOptions.wired(given, SketchOptions.NOW);
    if (now.isEmpty() && !given.hasMatchedOption(SketchOptions.CLIP)) {
      if (given.hasMatchedOption(CLIPPED)) {
        throw new WrongUsage(NOT_SAID_WHAT);
      }
      return options.quickJob(sound);
    }
    checkKind(options.value("--fixture").orElse(""), "say how the recording was made");
    SketchOptions.check(now, Map.of());
    return options.sketched(sound, Optional.empty(), now, Map.of());
  }

  /**
   * Refuses options that do not say how recordings of bare pickups were made.
   *
   * @throws WrongUsage where one is missing
   */
  public static void checkRecordings(ParseResult given) {
    JobOptions options = new JobOptions(given);
    String kind = options.value("--fixture").orElse("");
    if (kind.isEmpty()) {
      throw new WrongUsage(
          "say how the recordings were made: add --fixture series or --fixture exciter.");
    }
    checkKind(kind, "");
    if (kind.equals(STRIKE)) {
      throw new WrongUsage(
          "--fixture strike: pick strikes do not tell a coil by itself; sweep it through a series"
              + " resistor or by an exciter coil.");
    }
    if (kind.equals("series") && options.value("--series-resistance").isEmpty()) {
      throw new WrongUsage(NO_RESISTOR);
    }
  }

  /**
   * The recording of a bare pickup as a job file would hold it.
   *
   * @param celsius temperature of the coil, where it is known
   */
  public static Map<String, Object> bareCoil(
      ParseResult given, Path sound, OptionalDouble celsius) {
    return bareCoil(given, sound, celsius, Map.of());
  }

  /**
   * The same, made as others were before in all that the options do not say.
   *
   * @param usual fixture of those, as a job file holds it; empty for none
   */
  public static Map<String, Object> bareCoil(
      ParseResult given, Path sound, OptionalDouble celsius, Map<String, Object> usual) {
    QuickJob.checkThere(sound);
    return bareCoilToCome(given, sound, celsius, usual);
  }

  private static void leaves(List<String> place, Map<?, ?> map, Map<List<String>, Object> into) {
    map.forEach(
        (key, value) -> {
          List<String> here = new ArrayList<>(place);
          here.add(String.valueOf(key));
          if (value instanceof Map<?, ?> inner) {
            leaves(here, inner, into);
          } else {
            into.put(here, value);
          }
        });
  }

  /** The same of a recording that is still to be made. */
  public static Map<String, Object> bareCoilToCome(
      ParseResult given, Path sound, OptionalDouble celsius) {
    return bareCoilToCome(given, sound, celsius, Map.of());
  }

  private static Map<String, Object> bareCoilToCome(
      ParseResult given, Path sound, OptionalDouble celsius, Map<String, Object> usual) {
    JobSketch sketch =
        new JobSketch(
            Map.of(),
            Map.of(),
            Optional.empty(),
            Optional.empty(),
            List.of(sound.toAbsolutePath().toString()));
    Map<String, Object> content =
        with(
            given,
            new JobOptions(given)
                .value("--fixture")
                .orElseGet(() -> String.valueOf(usual.getOrDefault("kind", ""))),
            sketch);
    Map<List<String>, Object> own = new LinkedHashMap<>();
    leaves(List.of("fixture"), usual, own);
    if (celsius.isPresent()) {
      own.put(
          List.of("setups", QuickJob.NAME, "temperature"),
          BigDecimal.valueOf(celsius.getAsDouble()).toPlainString() + " C");
    }
    Map<String, Object> titled = new LinkedHashMap<>(JobReader.with(content, own));
    titled.put("title", String.valueOf(sound.getFileName()));
    return titled;
  }

  /** How it was recorded: the options that say what a job's fixture says. */
  public static void addBench(CommandSpec spec) {
    spec.addArgGroup(bench("%nHow it is recorded:%n").build());
  }

  /** Whose guitar it is, for the head of the sheet. */
  static void addHeading(CommandSpec spec) {
    spec.addArgGroup(
        ArgGroupSpec.builder()
            .heading("%nFor the head of the sheet:%n")
            .exclusive(false)
            .multiplicity("0..1")
            .addArg(text("--customer", "NAME", "Whose guitar it is."))
            .addArg(text("--instrument", "WORDS", "Which guitar."))
            .addArg(text("--bench", "WORDS", "Where and by whom it was measured."))
            .build());
  }

  private static ArgGroupSpec.Builder bench(String heading) {
    return ArgGroupSpec.builder()
        .heading(heading)
        .exclusive(false)
        .multiplicity("0..1")
        .addArg(text("--fixture", "KIND", "How it was recorded: series, exciter or strike."))
        .addArg(text("--series-resistance", "OHM", "Series resistor, such as \"100k 0.1%%\"."))
        .addArg(text("--input-resistance", "OHM", "Recorder's input, such as \"1M 1%%\"."))
        .addArg(text("--input-capacitance", "FARAD", "Recorder's input, such as \"80p 3%%\"."))
        .addArg(
            text(
                "--channel-ratio",
                "RATIO",
                "Device over reference channel by loopback, such as \"1.0021 0.05%%\"."))
        .addArg(
            text(
                "--channel-delay",
                "TIME",
                "Extra delay of the device channel, such as \"0 0.02us\"."))
        .addArg(
            whole("--reference-channel", "Channel of the driven end, or of the exciter's current."))
        .addArg(whole("--device-channel", "Channel of the pickup."))
        .addArg(
            OptionSpec.builder("--coil-fixed")
                .type(Boolean.class)
                .arity("0")
                .description("The exciter coil stayed where it was for all captures.")
                .build())
        .addArg(
            OptionSpec.builder("--dc-resistance")
                .paramLabel("[SETUP=]OHM")
                .type(List.class)
                .auxiliaryTypes(String.class)
                .arity("1")
                .description(
                    "Ohmmeter reading at the coil or jack, such as \"5.57k 1%%\";"
                        + " once per setup.")
                .build())
        .addArg(TradeNumber.HZ.option("--mains").description("Mains frequency, 50 or 60.").build())
        .addArg(
            OptionSpec.builder("--calibration")
                .paramLabel("FILE")
                .type(Path.class)
                .description("Calibration file of the recorder.")
                .build());
  }

  private static OptionSpec clipped() {
    return OptionSpec.builder(CLIPPED)
        .paramLabel("FILE")
        .type(Path.class)
        .description("A further recording, with that capacitor clipped on and nothing changed.")
        .build();
  }

  /** A second recording, to be compared with the first without a job file. */
  private static void addAfter(CommandSpec spec) {
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("AFTER")
            .index("1")
            .arity("0..1")
            .type(Path.class)
            .description(
                "Without a job file: the recording after the change, JOB being the one before.")
            .build());
    SketchOptions.addTo(
        spec, "For two recordings without a job file; pick strikes do without all of it:");
    spec.addOption(clipped());
  }

  private static OptionSpec text(String name, String label, String description) {
    return OptionSpec.builder(name)
        .paramLabel(label)
        .type(String.class)
        .description(description)
        .build();
  }

  private static OptionSpec whole(String name, String description) {
    return OptionSpec.builder(name)
        .paramLabel("N")
        .type(Integer.class)
        .description(description)
        .build();
  }

  /** Where the job comes from. */
  static Path source(ParseResult given) {
    return given.matchedPositionalValue(0, null);
  }

  /** Whether a file is a recording, by the ending of its name or by what it begins with. */
  public static boolean isSound(Path file) {
    String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
    return SOUND_ENDINGS.stream().anyMatch(name::endsWith)
        || KnownContent.ofGiven(file).isPresent();
  }

  /** Reads the job. */
  static Job read(ParseResult given) {
    JobOptions options = new JobOptions(given);
    Path source = source(given);
    Optional<Path> after = Optional.ofNullable(given.matchedPositionalValue(1, null));
    if (isSound(source)) {
      return after
          .map(a -> options.pair(source, a))
          .orElseGet(() -> recording(given, source))
          .withHeading(options.heading());
    }
    for (String option :
        List.of(SketchOptions.NOW, SketchOptions.THEN, SketchOptions.CLIP, CLIPPED)) {
      if (given.hasMatchedOption(option)) {
        throw new WrongUsage(
            option
                + " is for recordings without a job file, but "
                + source.getFileName()
                + " says itself what is wired: leave the option out.");
      }
    }
    if (after.isPresent()) {
      throw new WrongUsage(
          Refusal.quote(after.get().toString())
              + " is one word too many: a job file names its recordings itself; leave it out.");
    }
    return JobReader.read(
        source, options.byPlace(JobOutline.of(source), String.valueOf(source.getFileName())));
  }

  /** Two recordings, before and after. */
  private Job pair(Path before, Path after) {
    String kind = value("--fixture").orElse("");
    checkKind(kind, "say how they were recorded, as there is no job file");
    Map<Slot, String> now = SketchOptions.wired(given, SketchOptions.NOW);
    Map<Slot, String> then = SketchOptions.wired(given, SketchOptions.THEN);
    if (kind.equals(STRIKE) && now.isEmpty() && then.isEmpty()) {
      return struck(before, after);
    }
    if (now.isEmpty() || then.isEmpty()) {
      throw new WrongUsage(
          "say what is wired and what was changed, such as --now"
              + " \"volume=250k,tone=250k,toneCapacitor=22n,cable=3 m\" --then volume=500k; sweeps"
              + " are held against the parts they went through.");
    }
    SketchOptions.check(now, then);
    return sketched(before, Optional.of(after), now, then);
  }

  private Job sketched(
      Path before, Optional<Path> after, Map<Slot, String> now, Map<Slot, String> then) {
    String kind = value("--fixture").orElseThrow();
    Optional<String> clip = SketchOptions.clip(given);
    Optional<Path> clipped = Optional.ofNullable(given.matchedOptionValue(CLIPPED, null));
    if (clip.isPresent() != clipped.isPresent()) {
      throw new WrongUsage(
          clip.isPresent()
              ? "--clip says what was clipped on, but not in which recording: add --clipped FILE."
              : NOT_SAID_WHAT);
    }
    if (kind.equals("series") && value("--series-resistance").isEmpty()) {
      throw new WrongUsage(NO_RESISTOR);
    }
    List<String> files = new ArrayList<>();
    for (Path file :
        Stream.of(Stream.of(before), clipped.stream(), after.stream()).flatMap(f -> f).toList()) {
      QuickJob.checkThere(file);
      files.add(file.toAbsolutePath().toString());
    }
    JobSketch sketch = new JobSketch(now, then, clip, Optional.empty(), files);
    Map<String, Object> content = new LinkedHashMap<>(with(given, kind, sketch));
    if (after.isEmpty()) {
      content.put("title", String.valueOf(before.getFileName()));
    }
    return JobReader.of(before, content);
  }

  static void checkKind(String kind, String missing) {
    if (kind.isEmpty()) {
      throw new WrongUsage(missing + ": add --fixture series, exciter or strike.");
    }
    if (!List.of("series", "exciter", STRIKE).contains(kind)) {
      throw new WrongUsage(
          "--fixture " + Refusal.quote(kind) + " is none of series, exciter, strike.");
    }
  }

  /** Whose guitar it is, as far as options say. */
  private Job.Heading heading() {
    return new Job.Heading(value("--customer"), value("--instrument"), value("--bench"));
  }

  /** Two recordings of strikes, before and after. */
  private Job struck(Path before, Path after) {
    for (String option : FIXTURE_OPTIONS.keySet()) {
      if (given.hasMatchedOption(option)) {
        throw new WrongUsage(option + " is of no use for pick strikes: leave it out.");
      }
    }
    if (!given.<List<String>>matchedOptionValue("--dc-resistance", List.of()).isEmpty()) {
      throw new WrongUsage(
          "--dc-resistance needs to know what is wired: write a job file, or leave it out.");
    }
    return QuickJob.strikes(
        before, after, given.matchedOptionValue("--device-channel", 1), known());
  }

  private Job quickJob(Path sound) {
    String kind = value("--fixture").orElse("");
    QuickJob.Known known = known();
    return switch (kind) {
      case "series" ->
          QuickJob.series(
              sound,
              marking("--series-resistance", MarkedQuantity.SERIES_RESISTOR)
                  .orElseThrow(() -> new WrongUsage(NO_RESISTOR)),
              known);
      case "exciter" -> QuickJob.exciter(sound, known);
      case STRIKE ->
          throw new WrongUsage(
              "--fixture strike: one recording of pick strikes needs to know what is wired, such as"
                  + " --now \"volume=250k,tone=250k,toneCapacitor=22n,cable=3 m\"; two are compared"
                  + " without: trebleproof compare "
                  + sound.getFileName()
                  + " AFTER.wav --fixture strike.");
      case "" ->
          throw new WrongUsage(
              "say how the recording was made, as there is no job file: add --fixture series"
                  + " or --fixture exciter; pick strikes are compared in pairs, by trebleproof"
                  + " compare BEFORE.wav AFTER.wav --fixture strike.");
      default ->
          throw new WrongUsage(
              "--fixture " + Refusal.quote(kind) + " is none of series, exciter, strike.");
    };
  }

  private QuickJob.Known known() {
    QuickJob.Known nothing = QuickJob.Known.NOTHING;
    Optional<Path> calibration =
        Optional.ofNullable(given.matchedOptionValue("--calibration", null));
    Double mains = mains();
    return new QuickJob.Known(
        given.matchedOptionValue("--reference-channel", nothing.referenceChannel()),
        given.matchedOptionValue("--device-channel", nothing.deviceChannel()),
        marking("--input-resistance", MarkedQuantity.INPUT_RESISTANCE),
        marking("--input-capacitance", MarkedQuantity.INPUT_CAPACITANCE),
        channels(),
        dcReading(),
        mains == null ? OptionalDouble.empty() : OptionalDouble.of(mains),
        calibration.map(CalibrationFile::read));
  }

  /** The mains frequency, null where it is not given [Hz]. */
  private Double mains() {
    Double mains = given.matchedOptionValue("--mains", null);
    if (mains != null && !JobReader.isMains(mains)) {
      throw new WrongUsage("--mains must lie near 50 or 60, the two there are.");
    }
    return mains;
  }

  private Optional<Fixture.ChannelMatch> channels() {
    Optional<Marking> ratio = marking("--channel-ratio", MarkedQuantity.GAIN_RATIO);
    Optional<double[]> delay =
        value("--channel-delay").map(read("--channel-delay", TradeNotation::channelDelay));
    if (ratio.isEmpty() && delay.isEmpty()) {
      return Optional.empty();
    }
    double[] time = delay.orElse(new double[] {0, Double.NaN});
    return Optional.of(
        new Fixture.ChannelMatch(
            ratio.orElseGet(() -> MarkedQuantity.GAIN_RATIO.unstated(1)),
            time[0],
            Double.isNaN(time[1]) ? USUAL_DELAY_HALF_WIDTH : time[1]));
  }

  private Optional<Marking> dcReading() {
    List<String> readings = given.matchedOptionValue("--dc-resistance", List.of());
    if (readings.size() > 1) {
      throw new WrongUsage("--dc-resistance: one recording has one reading; give it once.");
    }
    return readings.stream()
        .map(
            text -> {
              int equals = text.indexOf('=');
              String setup = equals < 0 ? QuickJob.NAME : text.substring(0, equals).strip();
              if (!setup.equals(QuickJob.NAME)) {
                throw new WrongUsage(
                    "--dc-resistance: there is no setup "
                        + Refusal.quote(setup)
                        + ": a recording without a job file has one only, so write the reading"
                        + " alone, such as \"5.57k 1%\".");
              }
              return text.substring(equals + 1);
            })
        .findFirst()
        .map(
            read(
                "--dc-resistance",
                text -> TradeNotation.marking(text, MarkedQuantity.DC_RESISTANCE)));
  }

  /**
   * The content of a job file with what options say of the bench.
   *
   * @param kind of fixture
   */
  static Map<String, Object> with(ParseResult given, String kind, JobSketch sketch) {
    JobOutline outline = new JobOutline(Optional.of(kind), new LinkedHashSet<>(sketch.setups()));
    return JobReader.with(
        JobReader.with(sketch.content(), Map.of(path("fixture.kind"), kind)),
        new JobOptions(given).byPlace(outline, "the new job"));
  }

  /** The options by their place in a job file. */
  private Map<List<String>, Object> byPlace(JobOutline outline, String source) {
    Map<List<String>, Object> places = new LinkedHashMap<>();
    Optional<String> kind = outline.kind().or(() -> value("--fixture"));
    put(places, "--customer", "customer");
    put(places, "--instrument", "instrument");
    put(places, "--bench", "bench");
    put(places, "--fixture", "fixture.kind");
    FIXTURE_OPTIONS.forEach((option, key) -> checkKind(option, key, kind, source));
    put(places, "--series-resistance", "fixture.seriesResistance");
    put(places, "--input-resistance", "fixture.input.resistance");
    put(places, "--input-capacitance", "fixture.input.capacitance");
    put(places, "--channel-ratio", "fixture.channels.ratio");
    put(places, "--channel-delay", "fixture.channels.delay");
    putNumber(places, "--reference-channel", "fixture.referenceChannel");
    putNumber(places, "--device-channel", "fixture.deviceChannel");
    Double mains = mains();
    if (mains != null) {
      places.put(path("mainsHz"), mains);
    }
    if (given.hasMatchedOption("--coil-fixed")) {
      places.put(List.of("fixture", "coilFixed"), Boolean.TRUE);
    }
    Path calibration = given.matchedOptionValue("--calibration", null);
    if (calibration != null) {
      places.put(List.of("fixture", "calibration"), calibration.toAbsolutePath().toString());
    }
    List<String> readings = given.matchedOptionValue("--dc-resistance", List.of());
    for (String reading : readings) {
      int equals = reading.indexOf('=');
      if (equals < 0 && outline.setups().size() == 1) {
        String only = outline.setups().iterator().next();
        places.put(List.of("setups", only, "dcResistance"), reading.strip());
        continue;
      }
      if (equals < 1) {
        throw new WrongUsage(
            "--dc-resistance "
                + Refusal.quote(reading)
                + " must say which setup of "
                + source
                + " was read, such as \"before=5.57k 1%\".");
      }
      String setup = reading.substring(0, equals).strip();
      if (!outline.setups().isEmpty() && !outline.setups().contains(setup)) {
        throw new WrongUsage(
            "--dc-resistance: there is no setup "
                + Refusal.quote(setup)
                + ": "
                + source
                + " has "
                + String.join(", ", outline.setups())
                + ".");
      }
      places.put(List.of("setups", setup, "dcResistance"), reading.substring(equals + 1).strip());
    }
    return places;
  }

  /** Refuses an option that is for another kind of fixture than the job's. */
  private void checkKind(String option, String key, Optional<String> kind, String source) {
    if (!given.hasMatchedOption(option)) {
      return;
    }
    List<String> kinds = JobOutline.kindsWith(key);
    if (kind.isPresent() && !kinds.contains(kind.get())) {
      throw new WrongUsage(
          option
              + " belongs to a "
              + String.join(" or ", kinds)
              + " fixture, but "
              + source
              + " says "
              + kind.get()
              + ": leave the option out, or correct fixture.kind.");
    }
  }

  private void put(Map<List<String>, Object> places, String option, String place) {
    value(option).ifPresent(text -> places.put(path(place), text));
  }

  private static List<String> path(String place) {
    return List.of(place.split("\\."));
  }

  private void putNumber(Map<List<String>, Object> places, String option, String place) {
    Number number = given.matchedOptionValue(option, null);
    if (number != null) {
      places.put(path(place), number.doubleValue());
    }
  }

  private Optional<String> value(String option) {
    return Optional.ofNullable(given.matchedOptionValue(option, null));
  }

  private Optional<Marking> marking(String option, MarkedQuantity quantity) {
    return value(option).map(read(option, text -> TradeNotation.marking(text, quantity)));
  }

  private static <T> Function<String, T> read(String option, Function<String, T> reader) {
    return text -> {
      try {
        return reader.apply(text);
      } catch (TradeNotationException e) {
        throw new WrongUsage(option + ": " + e.getMessage());
      }
    };
  }
}
