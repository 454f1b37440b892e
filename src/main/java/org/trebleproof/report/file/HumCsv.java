package org.trebleproof.report.file;

import java.util.Locale;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.StateReading;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.signal.FullScale;
import org.trebleproof.signal.MeanPower;

/** The lines of the mains as a table: a row per state and harmonic that stands out, in dB. */
public final class HumCsv {

  private HumCsv() {}

  /** The table's text, with a header line; lines end in a line feed. */
  public static String of(HumResult result) {
    StringBuilder text = new StringBuilder("state,harmonic,hz,level_dB,low_dB,high_dB\n");
    double reference = result.strike().map(HumResult.Strike::level).orElse(0.0);
    for (StateReading reading : result.readings()) {
      for (int k = 1; k <= reading.spectrum().harmonics(); k++) {
        MeanPower power = reading.spectrum().harmonic(k);
        if (power.present() && !reading.leftOut()[k - 1]) {
          text.append(
              String.format(
                  Locale.ROOT,
                  "%s,%d,%.3f,%.3f,%.3f,%.3f\n",
                  reading.state().key(),
                  k,
                  k * reading.spectrum().fundamental(),
                  FullScale.level(power.value()) - reference,
                  FullScale.level(power.value() - Estimate.NORMAL_95 * power.sd()) - reference,
                  FullScale.level(power.value() + Estimate.NORMAL_95 * power.sd()) - reference));
        }
      }
    }
    return text.toString();
  }
}
