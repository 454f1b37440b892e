package org.trebleproof.report.demonstration;

import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.plot.Xml;

/**
 * The two sounds of a job of two setups, for the customer's page: recorded strikes as they were
 * recorded, or computed strings through the two circuits as they were measured. They keep their
 * difference in loudness, start quiet and play only when they are asked to.
 *
 * @param names of the two setups
 * @param sounds samples of each, full scale 1
 * @param rate samples per second
 * @param words how they came about
 */
public record TwoSounds(List<String> names, List<float[]> sounds, int rate, String words) {
  private static final double LONGEST = 6;

  /** Of each sound, so that the page stays below three megabytes. */
  private static final int MOST_SAMPLES = 400_000;

  /** The louder of the two peaks here [dB re full scale]. */
  private static final double PEAK = -20;

  private static final double ONSET = 0.05;
  private static final double LEAD_IN = 0.1;
  private static final double FADE = 0.1;

  public TwoSounds {
    names = List.copyOf(names);
    sounds = List.copyOf(sounds);
  }

  /**
   * The sounds of a job.
   *
   * @param chain the guitar as measured; empty where its parts were not told
   * @throws Refusal when there is nothing to hear
   */
  public static TwoSounds of(Job job, Optional<SignalChain> chain) {
    List<Setup> setups = List.copyOf(job.setups().values());
    Setup first = setups.get(0);
    Setup last = setups.get(setups.size() - 1);
    List<String> names = List.of(first.name(), last.name());
    if (job.fixture() instanceof Fixture.Strike strike) {
      return recorded(
          names,
          List.of(
              capture(job, first, strike.deviceChannel()),
              capture(job, last, strike.deviceChannel())));
    }
    SignalChain guitar =
        chain.orElseThrow(
            () ->
                new Refusal(
                    job.source().getFileName()
                        + " does not tell its parts, so there are no two sounds: leave --sounds"
                        + " out."));
    Rendering made =
        Rendering.of(
            guitar,
            guitar.layout(Optional.of(first.name())),
            guitar.layout(Optional.of(last.name())),
            Optional.empty(),
            false);
    return new TwoSounds(
        names,
        List.of(made.before(), made.after()),
        made.rate(),
        String.format(
            Locale.ROOT,
            "Six open strings, computed, through the two circuits as measured; the loudness changes"
                + " by %+.1f LU.",
            made.loudnessAfter() - made.loudnessBefore()));
  }

  private record Taken(float[] samples, int rate) {}

  private static Taken capture(Job job, Setup setup, int channel) {
    CaptureEntry entry =
        job.captures().stream()
            .filter(c -> c.setup().equals(setup.name()) && c.across().isEmpty())
            .findFirst()
            .orElseThrow(
                () ->
                    new Refusal(
                        Refusal.quote(setup.name())
                            + " has no recording without a part clipped on, so there are no two"
                            + " sounds: leave --sounds out."));
    Recording recording = SoundFile.read(entry.file());
    return new Taken(recording.channel(channel), (int) Math.round(recording.sampleRate()));
  }

  private static TwoSounds recorded(List<String> names, List<Taken> takes) {
    if (takes.get(0).rate() != takes.get(1).rate()) {
      throw new Refusal(
          "The two recordings have different sample rates, so they are no pair to be heard: leave"
              + " --sounds out.");
    }
    int rate = takes.get(0).rate();
    List<float[]> cut = takes.stream().map(t -> beginning(t.samples(), rate)).toList();
    double peak = Math.max(peak(cut.get(0)), peak(cut.get(1)));
    double gain = Math.pow(10, PEAK / 20) / Math.max(peak, Float.MIN_NORMAL);
    for (float[] sound : cut) {
      for (int i = 0; i < sound.length; i++) {
        double end = Math.min(1, (sound.length - 1 - i) / (FADE * rate));
        sound[i] = (float) (gain * end * sound[i]);
      }
    }
    return new TwoSounds(
        names,
        cut,
        rate,
        "The first strikes of either recording, as they were recorded: no two strikes are alike, so"
            + " what differs is not the change alone.");
  }

  /** From just before the first strike on. */
  private static float[] beginning(float[] samples, int rate) {
    double threshold = ONSET * peak(samples);
    int onset = 0;
    while (onset < samples.length - 1 && Math.abs(samples[onset]) < threshold) {
      onset++;
    }
    int from = Math.max(0, onset - (int) (LEAD_IN * rate));
    int count = Math.min(samples.length - from, Math.min((int) (LONGEST * rate), MOST_SAMPLES));
    return java.util.Arrays.copyOfRange(samples, from, from + count);
  }

  private static double peak(float[] samples) {
    double peak = 0;
    for (float sample : samples) {
      peak = Math.max(peak, Math.abs(sample));
    }
    return peak;
  }

  /** A piece of a page that lets them be heard. */
  public String html() {
    StringBuilder html = new StringBuilder("<div class=\"sounds\">\n");
    for (int i = 0; i < names.size(); i++) {
      byte[] wav = WavWriter.bytes(new float[][] {sounds.get(i)}, rate, WavWriter.Encoding.PCM16);
      String name = Xml.escaped(names.get(i));
      html.append("<p><span>").append(name).append("</span> <audio controls=\"controls\"");
      html.append(" preload=\"none\" aria-label=\"").append(name).append("\"");
      html.append(" src=\"data:audio/wav;base64,");
      html.append(Base64.getEncoder().encodeToString(wav)).append("\"></audio></p>\n");
    }
    html.append("<p class=\"caption\">")
        .append(
            Xml.escaped(
                words
                    + " Start quiet, above all with headphones: 85 dB(A) is a day's dose in 8 hours,"
                    + " 100 dB(A) in 15 minutes (NIOSH 98-126)."))
        .append("</p>\n</div>\n");
    return html.toString();
  }
}
