package org.trebleproof.bench.live;

import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.file.FileTurn;
import org.trebleproof.fixture.Calibration;
import org.trebleproof.fixture.CalibrationFile;
import org.trebleproof.fixture.ExciterCorner;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.LoopbackReading;
import org.trebleproof.fixture.ParallelAdmittance;
import org.trebleproof.fixture.PluggedIn;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Response;
import org.trebleproof.signal.sweep.SweepTransfer;

/**
 * Calibrates a bench in steps, each from one recording, live or from a file. A step looks at what
 * is plugged in before it believes it.
 */
public final class BenchCalibration {

  /**
   * The channels' gain and delay wander this much from plug to plug; common practice, no source.
   */
  private static final double WANDER = 2e-4;

  private static final double DELAY_WANDER = 1e-8;

  private static final int LONGEST_NAME = 80;

  /** Between farads of a capacitor and ohms of a resistor there is nothing [SI]. */
  private static final double CAPACITOR_OR_RESISTOR = 1e-3;

  /** One step. */
  public enum Step {
    LOOPBACK(
        "Plug the interface's output into both inputs at once (a Y lead), nothing else.",
        Set.of(PluggedIn.LOOPBACK)),
    INPUT(
        "Plug in the series resistor lead: the reference input on the driven end, the device input"
            + " behind the resistor, the jack left open.",
        Set.of(PluggedIn.OPEN_JACK)),
    STANDARD(
        "Leave the series resistor lead and plug the check standard (a known capacitor or"
            + " resistor) into its jack.",
        Set.of(PluggedIn.CAPACITOR, PluggedIn.RESISTOR)),
    EXCITER(
        "Plug in the exciter coil, away from iron: its sense resistor to the reference input, the"
            + " driven end to the device input.",
        Set.of(PluggedIn.EXCITER));

    private final String instruction;
    private final Set<PluggedIn> expected;

    Step(String instruction, Set<PluggedIn> expected) {
      this.instruction = instruction;
      this.expected = expected;
    }

    /** What to plug in. */
    public String instruction() {
      return instruction;
    }

    /** Lower-case name. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** The wrong thing is plugged in; it can be changed and the step repeated. */
  public static final class WrongPlug extends Refusal {
    private static final long serialVersionUID = 1;

    WrongPlug(String sentence) {
      super(sentence);
    }
  }

  private final Path file;
  private final String device;
  private final Marking series;
  private final LocalDate today;
  private final List<BenchHistory.Entry> found = new ArrayList<>();
  private double sampleRate;
  private Optional<Fixture.InputLoad> input;
  private Optional<Fixture.ChannelMatch> channels;
  private OptionalDouble exciterCorner;

  /**
   * @param file the calibration file; what it says already stands until a step finds it anew
   * @param device name of the interface
   * @param series the fixture's series resistor
   */
  public BenchCalibration(Path file, String device, Marking series, LocalDate today) {
    this.file = file;
    this.device = device;
    this.series = series;
    this.today = today;
    Optional<Calibration> before = before();
    input = before.flatMap(Calibration::input);
    channels = before.flatMap(Calibration::channels);
    exciterCorner = before.map(Calibration::exciterCorner).orElse(OptionalDouble.empty());
    sampleRate = before.map(Calibration::sampleRate).orElse(Double.NaN);
  }

  /** What stands in the file; refused if it is another interface's. */
  private Optional<Calibration> before() {
    if (!Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
      return Optional.empty();
    }
    Calibration before = CalibrationFile.read(file);
    if (!before.device().equals(device)) {
      throw new Refusal(
          file
              + " is the calibration of "
              + Refusal.quote(before.device())
              + ", and the name of a file cannot tell "
              + Refusal.quote(device)
              + " from it: use that name if it is the same interface, or choose one that differs"
              + " in letters or digits.");
    }
    return Optional.of(before);
  }

  /** The history beside a calibration file. */
  public static Path historyOf(Path calibrationFile) {
    String name = calibrationFile.getFileName().toString().replaceFirst("\\.json$", "");
    return calibrationFile.resolveSibling(name + ".history.csv");
  }

  /**
   * The calibration file of an interface in a folder.
   *
   * @throws Refusal if the name gives no name of a file
   */
  public static Path fileOf(Path folder, String device) {
    checkName("an interface", device);
    if (device.codePoints().noneMatch(Character::isLetterOrDigit)) {
      throw new Refusal(
          Refusal.quote(device)
              + " is no name for an interface: use one with letters or digits, such as \"bench"
              + " interface A\".");
    }
    String plain = device.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "-");
    return folder.resolve(plain.replaceAll("^-+|-+$", "") + ".json");
  }

  private static void checkName(String what, String name) {
    if (name.length() > LONGEST_NAME
        || !name.equals(name.strip())
        || name.codePoints().anyMatch(Character::isISOControl)) {
      throw new Refusal(
          Refusal.quote(name)
              + " is no name for "
              + what
              + ": use up to "
              + LONGEST_NAME
              + " ordinary characters on one line, without spaces at its ends.");
    }
  }

  /**
   * Does one step.
   *
   * @param recording two channels of sweeps
   * @param standard name of the check standard, for that step
   * @return what was found, in a sentence
   * @throws WrongPlug if something else is plugged in
   * @throws Refusal if the recording is no good
   */
  public String take(
      Step step, Path recording, int referenceChannel, int deviceChannel, String standard) {
    Recording sound = SoundFile.read(recording);
    Response r =
        SweepTransfer.measure(
                sound.channel(referenceChannel),
                sound.channel(deviceChannel),
                sound.sampleRate(),
                OptionalDouble.empty())
            .response();
    if (r.size() < 24) {
      throw new Refusal(
          recording.getFileName()
              + ": no sweep was found on the reference channel: check the plugs and the channel"
              + " numbers.");
    }
    PluggedIn plugged = PluggedIn.of(r, series.value());
    if (!step.expected.contains(plugged)) {
      throw new WrongPlug(
          "This looks like "
              + plugged.words()
              + ", but the step wants "
              + String.join(" or ", step.expected.stream().map(PluggedIn::words).sorted().toList())
              + ". "
              + step.instruction);
    }
    sampleRate = sound.sampleRate();
    return switch (step) {
      case LOOPBACK -> loopback(r);
      case INPUT -> input(r);
      case STANDARD -> standard(r, plugged, standard);
      case EXCITER -> exciter(r);
    };
  }

  private String loopback(Response r) {
    LoopbackReading l = LoopbackReading.of(r);
    channels =
        Optional.of(
            new Fixture.ChannelMatch(
                new Marking(l.ratio(), l.ratioHalfWidth(), true), l.delay(), l.delayHalfWidth()));
    note("channel ratio", l.ratio(), Math.hypot(WANDER, l.ratioHalfWidth()));
    return String.format(
        Locale.ROOT,
        "Channels: ratio %.5f ±%.3f %%, delay %.3f ±%.3f us.",
        l.ratio(),
        100 * l.ratioHalfWidth(),
        1e6 * l.delay(),
        1e6 * l.delayHalfWidth());
  }

  private String input(Response r) {
    Fixture.ChannelMatch match = match();
    ParallelAdmittance y = ParallelAdmittance.of(r, series.value(), match);
    if (!(y.conductance() > 0 && y.capacitance() > 0)) {
      throw new Refusal(
          "The input's resistance and capacitance cannot be told from this resistor: use a larger"
              + " series resistor, 100k to 1M.");
    }
    double load = 1 + series.value() * y.conductance();
    double resistance =
        spread(
            y.conductanceSd() / y.conductance(),
            load / (series.value() * y.conductance()) * match.ratio().tolerance());
    double capacitance =
        spread(
            y.capacitanceSd() / y.capacitance(),
            Math.hypot(
                match.ratio().tolerance(),
                load * match.delayHalfWidth() / (series.value() * y.capacitance())));
    input =
        Optional.of(
            new Fixture.InputLoad(
                new Marking(1 / y.conductance(), resistance, true),
                new Marking(y.capacitance(), capacitance, true),
                true));
    note("input resistance", 1 / y.conductance(), load / (load - 1) * WANDER);
    note(
        "input capacitance",
        y.capacitance(),
        Math.hypot(WANDER, load * DELAY_WANDER / (series.value() * y.capacitance())));
    return String.format(
        Locale.ROOT,
        "Input: %.1f kohm ±%.2g %%, %.1f pF ±%.2g %%.",
        1e-3 / y.conductance(),
        100 * resistance,
        1e12 * y.capacitance(),
        100 * capacitance);
  }

  private String standard(Response r, PluggedIn plugged, String name) {
    checkName("a check standard", name);
    if (input.isEmpty()) {
      throw new Refusal("The check standard needs the input's values: do the input step first.");
    }
    Fixture.ChannelMatch match = match();
    ParallelAdmittance y = ParallelAdmittance.of(r, series.value(), match);
    double load = 1 + series.value() * y.conductance();
    boolean capacitor = plugged == PluggedIn.CAPACITOR;
    double own =
        capacitor
            ? y.capacitance() - input.get().capacitance().value()
            : y.conductance() - 1 / input.get().resistance().value();
    double noise = Estimate.NORMAL_95 * (capacitor ? y.capacitanceSd() : y.conductanceSd());
    double wander =
        capacitor
            ? Math.hypot(WANDER * y.capacitance(), load * DELAY_WANDER / series.value())
            : WANDER * load / series.value();
    double repeatability = Math.hypot(noise, wander) / own;
    double value = capacitor ? own : 1 / own;
    String quantity = "standard " + name.replace(',', ' ');
    checkKind(name, quantity, plugged);
    if (!(value > 0 && repeatability < 1)) {
      throw new WrongPlug(
          "The check standard shows no value of its own beside the input's: plug it into the jack"
              + " of the series resistor lead, or use a larger one.");
    }
    note(quantity, value, repeatability);
    return String.format(
        Locale.ROOT,
        capacitor
            ? "Check standard %s: %.4f nF, repeatable within %.2g %%."
            : "Check standard %s: %.4f kohm, repeatable within %.2g %%.",
        name,
        capacitor ? 1e9 * value : 1e-3 * value,
        100 * repeatability);
  }

  /** A capacitor where a resistor was before is another standard, and no change of the bench. */
  private void checkKind(String name, String quantity, PluggedIn plugged) {
    List<BenchHistory.Entry> earlier = BenchHistory.read(historyOf(file)).counting(quantity);
    if (earlier.isEmpty()) {
      return;
    }
    boolean capacitor = earlier.get(earlier.size() - 1).value() < CAPACITOR_OR_RESISTOR;
    if (capacitor != (plugged == PluggedIn.CAPACITOR)) {
      throw new WrongPlug(
          "This looks like "
              + plugged.words()
              + ", but the check standard "
              + Refusal.quote(name)
              + " was a "
              + (capacitor ? "capacitor" : "resistor")
              + " at its earlier visits: plug that one in, or give this one a name of its own.");
    }
  }

  private String exciter(Response r) {
    ExciterCorner corner = ExciterCorner.of(r, match());
    exciterCorner = OptionalDouble.of(corner.hz());
    note("exciter corner", corner.hz(), Math.hypot(corner.halfWidth() / corner.hz(), 2 * WANDER));
    return String.format(
        Locale.ROOT,
        "Exciter coil: its current falls from %.0f ±%.0f Hz on.",
        corner.hz(),
        corner.halfWidth());
  }

  private double spread(double relativeSd, double others) {
    return Math.hypot(Math.hypot(Estimate.NORMAL_95 * relativeSd, series.tolerance()), others);
  }

  private Fixture.ChannelMatch match() {
    return channels.orElseThrow(
        () -> new Refusal("This step needs the channels' ratio: do the loopback step first."));
  }

  private void note(String quantity, double value, double repeatability) {
    found.add(
        new BenchHistory.Entry(
            today, BenchHistory.Occasion.CALIBRATE, quantity, value, repeatability));
  }

  /** What the steps so far have found. */
  public List<BenchHistory.Entry> found() {
    return List.copyOf(found);
  }

  /**
   * What a visit came to.
   *
   * @param agreements each finding against the history before
   * @param counts whether later visits are held against this one: all agreed, or a new baseline was
   *     taken
   */
  public record Visit(List<BenchHistory.Agreement> agreements, boolean counts) {
    public Visit {
      agreements = List.copyOf(agreements);
    }
  }

  /**
   * Adds to the history and writes the calibration file; where something does not agree with
   * earlier visits the file stays as it was, unless the bench was changed on purpose.
   *
   * @param newBaseline whether it was: earlier visits count no more then
   */
  public Visit finish(boolean newBaseline) {
    return FileTurn.during(
        historyOf(file),
        () -> {
          before();
          Visit visit =
              visit(newBaseline ? BenchHistory.Occasion.BASELINE : BenchHistory.Occasion.CALIBRATE);
          if (visit.counts() && (input.isPresent() || channels.isPresent())) {
            CalibrationFile.write(
                new Calibration(
                    file,
                    today,
                    device,
                    sampleRate,
                    OptionalDouble.empty(),
                    input,
                    channels,
                    exciterCorner));
          }
          return visit;
        });
  }

  /**
   * Holds today's check standard against the history and adds it there; the calibration file stays
   * as it is.
   */
  public Visit check() {
    return FileTurn.during(historyOf(file), () -> visit(BenchHistory.Occasion.CHECK));
  }

  private Visit visit(BenchHistory.Occasion occasion) {
    BenchHistory history = BenchHistory.read(historyOf(file));
    List<BenchHistory.Agreement> agreements = found.stream().map(history::compare).toList();
    boolean counts =
        occasion == BenchHistory.Occasion.BASELINE
            || agreements.stream().allMatch(BenchHistory.Agreement::agrees);
    BenchHistory.Occasion logged = counts ? occasion : occasion.failed();
    history.with(found.stream().map(e -> e.on(logged)).toList());
    return new Visit(agreements, counts);
  }
}
