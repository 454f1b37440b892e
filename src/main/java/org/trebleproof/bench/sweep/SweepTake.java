package org.trebleproof.bench.sweep;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleConsumer;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.SoundSink;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.signal.sweep.SweepFinder;
import org.trebleproof.signal.sweep.SweepPlace;

/**
 * The two channels of a sweep capture. Of a long take, such as a recorder left running, only the
 * stretch with the most sweeps is held in memory: the file is heard through once to find it, and
 * read a second time up to its end.
 *
 * @param reference channel
 * @param device channel, as long
 * @param sampleRate [Hz]
 * @param bits of one sample as recorded
 * @param excerpt says which stretch this is, if it is not the whole
 */
record SweepTake(
    float[] reference, float[] device, double sampleRate, int bits, Optional<Finding> excerpt) {

  /** A take of more samples per channel than this is long: 4 minutes at 48 kHz. */
  static final int LONG = 12_000_000;

  /** Silence kept on either side of a stretch, from which hum and noise are learnt [s]. */
  private static final double BESIDE = 1.5;

  /** Sweeps much shorter than the longest are cut off or something else. */
  private static final double WHOLE = 0.98;

  /**
   * Reads a capture.
   *
   * @param capture its name
   * @param reference channel, from 1
   * @param device channel, from 1
   * @param most samples per channel to hold in memory, where that does not cut a sweep off
   * @param heard is told the share of the file that was heard
   * @throws org.trebleproof.audio.SoundFileException if the file cannot be used
   */
  static SweepTake read(
      String capture, Path file, int reference, int device, int most, DoubleConsumer heard) {
    Excerpt head = new Excerpt(file, reference, device, 0, most, Optional.of(heard));
    SoundFile.read(file, head);
    if (head.at <= most) {
      return head.take(Optional.empty());
    }
    List<SweepPlace> places = head.finder.places();
    int beside = (int) (BESIDE * head.sampleRate);
    int longest = places.stream().mapToInt(SweepPlace::length).max().orElse(0);
    List<SweepPlace> whole = places.stream().filter(p -> p.length() >= WHOLE * longest).toList();
    if (whole.isEmpty()) {
      return head.take(Optional.empty());
    }
    int first = 0;
    int count = 0;
    for (int i = 0; i < whole.size(); i++) {
      int j = i;
      while (j + 1 < whole.size()
          && whole.get(j + 1).end() - whole.get(i).start() + 2 * beside <= most) {
        j++;
      }
      if (j - i + 1 > count) {
        first = i;
        count = j - i + 1;
      }
    }
    int from = Math.max(0, whole.get(first).start() - beside);
    int to = (int) Math.min(head.at, (long) whole.get(first + count - 1).end() + beside);
    Excerpt excerpt = new Excerpt(file, reference, device, from, to, Optional.empty());
    head.forget();
    SoundFile.read(file, excerpt);
    return excerpt.take(
        Optional.of(
            Finding.of(
                FindingCode.LONG_TAKE,
                String.format(
                    Locale.ROOT,
                    "Capture %s: of a take of %s the stretch from %s to %s is used, in which most"
                        + " sweeps lie.",
                    capture,
                    clock(head.at / head.sampleRate),
                    clock(from / head.sampleRate),
                    clock(to / head.sampleRate)),
                count + " of " + whole.size() + (whole.size() == 1 ? " sweep" : " whole sweeps"),
                "Where other sweeps were meant, cut the take and name that file.")));
  }

  /** The same, recorded at another rate than the file says. */
  SweepTake recordedAt(OptionalDouble rate) {
    return rate.isEmpty()
        ? this
        : new SweepTake(reference, device, rate.getAsDouble(), bits, excerpt);
  }

  /** Minutes and seconds. */
  private static String clock(double seconds) {
    long whole = Math.round(seconds);
    return String.format(Locale.ROOT, "%d:%02d", whole / 60, whole % 60);
  }

  /** Both channels of a part of a file, the whole of which may be listened to beside. */
  private static final class Excerpt implements SoundSink {
    private static final int FIRST = 1 << 20;

    private final Path file;
    private final int from;
    private final int to;
    private final Optional<DoubleConsumer> heard;
    private final int[] wanted;
    private final float[][] kept = {{}, {}};
    private int filled;
    private SweepFinder finder;
    private double sampleRate;
    private int bits;
    private long announced;
    private long at;

    /**
     * @param heard is told how much of the file was listened to; empty where nobody listens beyond
     *     the part
     */
    Excerpt(
        Path file, int reference, int device, int from, int to, Optional<DoubleConsumer> heard) {
      this.file = file;
      this.from = from;
      this.to = to;
      this.heard = heard;
      wanted = new int[] {reference, device};
    }

    @Override
    public void begin(int channels, long frames, double rate, int sampleBits, boolean floating) {
      // Says in the usual words which channel is not there.
      Recording empty = new Recording(file, new float[channels][0], rate, sampleBits, floating);
      empty.channel(wanted[0]);
      empty.channel(wanted[1]);
      sampleRate = rate;
      bits = sampleBits;
      announced = frames;
      finder = new SweepFinder(rate);
      grow((int) Math.min(to - from, frames > 0 ? Math.max(0, frames - from) : FIRST));
    }

    private void grow(int size) {
      for (int c = 0; c < kept.length; c++) {
        kept[c] = Arrays.copyOf(kept[c], size);
      }
    }

    @Override
    public boolean take(float[][] samples, int count) {
      int begin = (int) Math.max(0, from - at);
      int end = (int) Math.min(count, to - at);
      if (end > begin) {
        if (filled + end - begin > kept[0].length) {
          grow(Math.min(to - from, 2 * kept[0].length + count));
        }
        for (int c = 0; c < kept.length; c++) {
          System.arraycopy(samples[wanted[c] - 1], begin, kept[c], filled, end - begin);
        }
        filled += end - begin;
      }
      at += count;
      if (heard.isEmpty()) {
        return at < to;
      }
      finder.hear(samples[wanted[0] - 1], count);
      if (announced > 0) {
        heard.get().accept((double) at / announced);
      }
      return true;
    }

    /** Gives the memory back. */
    void forget() {
      grow(0);
    }

    SweepTake take(Optional<Finding> finding) {
      grow(filled);
      return new SweepTake(kept[0], kept[1], sampleRate, bits, finding);
    }
  }
}
