package org.trebleproof.bench.hum;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.signal.hum.QuietTake;

/** Reads the recordings of a visit and sorts out those that cannot be used. */
final class SilenceFiles {

  private static final double USUAL_LENGTH = 10;
  private static final double LOWEST_RATE = 44100;

  /** Longer recordings are cut to this, so that memory stays small [s]. */
  private static final int LONGEST = 60;

  private final int channel;
  private final List<Finding> findings;

  SilenceFiles(int channel, List<Finding> findings) {
    this.channel = channel;
    this.findings = findings;
  }

  /** Recordings that can be used; findings say why others cannot. */
  Map<HumState, Recording> read(Map<HumState, Path> files, String visit) {
    Map<HumState, Recording> usable = new EnumMap<>(HumState.class);
    Map<HumState, Recording> recordings = SideBySide.map(files, (state, file) -> read(file));
    Recording first = null;
    for (Map.Entry<HumState, Recording> entry : recordings.entrySet()) {
      Recording recording = entry.getValue();
      String name = recording.file().getFileName() + " (" + visit + entry.getKey().words() + ")";
      float[] samples = samples(recording, channel);
      refuseTwins(name, samples, usable);
      if (silent(samples)) {
        tellOfSilence(name, recording);
      } else if (clipped(samples)) {
        findings.add(
            Finding.of(
                FindingCode.CLIPPED,
                name + " is overdriven and was left out.",
                "samples stand at full scale",
                "Record it again with less gain, and all other states with the same gain."));
      } else {
        tellOfShape(name, recording, first);
        first = first == null ? recording : first;
        usable.put(entry.getKey(), recording);
      }
    }
    return usable;
  }

  /** The channel with the guitar. */
  static float[] samples(Recording recording, int channel) {
    int channels = recording.channels().length;
    if (channel > channels) {
      throw new Refusal(
          String.format(
              Locale.ROOT,
              "%s: has %s, so there is no channel %d; %s.",
              recording.file().getFileName(),
              channels == 1 ? "one channel" : channels + " channels",
              channel,
              channels == 1 ? "leave --channel out" : "give --channel the one with the guitar"));
    }
    return recording.channel(channel);
  }

  /** One file given for two states would look like a touch that changes nothing. */
  private void refuseTwins(String name, float[] samples, Map<HumState, Recording> others) {
    for (Map.Entry<HumState, Recording> other : others.entrySet()) {
      if (Arrays.equals(samples, other.getValue().channel(channel))) {
        throw new Refusal(
            name
                + ": is the same recording as that of the state "
                + other.getKey().words()
                + "; every state needs its own.");
      }
    }
  }

  /** Reads one file, refusing what is too short or too coarse for any state. */
  static Recording read(Path file) {
    Recording recording = SoundFile.read(file);
    if (recording.seconds() < QuietTake.SHORTEST) {
      throw new Refusal(
          String.format(
              Locale.ROOT,
              "%s: lasts only %.1f s; record ten seconds, at the very least three.",
              file.getFileName(),
              recording.seconds()));
    }
    if (recording.sampleRate() < LOWEST_RATE) {
      throw new Refusal(
          String.format(
              Locale.ROOT,
              "%s: has a sample rate of %.0f Hz, too low to judge buzz and hiss; record at 44100 Hz"
                  + " or more.",
              file.getFileName(),
              recording.sampleRate()));
    }
    int longest = (int) (LONGEST * recording.sampleRate());
    if (recording.frames() <= longest) {
      return recording;
    }
    float[][] cut = new float[recording.channels().length][];
    for (int c = 0; c < cut.length; c++) {
      cut[c] = Arrays.copyOf(recording.channels()[c], longest);
    }
    return new Recording(
        file, cut, recording.sampleRate(), recording.bits(), recording.floatingPoint());
  }

  private void tellOfSilence(String name, Recording recording) {
    String next =
        recording.channels().length > 1
            ? "Check which channel the guitar is on and give it with --channel."
            : "Check that the input is armed, then record it again.";
    findings.add(
        Finding.of(
            FindingCode.SILENT,
            name + " holds nothing at all on channel " + channel + " and was left out.",
            "every sample is the same; a real input always hisses",
            next));
  }

  private void tellOfShape(String name, Recording recording, Recording first) {
    if (recording.seconds() < USUAL_LENGTH - 0.5) {
      findings.add(
          Finding.of(
              FindingCode.SHORT,
              String.format(Locale.ROOT, "%s lasts only %.1f s.", name, recording.seconds()),
              "the intervals are wider for it",
              "Record ten seconds."));
    }
    if (first != null && first.sampleRate() != recording.sampleRate()) {
      findings.add(
          Finding.of(
              FindingCode.RATE_DIFFERS,
              String.format(
                  Locale.ROOT,
                  "%s was recorded at %.0f Hz, %s at %.0f Hz.",
                  name,
                  recording.sampleRate(),
                  first.file().getFileName(),
                  first.sampleRate()),
              "levels below 20 kHz can still be compared",
              "Record all states in one project with one rate, so that nothing else differs."));
    }
  }

  private static boolean silent(float[] samples) {
    float low = Float.MAX_VALUE;
    float high = -Float.MAX_VALUE;
    for (float sample : samples) {
      low = sample < low ? sample : low;
      high = sample > high ? sample : high;
    }
    return high - low <= 0;
  }

  /** Three samples in a row at full scale, ten times over: more than a click. */
  static boolean clipped(float[] samples) {
    int run = 0;
    int runs = 0;
    for (float sample : samples) {
      run = Math.abs(sample) > 0.9995 ? run + 1 : 0;
      runs += run == 3 ? 1 : 0;
    }
    return runs > 10;
  }
}
