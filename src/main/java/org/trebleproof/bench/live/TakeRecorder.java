package org.trebleproof.bench.live;

import org.trebleproof.audio.GrowingWavFile;
import org.trebleproof.audio.device.BlockListener;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.audio.device.PlayedSound;
import org.trebleproof.audio.device.SoundDeviceException;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.audio.device.TransportRun;
import org.trebleproof.bench.Stimulus;

/** Plays a stimulus once and writes what comes back to disk while it comes. */
final class TakeRecorder {

  /** Recording goes on so long after the last sound has left, for latency and ringing [s]. */
  private static final double TAIL = 0.6;

  private final LiveBench bench;
  private final Transport transport;
  private final LiveListener listener;

  TakeRecorder(LiveBench bench, Transport transport, LiveListener listener) {
    this.bench = bench;
    this.transport = transport;
    this.listener = listener;
  }

  /**
   * Records.
   *
   * @param stimulus with the level to play at
   * @throws StoppedException if stopped; what was recorded stays in the unfinished file
   * @throws SoundDeviceException if a device is lost; likewise
   */
  TransportRun record(Stimulus stimulus, UnfinishedRecording place) {
    int channels = Math.max(bench.referenceChannel(), bench.deviceChannel());
    LevelMeter meter = new LevelMeter(channels, bench.sampleRate());
    double length = stimulus.length() + Transport.LEAD_IN;
    long[] heard = {0};
    BlockListener shown =
        new MeterShow(
            meter,
            bench.sampleRate(),
            levels -> listener.levels(levels, Math.min(1, heard[0] / bench.sampleRate() / length)));
    TransportRun run;
    try (GrowingWavFile file = new GrowingWavFile(place.file(), channels, bench.sampleRate())) {
      run =
          transport.run(
              bench.playback(),
              PlayedSound.of(new float[][] {stimulus.samples()}, 0),
              bench.recording(),
              TAIL,
              (block, frames) -> {
                file.append(block, frames);
                heard[0] += frames;
                shown.block(block, frames);
              });
    } catch (SoundDeviceException e) {
      throw new SoundDeviceException(
          e.getMessage() + " " + place.kept(heard[0] / (double) bench.sampleRate()), e);
    }
    if (run.stopped()) {
      throw new StoppedException("Stopped. " + place.kept(heard[0] / (double) bench.sampleRate()));
    }
    return run;
  }
}
