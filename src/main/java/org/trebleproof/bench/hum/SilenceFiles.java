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
import org.trebleproof.signal.hum.LiveStretch;
import org.trebleproof.signal.hum.QuietTake;

/** Reads the recordings of a visit and sorts out those that cannot be used. */
final class SilenceFiles {

  private static final double USUAL_LENGTH = 10;
  private static final double LOWEST_RATE = 44100;

  /** Longer recordings are cut to this, so that memory stays small [s]. */
  private static final int LONGEST = 60;

  /** Less of nothing at the ends of a recording is not worth a word [s]. */
  private static final double SHORTEST_TOLD = 0.1;

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
      String name = name(recording, visit, entry.getKey());
      float[] samples = samples(recording, channel);
      refuseTwins(name, samples, usable);
      LiveStretch live = LiveStretch.of(samples, recording.sampleRate());
      if (!usable(live, samples, recording)) {
        tellOfSilence(name, recording, live);
      } else if (clipped(samples)) {
        findings.add(
            Finding.of(
                FindingCode.CLIPPED,
                name + " is overdriven and was left out.",
                "samples stand at full scale",
                "Record it again with less gain, and all other states with the same gain."));
      } else {
        Recording cut = cut(name, recording, live);
        tellOfShape(name, cut, first);
        first = first == null ? cut : first;
        usable.put(entry.getKey(), cut);
      }
    }
    return usable;
  }

  /** As which recording of which state findings name it. */
  static String name(Recording recording, String visit, HumState state) {
    return recording.file().getFileName() + " (" + visit + state.words() + ")";
  }

  private static boolean usable(LiveStretch live, float[] samples, Recording recording) {
    return live.length() >= QuietTake.SHORTEST * recording.sampleRate()
        && !live.roundingOnly(samples);
  }

  /** Whether a channel holds enough to be judged. */
  static boolean soundsOn(Recording recording, int number) {
    float[] samples = recording.channel(number);
    return usable(LiveStretch.of(samples, recording.sampleRate()), samples, recording);
  }

  /** The recording without what holds nothing. */
  private Recording cut(String name, Recording recording, LiveStretch live) {
    double nothing = live.nothing() / recording.sampleRate();
    if (live.length() == recording.frames()) {
      return recording;
    }
    if (nothing > SHORTEST_TOLD) {
      findings.add(
          Finding.of(
              FindingCode.PARTLY_NOTHING,
              String.format(
                  Locale.ROOT,
                  "%s holds nothing at all for %.1f s; the longest stretch with sound in it counts,"
                      + " %.1f s.",
                  name,
                  nothing,
                  live.length() / recording.sampleRate()),
              "every sample is the same there; a real input always hisses",
              "Switch noise gates off, and let the recorder run before and after the ten seconds."));
    }
    return between(recording, live.from(), live.to());
  }

  private static Recording between(Recording recording, int from, int to) {
    float[][] cut = new float[recording.channels().length][];
    for (int c = 0; c < cut.length; c++) {
      cut[c] = Arrays.copyOfRange(recording.channels()[c], from, to);
    }
    return new Recording(
        recording.file(), cut, recording.sampleRate(), recording.bits(), recording.floatingPoint());
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
    return between(recording, 0, longest);
  }

  private void tellOfSilence(String name, Recording recording, LiveStretch live) {
    double seconds = live.length() / recording.sampleRate();
    String what =
        live.length() < SHORTEST_TOLD * recording.sampleRate()
                || live.roundingOnly(recording.channel(channel))
            ? " holds nothing at all on channel " + channel + " and was left out."
            : String.format(
                Locale.ROOT,
                " holds something for only %.1f s on channel %d, too little to judge, and was left"
                    + " out.",
                seconds,
                channel);
    findings.add(
        Finding.of(
            FindingCode.SILENT,
            name + what,
            "elsewhere every sample is the same, or rounding is all there is; a real input always"
                + " hisses",
            next(recording)));
  }

  /** What to do about a channel with nothing on it: another one may hold the guitar. */
  private static String next(Recording recording) {
    for (int number = 1; number <= recording.channels().length; number++) {
      if (soundsOn(recording, number)) {
        return "The guitar is on channel " + number + ": say so with --channel " + number + ".";
      }
    }
    return "Check that the input is armed and noise gates are off, then record it again.";
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
