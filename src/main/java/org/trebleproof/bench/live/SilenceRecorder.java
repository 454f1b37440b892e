package org.trebleproof.bench.live;

import java.nio.file.Path;
import java.util.Locale;
import org.trebleproof.audio.GrowingWavFile;
import org.trebleproof.audio.device.BlockListener;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.audio.device.TransportRun;
import org.trebleproof.bench.hum.HumState;
import org.trebleproof.file.FileTurn;
import org.trebleproof.quantity.Refusal;

/** Records silence for the hum check: nothing is played, and it ends by itself. */
public final class SilenceRecorder {

  /** Hands need this long to get where the state wants them [s]. */
  private static final double READY = 4;

  /** What the hum check asks for [s]. */
  private static final double SECONDS = 10;

  private final LiveInput input;
  private final Transport transport;
  private final LiveListener listener;

  /**
   * A recorder.
   *
   * @param transport by which it can be broken off from another thread
   */
  public SilenceRecorder(LiveInput input, Transport transport, LiveListener listener) {
    this.input = input;
    this.transport = transport;
    this.listener = listener;
  }

  /**
   * Records the channel that counts.
   *
   * @param state in which the guitar is
   * @param target a file there is kept under another name
   * @throws Refusal if sound was lost, in one sentence
   * @throws StoppedException if broken off
   */
  public Path record(HumState state, Path target) {
    FileTurn turn = FileTurn.now(target);
    try {
      UnfinishedRecording place = UnfinishedRecording.of(target);
      place.putAside().ifPresent(s -> listener.step(s.sentence()));
      listener.step(
          String.format(
              Locale.ROOT,
              "Get ready, %s: it begins in %.0f s and takes %.0f s.",
              state.words(),
              READY,
              SECONDS));
      TransportRun run;
      Silence silence = new Silence(state);
      try (GrowingWavFile file = new GrowingWavFile(place.file(), 1, input.sampleRate())) {
        run =
            transport.listen(
                input.recording().device(),
                input.recording().format(),
                (block, frames) -> silence.hear(file, block, frames));
      }
      if (!silence.whole()) {
        place.drop();
        throw new StoppedException("Stopped: nothing of it was kept.");
      }
      if (!run.unbroken()) {
        place.drop();
        throw new Refusal(
            "The machine did not keep up, and sound was lost: close other programs and record the"
                + " silence again.");
      }
      place.finish();
      listener.step("Recorded: " + state.words() + ".");
      return target;
    } finally {
      turn.close();
    }
  }

  /** What is kept of the sound that comes in. */
  private final class Silence {
    private final HumState state;
    private final long ready = Math.round(READY * input.sampleRate());
    private final long end = Math.round((READY + SECONDS) * input.sampleRate());
    private final BlockListener shown =
        new MeterShow(
            new LevelMeter(input.channel(), input.sampleRate()),
            input.sampleRate(),
            levels -> listener.levels(levels, share()));
    private long heard;

    Silence(HumState state) {
      this.state = state;
    }

    private double share() {
      return Math.max(0, Math.min(1, (heard - ready) / (double) (end - ready)));
    }

    boolean whole() {
      return heard >= end;
    }

    void hear(GrowingWavFile file, float[][] block, int frames) {
      shown.block(block, frames);
      int from = (int) Math.max(0, Math.min(frames, ready - heard));
      int to = (int) Math.max(from, Math.min(frames, end - heard));
      if (heard <= ready && heard + frames > ready) {
        listener.step("Recording " + state.words() + ": do not move.");
      }
      if (to > from) {
        float[] kept = java.util.Arrays.copyOfRange(block[input.channel() - 1], from, to);
        file.append(new float[][] {kept}, kept.length);
      }
      heard += frames;
      if (whole()) {
        transport.stop();
      }
    }
  }
}
