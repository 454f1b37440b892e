package org.trebleproof.report.words;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.trebleproof.bench.hum.StateReading;
import org.trebleproof.signal.hum.RadioSounds;

/** What the radio heard in some states is to be called, as a column's head. */
public final class RadioWords {

  private RadioWords() {}

  /** One kind by its own name, several together as radio. */
  public static String of(List<StateReading> readings) {
    Set<String> kinds = new LinkedHashSet<>();
    for (StateReading reading : readings) {
      RadioSounds radio = reading.radio();
      if (radio.phone().found()) {
        kinds.add("Phone bursts");
      }
      if (radio.frames().isPresent() || radio.packets().isPresent()) {
        kinds.add("Radio packets");
      }
      if (radio.programme().isPresent()) {
        kinds.add("Broadcast or room");
      }
    }
    return kinds.size() == 1 ? kinds.iterator().next() : "Radio";
  }
}
