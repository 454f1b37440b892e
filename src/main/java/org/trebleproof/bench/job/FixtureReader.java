package org.trebleproof.bench.job;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.trebleproof.file.FileTrouble;
import org.trebleproof.fixture.Calibration;
import org.trebleproof.fixture.CalibrationFile;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.OneChannelCapture;
import org.trebleproof.fixture.PlayedSweep;
import org.trebleproof.json.JsonSection;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Marking;

/** Reads the fixture of a job file, together with the calibration file it may name. */
final class FixtureReader {

  static final List<String> KINDS = List.of("series", "exciter", "strike");

  private static final int MOST_CHANNELS = 256;

  private final JsonSection section;
  private final Path folder;
  private final Supplier<LocalDate> today;
  private final List<String> assumed;
  private final List<Finding> notes;
  private Optional<Calibration> calibration = Optional.empty();

  FixtureReader(
      JsonSection section,
      Path folder,
      Supplier<LocalDate> today,
      List<String> assumed,
      List<Finding> notes) {
    this.section = section;
    this.folder = folder;
    this.today = today;
    this.assumed = assumed;
    this.notes = notes;
  }

  static List<String> keysOf(String kind) {
    List<String> keys = new ArrayList<>(List.of("kind", "deviceChannel", "input", "calibration"));
    if (!kind.equals("strike")) {
      keys.addAll(List.of("referenceChannel", "channels", "sweep", "loopback"));
    }
    if (kind.equals("series")) {
      keys.add("seriesResistance");
    }
    if (!kind.equals("strike")) {
      // Of no use to a series fixture, but no reason to refuse a job whose kind was changed.
      keys.add("coilFixed");
    }
    return keys;
  }

  Fixture read() {
    String kind = section.oneOf("kind", KINDS);
    if (kind.equals("strike") && section.has("referenceChannel")) {
      throw section.wrong(
          "referenceChannel",
          "is of no use here: a strike recording has no reference channel; delete the key.");
    }
    section.only(keysOf(kind));
    readCalibration();
    Fixture.InputLoad input = input();
    if (kind.equals("strike")) {
      return new Fixture.Strike(0, section.whole("deviceChannel", 1, 1, MOST_CHANNELS), input);
    }
    Optional<PlayedSweep> played = played();
    if (played.isPresent()) {
      return oneChannel(kind, input, played.get());
    }
    int reference = section.whole("referenceChannel", 1, 1, MOST_CHANNELS);
    int device = section.whole("deviceChannel", reference == 2 ? 1 : 2, 1, MOST_CHANNELS);
    if (reference == device) {
      throw section.wrong(
          "deviceChannel", "is the reference channel too: they are two channels of the recording.");
    }
    Optional<Fixture.ChannelMatch> channels = channels();
    if (kind.equals("exciter")) {
      return new Fixture.Exciter(
          section.flag("coilFixed", false), channels, reference, device, input);
    }
    Marking resistor = section.marking("seriesResistance", MarkedQuantity.SERIES_RESISTOR);
    PartReader.noteAssumed(assumed, "series resistor", resistor);
    if (channels.isEmpty()) {
      notes.add(uncalibrated());
    }
    return new Fixture.Series(resistor, channels, reference, device, input);
  }

  /** Captures of one channel: the gain is known as well as a loopback tells, the delay hardly. */
  private Fixture oneChannel(String kind, Fixture.InputLoad input, PlayedSweep played) {
    for (String key : List.of("referenceChannel", "channels")) {
      if (section.has(key)) {
        throw section.wrong(
            key, "goes with two recorded channels, and sweep with one: delete one of the two.");
      }
    }
    if (kind.equals("series") && played.loopback().isEmpty()) {
      throw section.wrong(
          "sweep",
          "needs a loopback beside it: over a series resistor the level carries the coil's values,"
              + " and one channel alone does not tell it; record the same sound through a cable"
              + " from output to input, all controls as they were, and name that file in loopback.");
    }
    int device = section.whole("deviceChannel", 1, 1, MOST_CHANNELS);
    Optional<Fixture.ChannelMatch> match =
        Optional.of(
            new Fixture.ChannelMatch(
                new Marking(1, OneChannelCapture.GAIN_TOLERANCE, true),
                0,
                OneChannelCapture.DELAY_HALF_WIDTH));
    if (kind.equals("exciter")) {
      return new Fixture.Exciter(
          section.flag("coilFixed", false), match, 0, device, input, Optional.of(played));
    }
    Marking resistor = section.marking("seriesResistance", MarkedQuantity.SERIES_RESISTOR);
    PartReader.noteAssumed(assumed, "series resistor", resistor);
    return new Fixture.Series(resistor, match, 0, device, input, Optional.of(played));
  }

  private Optional<PlayedSweep> played() {
    if (!section.has("sweep")) {
      if (section.has("loopback")) {
        throw section.wrong(
            "loopback", "goes with captures of one channel: name in sweep what was played.");
      }
      return Optional.empty();
    }
    return Optional.of(
        new PlayedSweep(
            sound("sweep"),
            section.has("loopback") ? Optional.of(sound("loopback")) : Optional.empty()));
  }

  private Path sound(String key) {
    Path file = resolve(key, section.text(key));
    if (java.nio.file.Files.isDirectory(file)) {
      throw section.wrong(key, JobReader.isFolder(section.text(key)));
    }
    FileTrouble.reading(file)
        .ifPresent(
            why -> {
              throw section.wrong(
                  key,
                  "names "
                      + org.trebleproof.quantity.Refusal.quote(section.text(key))
                      + ", which "
                      + why);
            });
    return file;
  }

  Optional<Calibration> calibration() {
    return calibration;
  }

  static Finding uncalibrated() {
    return Finding.of(
        FindingCode.UNCALIBRATED_CHANNELS,
        "The two recorder channels have not been compared, so their gains are taken as equal"
            + " within 2 % and their delays within 2 µs.",
        "no channels in the fixture and no calibration file that gives them",
        "Feed one signal to both channels (loopback) and state the ratio, or calibrate the"
            + " recorder.");
  }

  static Finding inputAssumed(String what) {
    return Finding.of(
        FindingCode.INPUT_ASSUMED,
        "The recorder's " + what + ", so the usual value is assumed.",
        "1M ±20 %, 80p ±50 %",
        "State the input's resistance and capacitance, or calibrate the recorder.");
  }

  private void readCalibration() {
    calibration =
        section
            .optionalText("calibration")
            .map(name -> CalibrationFile.read(resolve("calibration", name)));
    calibration.flatMap(c -> c.staleness(today.get())).ifPresent(notes::add);
    for (String key : List.of("input", "channels")) {
      if (calibration.isPresent() && section.has(key)) {
        notes.add(
            Finding.of(
                FindingCode.CALIBRATION_OVERRIDDEN,
                "The fixture states "
                    + key
                    + " itself, so the calibration file is not asked for it.",
                section.text("calibration"),
                "Delete one of the two."));
      }
    }
  }

  private Path resolve(String key, String name) {
    try {
      return folder.resolve(name);
    } catch (java.nio.file.InvalidPathException e) {
      throw section.wrong(key, "is no file name.");
    }
  }

  private Optional<Fixture.ChannelMatch> channels() {
    return section
        .optionalSection("channels")
        .map(CalibrationFile::channels)
        .or(() -> calibration.flatMap(Calibration::channels));
  }

  private Fixture.InputLoad input() {
    Fixture.InputLoad usual = Fixture.InputLoad.assumed();
    if (!section.has("input")) {
      Optional<Fixture.InputLoad> calibrated = calibration.flatMap(Calibration::input);
      if (calibrated.isEmpty()) {
        notes.add(inputAssumed("input is not described"));
      }
      return calibrated.orElse(usual);
    }
    JsonSection input = section.section("input").only(CalibrationFile.INPUT_KEYS);
    Optional<Marking> resistance =
        input.optionalMarking("resistance", MarkedQuantity.INPUT_RESISTANCE);
    Optional<Marking> capacitance =
        input.optionalMarking("capacitance", MarkedQuantity.INPUT_CAPACITANCE);
    return described(resistance, capacitance, assumed, notes);
  }

  /** An input of which some or all is stated; the rest is assumed, and noted. */
  static Fixture.InputLoad described(
      Optional<Marking> resistance,
      Optional<Marking> capacitance,
      List<String> assumed,
      List<Finding> notes) {
    resistance.ifPresent(m -> PartReader.noteAssumed(assumed, "input resistance", m));
    capacitance.ifPresent(m -> PartReader.noteAssumed(assumed, "input capacitance", m));
    if (resistance.isEmpty() && capacitance.isEmpty()) {
      notes.add(inputAssumed("input is not described"));
    } else if (resistance.isEmpty()) {
      notes.add(inputAssumed("input resistance is not stated"));
    } else if (capacitance.isEmpty()) {
      notes.add(inputAssumed("input capacitance is not stated"));
    }
    Fixture.InputLoad usual = Fixture.InputLoad.assumed();
    return new Fixture.InputLoad(
        resistance.orElse(usual.resistance()),
        capacitance.orElse(usual.capacitance()),
        resistance.isPresent() && capacitance.isPresent());
  }
}
