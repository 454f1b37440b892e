package org.trebleproof.bench.live;

import java.util.List;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.quantity.Finding;

/** Is told how a live measurement goes on. Called on the thread that measures; return soon. */
public interface LiveListener {

  /** Something has begun or was found out, in one sentence. */
  default void step(String sentence) {}

  /**
   * Levels of the recorded channels, some twenty times a second.
   *
   * @param levels one per recorded channel
   * @param doneShare share of the sound that has been played, 0 to 1; NaN while the level is sought
   */
  default void levels(List<LevelMeter.Reading> levels, double doneShare) {}

  /** Something about a recording that a person should know. */
  default void finding(Finding finding) {}
}
