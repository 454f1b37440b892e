package org.trebleproof.report.demonstration;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Base64;
import java.util.Locale;
import org.trebleproof.audio.Recording;
import org.trebleproof.quantity.Refusal;

/**
 * A recording of strikes as the page carries it: one channel, 16 bits a sample, as loud as that
 * allows.
 *
 * @param rate samples per second
 * @param pcm 16-bit words, the lower byte first, as base 64
 */
public record CarriedStrike(int rate, String pcm) {
  /** What leaves room for the rest of a page of three megabytes. */
  private static final int MOST_BYTES = 2_400_000;

  private static final double SHARE_OF_BASE_64 = 0.75;
  private static final int FULL_SCALE = 32767;
  private static final int BROWSERS_FROM = 8000;
  private static final int BROWSERS_TO = 96000;

  /**
   * The first channel of a recording.
   *
   * @throws Refusal if it is too long or there is nothing in it
   */
  public static CarriedStrike of(Recording recording) {
    int rate = (int) Math.round(recording.sampleRate());
    String file = String.valueOf(recording.file().getFileName());
    if (rate < BROWSERS_FROM || rate > BROWSERS_TO) {
      throw new Refusal(
          file + ": browsers play 8 to 96 kHz; convert the recording to 48 kHz first.");
    }
    float[] samples = recording.channel(1);
    int most = (int) (MOST_BYTES * SHARE_OF_BASE_64 / 2);
    if (samples.length > most) {
      throw new Refusal(
          String.format(
              Locale.ROOT,
              "%s: is longer than the %.0f s that a page of 3 MB can carry: cut out a few strikes.",
              file,
              Math.floor(most / (double) rate)));
    }
    double peak = 0;
    for (float sample : samples) {
      peak = Math.max(peak, Math.abs(sample));
    }
    if (!(peak > 0)) {
      throw new Refusal(file + ": there is nothing to hear in it: record a strike.");
    }
    ByteBuffer words = ByteBuffer.allocate(2 * samples.length).order(ByteOrder.LITTLE_ENDIAN);
    for (float sample : samples) {
      words.putShort((short) Math.round(sample / peak * FULL_SCALE));
    }
    return new CarriedStrike(rate, Base64.getEncoder().encodeToString(words.array()));
  }
}
