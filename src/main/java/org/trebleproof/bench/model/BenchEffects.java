package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Temperature;

/**
 * What stands between a circuit and its recording on every real bench, as unknowns with what is
 * known of them beforehand: gains, delays, the coupling capacitors of the recorder's inputs, stray
 * capacitance across the series resistor, the exciter's field, leaks between channels. They are in
 * the model of every sweep, so that no coil has to answer for them.
 */
public final class BenchEffects {

  /** How far a knob is turned between two captures: some 9 dB either way; common practice. */
  static final double TURNED = 1.0;

  /** Without a loopback: gain within 2 %, delay within 2 us, as 95 % intervals. */
  private static final double UNKNOWN_RATIO = 0.02;

  private static final double UNKNOWN_DELAY = 2e-6;

  /**
   * Audio interfaces state -0.1 to -1 dB at 20 Hz (common habit of data sheets), which is a corner
   * of 3 to 10 Hz; many have less. Middle [Hz] and spread of its logarithm.
   */
  private static final double CORNER = 1.0;

  private static final double CORNER_SPREAD = 1.5;

  /** A second corner, behind the input's buffer; common practice, no source. */
  private static final double BUFFER = 0.3;

  private static final double BUFFER_SPREAD = 1.3;

  /** Electrolytic and film capacitors of one make agree within 10 %; common practice, no source. */
  private static final double CORNERS_APART = 0.1 / Estimate.NORMAL_95;

  private static final double ALIKE = 1e-4;

  /**
   * What may be either of two is open: the capacitor ahead of the input's resistance or behind it,
   * the metal in the field sheets or solid.
   */
  private static final double EITHER_WAY = 2.5;

  /**
   * From end to end of a resistor with leads: 0.2 to 0.5 pF; common practice, no source. Middle [F]
   * and spread of its logarithm.
   */
  private static final double STRAY = 0.12e-12;

  private static final double STRAY_SPREAD = 1.0;

  /**
   * Metal between exciter and coil can only take treble away: what flows in it works against its
   * cause (Lenz). From as good as nothing up to a fifth of the field; common practice, no source.
   * Middle and spread of its logarithm. A share of either sign would let a delay and the wrong sign
   * stand in for each other.
   */
  private static final double FIELD_SHARE = 0.01;

  private static final double FIELD_SHARE_SPREAD = 2.0;

  /** Enough for a search to see what the time constant does. */
  private static final double FIELD_SHARE_START = 0.02;

  /**
   * A sheet of metal as a loop: its inductance over its resistance is about mu0 sigma t a / 3 for
   * thickness t and radius a, which is 8 us for 0.4 mm of German silver (3.3 MS/m) of 15 mm and 50
   * us for 0.5 mm of brass (16 MS/m); own estimate, conductivities from memory. Middle [s] and
   * spread of its logarithm.
   */
  private static final double FIELD_TIME = 1.5e-5;

  private static final double FIELD_TIME_SPREAD = 1.0;

  /** From a short time a search finds its way up; from a long one it may take sheets for solid. */
  private static final double FIELD_TIME_START = 5e-6;

  /** How differently an exciter that was moved sees that metal: half as much or twice. */
  private static final double FIELD_MOVED = 0.35;

  private static final double FIELD_TIME_MOVED = 0.15;

  /** A room changes by some kelvin between two visits: standard deviation [K]. */
  private static final double ROOM = 2.5;

  /** Resistance of annealed copper by temperature at 20 C [1/K]: IEC 60028. */
  public static final double COPPER = 0.00393;

  /**
   * What is left between lug and wiper at full up: up to 1 % of the track (common habit of data
   * sheets), mostly far less. Middle [ohm] and spread of its logarithm.
   */
  private static final double END_RESISTANCE = 10;

  private static final double END_SPREAD = 1.6;

  /** A resistance that is as good as none [ohm]. */
  private static final double NOTHING = 1e-3;

  private BenchEffects() {}

  /** The unknowns of a fixture that all its captures share. */
  static List<Parameter> shared(Fixture fixture, double leak) {
    List<Parameter> all = new ArrayList<>();
    if (fixture instanceof Fixture.Strike) {
      return all;
    }
    Optional<Fixture.ChannelMatch> channels = channels(fixture);
    double centre = channels.map(Fixture.ChannelMatch::delay).orElse(0.0);
    double half = channels.map(Fixture.ChannelMatch::delayHalfWidth).orElse(UNKNOWN_DELAY);
    all.add(
        Parameter.signed(
            BenchUnknown.DELAY.key(), centre, centre, Math.max(half, 1e-12) / Estimate.NORMAL_95));
    Fixture.Coupling coupling =
        channels.map(Fixture.ChannelMatch::coupling).orElse(Fixture.Coupling.UNKNOWN);
    all.add(
        coupling
            .corner()
            .map(
                m ->
                    Parameter.positive(
                        BenchUnknown.INPUT_CORNER.key(), m.value(), m.value(), m.logSd()))
            .orElseGet(
                () ->
                    Parameter.positive(
                        BenchUnknown.INPUT_CORNER.key(), CORNER, CORNER, CORNER_SPREAD)));
    all.add(Parameter.positive(BenchUnknown.CORNER_AHEAD.key(), 1, 1, EITHER_WAY));
    all.add(Parameter.positive(BenchUnknown.BUFFER_CORNER.key(), BUFFER, BUFFER, BUFFER_SPREAD));
    if (fixture.played().isEmpty()) {
      all.add(
          coupling
              .ratio()
              .map(
                  m ->
                      Parameter.positive(
                          BenchUnknown.CORNER_RATIO.key(), m.value(), m.value(), m.logSd()))
              .orElseGet(
                  () -> Parameter.positive(BenchUnknown.CORNER_RATIO.key(), 1, 1, CORNERS_APART)));
      // A ratio that was calibrated holds the buffers' difference as well.
      double apart = coupling.ratio().isPresent() ? ALIKE : CORNERS_APART;
      all.add(Parameter.positive(BenchUnknown.BUFFER_RATIO.key(), 1, 1, apart));
    }
    if (leak > 0) {
      all.add(Parameter.signed(BenchUnknown.LEAK.key(), 0, 0, leak));
      all.add(Parameter.signed(BenchUnknown.LEAK_RISE.key(), 0, 0, leak));
    }
    if (fixture instanceof Fixture.Series series) {
      all.add(
          Parameter.positive(
              BenchUnknown.SERIES_RESISTOR.key(),
              series.seriesResistance().value(),
              series.seriesResistance().value(),
              series.seriesResistance().logSd()));
      all.add(Parameter.positive(BenchUnknown.SERIES_STRAY.key(), STRAY, STRAY, STRAY_SPREAD));
      double ratio = channels.map(c -> c.ratio().value()).orElse(1.0);
      double sd = channels.map(c -> c.ratio().logSd()).orElse(UNKNOWN_RATIO / Estimate.NORMAL_95);
      all.add(Parameter.positive(BenchUnknown.CHANNEL_RATIO.key(), ratio, ratio, sd));
    } else {
      all.add(
          Parameter.positive(
              BenchUnknown.FIELD_SHARE.key(), FIELD_SHARE_START, FIELD_SHARE, FIELD_SHARE_SPREAD));
      all.add(
          Parameter.positive(
              BenchUnknown.FIELD_TIME.key(), FIELD_TIME_START, FIELD_TIME, FIELD_TIME_SPREAD));
      all.add(Parameter.positive(BenchUnknown.FIELD_FORM.key(), 1, 1, EITHER_WAY));
    }
    return all;
  }

  /** What moving the exciter does to its field. */
  static List<Parameter> moved(String setup) {
    return List.of(
        Parameter.positive(BenchUnknown.FIELD_CHANGE.key(setup), 1, 1, FIELD_MOVED),
        Parameter.positive(BenchUnknown.FIELD_DELAY.key(setup), 1, 1, FIELD_TIME_MOVED));
  }

  /**
   * By what factor a setup's copper has more resistance than that of the first setup: by the
   * temperatures where both are stated, else by what rooms do.
   */
  static Parameter warmth(Setup setup, Setup first) {
    double factor = 1;
    double sd = COPPER * ROOM;
    if (setup.temperature().isPresent() && first.temperature().isPresent()) {
      Temperature now = setup.temperature().get();
      Temperature then = first.temperature().get();
      factor = resistance(now.celsius()) / resistance(then.celsius());
      sd = COPPER * Math.hypot(now.halfWidth(), then.halfWidth()) / Estimate.NORMAL_95;
    }
    return Parameter.positive(BenchUnknown.WARMTH.key(setup.name()), factor, factor, sd);
  }

  /** Resistance of copper over that at 20 C. */
  private static double resistance(double celsius) {
    return 1 + COPPER * (celsius - 20);
  }

  /** What a volume pot leaves between lug and wiper at full up. */
  static Parameter end(String pot) {
    return Parameter.positive(
        BenchUnknown.END.key(pot), END_RESISTANCE, END_RESISTANCE, END_SPREAD);
  }

  /** The coordinate at which an unknown that loads and coils do not have makes no difference. */
  static OptionalDouble neutral(Parameter p) {
    Optional<BenchUnknown> kind = BenchUnknown.of(p.name());
    if (kind.filter(BenchUnknown::ofVisit).isPresent()) {
      return OptionalDouble.of(p.coordinate(1));
    }
    return kind.filter(k -> k == BenchUnknown.END).isPresent()
        ? OptionalDouble.of(p.coordinate(NOTHING))
        : OptionalDouble.empty();
  }

  static Optional<Fixture.ChannelMatch> channels(Fixture fixture) {
    return fixture instanceof Fixture.Series s
        ? s.channels()
        : fixture instanceof Fixture.Exciter e ? e.channels() : Optional.empty();
  }
}
