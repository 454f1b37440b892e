package org.trebleproof.bench.job;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.file.FileTrouble;
import org.trebleproof.fixture.Calibration;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Marking;

/** A job without a job file: one recording of a bare pickup, or two of pick strikes. */
public final class QuickJob {

  /** Name of the one setup and the one capture. */
  public static final String NAME = "bare";

  private static final String PICKUP = "pickup";

  private QuickJob() {}

  /**
   * What is known beside the recording.
   *
   * @param referenceChannel counts from 1
   * @param deviceChannel counts from 1
   * @param inputResistance of the recorder's input [ohm]
   * @param inputCapacitance of the recorder's input [F]
   * @param channels device channel against reference channel
   * @param pickupResistance ohmmeter reading of the coil [ohm]
   * @param mainsHz nominal mains frequency [Hz]
   * @param calibration of the recorder; stands for what is not given above
   */
  public record Known(
      int referenceChannel,
      int deviceChannel,
      Optional<Marking> inputResistance,
      Optional<Marking> inputCapacitance,
      Optional<Fixture.ChannelMatch> channels,
      Optional<Marking> pickupResistance,
      OptionalDouble mainsHz,
      Optional<Calibration> calibration) {

    /** Reference on channel 1, device on channel 2, and nothing else known. */
    public static final Known NOTHING =
        new Known(
            1,
            2,
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.empty(),
            Optional.empty());
  }

  /** A sweep through a series resistor. */
  public static Job series(Path sound, Marking seriesResistance, Known known) {
    List<Finding> notes = new ArrayList<>();
    List<String> assumed = new ArrayList<>();
    PartReader.noteAssumed(assumed, "series resistor", seriesResistance);
    Fixture.InputLoad input = input(known, assumed, notes);
    Optional<Fixture.ChannelMatch> channels = channels(known);
    if (channels.isEmpty()) {
      notes.add(FixtureReader.uncalibrated());
    }
    return job(
        sound,
        new Fixture.Series(
            seriesResistance, channels, known.referenceChannel(), known.deviceChannel(), input),
        known,
        assumed,
        notes);
  }

  /** A sweep through an exciter coil. */
  public static Job exciter(Path sound, Known known) {
    List<Finding> notes = new ArrayList<>();
    List<String> assumed = new ArrayList<>();
    Fixture.InputLoad input = input(known, assumed, notes);
    return job(
        sound,
        new Fixture.Exciter(
            false, channels(known), known.referenceChannel(), known.deviceChannel(), input),
        known,
        assumed,
        notes);
  }

  /**
   * Pick strikes before and after a change of which nothing is known.
   *
   * @param channel of the guitar; from 1
   */
  public static Job strikes(Path before, Path after, int channel, Known known) {
    checkThere(before);
    checkThere(after);
    List<Finding> notes = new ArrayList<>();
    List<String> assumed = new ArrayList<>();
    Fixture.InputLoad input = input(known, assumed, notes);
    known.calibration().flatMap(c -> c.staleness(LocalDate.now())).ifPresent(notes::add);
    JobReader.noteAssumed(assumed, notes);
    Map<String, Setup> setups = new LinkedHashMap<>();
    setups.put("before", bare("before"));
    setups.put("after", bare("after"));
    return new Job(
        before.getFileName() + " and " + after.getFileName(),
        before,
        new Fixture.Strike(0, channel, input),
        known.mainsHz(),
        Map.of(PICKUP, new Part(PICKUP, Part.Kind.PICKUP, Optional.empty())),
        setups,
        List.of(
            new CaptureEntry("before", before, "before", List.of()),
            new CaptureEntry("after", after, "after", List.of())),
        notes,
        known.calibration());
  }

  /**
   * Refuses a recording that is not there.
   *
   * @throws JobFileException in one sentence
   */
  public static void checkThere(Path sound) {
    FileTrouble.reading(sound)
        .ifPresent(
            why -> {
              throw new JobFileException(sound + " " + why);
            });
  }

  private static Setup bare(String name) {
    return new Setup(
        name,
        PICKUP,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        false,
        Optional.empty(),
        Optional.empty());
  }

  private static Optional<Fixture.ChannelMatch> channels(Known known) {
    return known.channels().or(() -> known.calibration().flatMap(Calibration::channels));
  }

  private static Fixture.InputLoad input(Known known, List<String> assumed, List<Finding> notes) {
    Optional<Fixture.InputLoad> calibrated = known.calibration().flatMap(Calibration::input);
    return FixtureReader.described(
        known.inputResistance().or(() -> calibrated.map(Fixture.InputLoad::resistance)),
        known.inputCapacitance().or(() -> calibrated.map(Fixture.InputLoad::capacitance)),
        assumed,
        notes);
  }

  private static Job job(
      Path sound, Fixture fixture, Known known, List<String> assumed, List<Finding> notes) {
    checkThere(sound);
    if (known.referenceChannel() == known.deviceChannel()) {
      throw new JobFileException(
          "The reference and the device cannot both be on channel "
              + known.deviceChannel()
              + ": give the two channels their numbers.");
    }
    known.calibration().flatMap(c -> c.staleness(LocalDate.now())).ifPresent(notes::add);
    known
        .pickupResistance()
        .ifPresent(m -> PartReader.noteAssumed(assumed, "pickup resistance", m));
    JobReader.noteAssumed(assumed, notes);
    Part pickup = new Part(PICKUP, Part.Kind.PICKUP, known.pickupResistance());
    return new Job(
        String.valueOf(sound.getFileName()),
        sound,
        fixture,
        known.mainsHz(),
        Map.of(PICKUP, pickup),
        Map.of(NAME, bare(NAME)),
        List.of(new CaptureEntry(NAME, sound, NAME, List.of())),
        notes,
        known.calibration());
  }
}
