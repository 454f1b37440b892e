package org.trebleproof.shelf.item;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.trebleproof.quantity.Unit;

/**
 * What the shelf keeps of a coil to be sorted, searched and compared. The code is its name in the
 * store, on the command line and in files; it never changes once released.
 */
public enum CoilValue {
  RESISTANCE_AT_20("resistance", Unit.OHM, "R at 20 °C", "resistance at 20 °C"),
  INDUCTANCE("inductance", Unit.HENRY, "L", "inductance"),
  CAPACITANCE("capacitance", Unit.FARAD, "C", "winding capacitance"),
  RESONANCE("resonance", Unit.HERTZ, "resonance", "resonance"),
  PEAK("peak", Unit.DECIBEL, "peak", "height of its peak"),
  QUALITY("q", Unit.RATIO, "Q", "Q"),
  /** How far the flux lags the current at 2 kHz: what cores, covers and shorted turns take. */
  LOSS("loss", Unit.SECOND, "loss", "loss"),
  TURNS("turns", Unit.RATIO, "turns", "number of turns");

  private final String code;
  private final Unit unit;
  private final String head;
  private final String words;

  CoilValue(String code, Unit unit, String head, String words) {
    this.code = code;
    this.unit = unit;
    this.head = head;
    this.words = words;
  }

  public String code() {
    return code;
  }

  public Unit unit() {
    return unit;
  }

  /** Over a column. */
  public String head() {
    return head;
  }

  /** In a sentence. */
  public String words() {
    return words;
  }

  /** Whether it is above zero always, so that ratios of it are what counts. */
  public boolean positive() {
    return unit != Unit.DECIBEL;
  }

  public static Optional<CoilValue> of(String code) {
    return Arrays.stream(values()).filter(v -> v.code.equals(code)).findFirst();
  }

  /** All codes, in order. */
  public static List<String> codes() {
    return Arrays.stream(values()).map(CoilValue::code).toList();
  }
}
