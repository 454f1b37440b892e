package org.trebleproof.report.words;

import java.util.Locale;
import java.util.Map;

/** What an estimate's key is called on paper. */
public final class RowName {

  /** The part of the key that says which coil. */
  public static final String COIL = "pickup";

  private static final Map<String, String> QUANTITIES =
      Map.ofEntries(
          Map.entry("inductance", "inductance"),
          Map.entry("resistance", "resistance"),
          Map.entry("capacitance", "winding capacitance"),
          Map.entry("resonance", "resonance"),
          Map.entry("resonancePeak", "peak over 20 Hz"),
          Map.entry("loadResistance", "load resistance"),
          Map.entry("totalCapacitance", "total capacitance"),
          Map.entry("loadConductance", "load conductance"),
          Map.entry("loadCapacitance", "load capacitance"),
          Map.entry("seriesInductance", "inductance"),
          Map.entry("seriesResistance", "resistance"),
          Map.entry("seriesQ", "Q"),
          Map.entry("qualityFactor", "Q"),
          Map.entry("cutoff", "-3 dB point"),
          Map.entry("value", ""));

  private RowName() {}

  /** What the key is about: {@code pickup}, a setup, a part, or {@code change}. */
  public static String subject(String key) {
    int dot = separator(key);
    return dot < 0 ? key : key.substring(0, dot);
  }

  /** The quantity in words, such as {@code load resistance} or {@code inductance at 1 kHz}. */
  public static String quantity(String key) {
    String rest = key.substring(separator(key) + 1);
    int dot = rest.indexOf('.');
    String name = dot < 0 ? rest : rest.substring(0, dot);
    String words = QUANTITIES.getOrDefault(name, spaced(name));
    return dot < 0 ? words : words + " at " + frequency(rest.substring(dot + 1));
  }

  /** Subject and quantity, such as {@code before: load resistance}. */
  public static String full(String key) {
    String quantity = quantity(key);
    String subject = subject(key);
    if (quantity.isEmpty()) {
      return subject;
    }
    if (subject.equals(COIL)) {
      return "coil: " + quantity;
    }
    return subject.equals("change") ? "change of " + quantity : subject + ": " + quantity;
  }

  private static int separator(String key) {
    int dot = key.lastIndexOf('.');
    if (dot > 0 && key.endsWith("Hz")) {
      int before = key.lastIndexOf('.', dot - 1);
      return before < 0 ? dot : before;
    }
    return dot;
  }

  private static String frequency(String suffix) {
    String digits = suffix.replace("Hz", "");
    if (digits.length() > 3 && digits.endsWith("000")) {
      return digits.substring(0, digits.length() - 3) + " kHz";
    }
    return digits + " Hz";
  }

  private static String spaced(String camelCase) {
    return camelCase.replaceAll("([a-z0-9])([A-Z])", "$1 $2").toLowerCase(Locale.ROOT);
  }
}
