package org.trebleproof.bench.model;

import java.util.Optional;
import org.trebleproof.bench.answer.Budget.Source;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.OwnName;

/**
 * The kinds of unknown that belong to a bench and not to the guitar, whose statement each is, and
 * whether it stands between a circuit and its recording. An unknown's name is made from its kind
 * here and read back here; no part can have it, since names in a job do not begin with its mark.
 */
public enum BenchUnknown {
  SERIES_RESISTOR(OwnName.of("series resistor"), Source.SERIES_RESISTOR, true),
  SERIES_STRAY(OwnName.of("series stray"), Source.SERIES_RESISTOR, true),
  CHANNEL_RATIO(OwnName.of("channel ratio"), Source.CHANNELS, true),
  DELAY(OwnName.of("delay"), Source.CHANNELS, true),
  INPUT_CORNER(OwnName.of("input corner"), Source.INPUT, true),
  CORNER_RATIO(OwnName.of("corner ratio"), Source.CHANNELS, true),
  CORNER_AHEAD(OwnName.of("corner ahead"), Source.INPUT, false),
  BUFFER_CORNER(OwnName.of("buffer corner"), Source.INPUT, true),
  BUFFER_RATIO(OwnName.of("buffer ratio"), Source.CHANNELS, true),
  INPUT_RESISTANCE(Layout.RECORDER_RESISTANCE, Source.INPUT, false),
  INPUT_CAPACITANCE(Layout.RECORDER_CAPACITANCE, Source.INPUT, false),
  LEAK(OwnName.of("leak"), Source.CHANNELS, true),
  LEAK_RISE(OwnName.of("leak rise"), Source.CHANNELS, true),
  FIELD_SHARE(OwnName.of("field share"), Source.EXCITER, true),
  FIELD_TIME(OwnName.of("field time"), Source.EXCITER, true),
  FIELD_FORM(OwnName.of("field form"), Source.EXCITER, true),
  /** Of each later setup. */
  FIELD_CHANGE(OwnName.of("field change"), Source.EXCITER, true),
  /** Of each later setup. */
  FIELD_DELAY(OwnName.of("field time change"), Source.EXCITER, true),
  /** Of each later setup. */
  WARMTH(OwnName.of("warmth"), Source.TEMPERATURE, true),
  /** Of each volume pot. */
  END(OwnName.of("end"), Source.KNOBS, true),
  /** Of each pot at each place. */
  WIPER(OwnName.of("wiper"), Source.KNOBS, false),
  /** Of each place of the exciter. */
  COIL_GAIN(OwnName.of("coil gain"), Source.EXCITER, false),
  /** Of each capture. */
  PLACEMENT(OwnName.of("placement"), Source.EXCITER, false),
  /** Of a capture whose gain was turned. */
  OTHER_GAIN(OwnName.of("other gain"), Source.EXCITER, true);

  private final String key;
  private final Source source;
  private final boolean ofPath;

  BenchUnknown(String key, Source source, boolean ofPath) {
    this.key = key;
    this.source = source;
    this.ofPath = ofPath;
  }

  /** Name of the bench's only unknown of this kind. */
  public String key() {
    return key;
  }

  /** Name of the unknown of this kind that belongs to a setup, pot or capture. */
  public String key(String of) {
    return key + ":" + of;
  }

  /** The kind of an unknown; empty when it is a part's or a coil's. */
  public static Optional<BenchUnknown> of(String name) {
    int colon = name.indexOf(':');
    String kind = colon < 0 ? name : name.substring(0, colon);
    for (BenchUnknown unknown : values()) {
      if (unknown.key.equals(kind)) {
        return Optional.of(unknown);
      }
    }
    return Optional.empty();
  }

  /** Whether an unknown is of this kind. */
  public boolean is(String name) {
    return of(name).filter(k -> k == this).isPresent();
  }

  /** Whose statement it is. */
  Source source() {
    return source;
  }

  /** Whether it stands between a circuit and its recording. */
  boolean ofPath() {
    return ofPath;
  }

  /** Whether it says how a later visit differs from the first. */
  boolean ofVisit() {
    return this == WARMTH || this == FIELD_CHANGE || this == FIELD_DELAY;
  }
}
