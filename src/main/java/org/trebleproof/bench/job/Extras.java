package org.trebleproof.bench.job;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.circuit.Harness;

/**
 * What a measured setup has wired beyond one pickup, volume, tone and cable. The strings name
 * parts.
 *
 * @param parts part in each further slot that is taken
 * @param pots where each further pot stands
 * @param bleedInSeries whether the treble bleed's resistor is in series with its capacitor
 * @param tapped whether the junction of the pickup's two coils is brought to its cold end
 * @param secondPickup a pickup that is on together with the first
 * @param joint how the two pickups meet
 * @param secondOutput output of the second pickup against the first; negative when out of phase
 * @param independent whether the volume pots are wired so that one does not silence the other
 */
public record Extras(
    Map<Slot, String> parts,
    Map<Slot, Layout.Turned> pots,
    boolean bleedInSeries,
    boolean tapped,
    Optional<String> secondPickup,
    Harness.Joint joint,
    double secondOutput,
    boolean independent) {

  /** Nothing further. */
  public static final Extras NONE =
      new Extras(
          Map.of(), Map.of(), false, false, Optional.empty(), Harness.Joint.PARALLEL, 1, false);

  public Extras {
    parts = copied(parts);
    pots = copied(pots);
  }

  private static <V> Map<Slot, V> copied(Map<Slot, V> map) {
    Map<Slot, V> copy = new EnumMap<>(Slot.class);
    copy.putAll(map);
    return java.util.Collections.unmodifiableMap(copy);
  }

  /** The same with other parts in the further slots. */
  public Extras withParts(Map<Slot, String> other) {
    return new Extras(
        other, pots, bleedInSeries, tapped, secondPickup, joint, secondOutput, independent);
  }

  /** Whether the jack's own voltage is that of the pickup's hot end when the volume is full up. */
  public boolean nothingBetweenPickupAndJack() {
    return secondPickup.isEmpty() && !tapped && !parts.containsKey(Slot.BASS_CAPACITOR);
  }
}
