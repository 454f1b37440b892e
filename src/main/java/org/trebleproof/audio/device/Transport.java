package org.trebleproof.audio.device;

import java.util.Optional;

/**
 * Plays and records at the same time, on the calling thread, until the sound has ended or {@link
 * #stop()} is called from another thread, whereupon the sound fades out within 20 ms. Where it
 * records, playback starts only when the first recorded sound has come in, and with a silence: some
 * systems need seconds to begin, and lose some milliseconds as a second stream joins.
 */
public final class Transport {

  /** Length of the fade after {@link #stop()} [s]; with one block's wait before it under 20 ms. */
  public static final double FADE = 0.01;

  /** Sound is handed over in blocks of this length [s]. */
  private static final double BLOCK = 0.005;

  /** Sound kept ready in the playback queue, and room in the recording queue [s]. */
  private static final double PLAYBACK_QUEUE = 0.25;

  private static final double RECORDING_QUEUE = 2;

  /** Silence before the sound where there is a recording too [s]. */
  public static final double LEAD_IN = 0.3;

  /** Between two looks at the lines [s]. */
  private static final double REST = 0.002;

  /** A device that gives or takes nothing for this long is gone; the first sound may be later. */
  private static final double PATIENCE = 1.5;

  private static final double FIRST_PATIENCE = 6;

  /** A playback queue that has not moved for so long at the end of the sound holds none of it. */
  private static final double SETTLED = 0.5;

  private final SoundSystem system;
  private volatile boolean stopping;
  private volatile boolean running;

  public Transport(SoundSystem system) {
    this.system = system;
  }

  /** Ends a run soon, without a click; does nothing where none is going on. */
  public void stop() {
    stopping = running;
  }

  /**
   * Plays to the end, or until stopped.
   *
   * @throws SoundDeviceException if the device does not open or is lost
   */
  public TransportRun play(SoundDevice device, DeviceFormat format, PlayedSound sound) {
    return play(device, format, sound, PLAYBACK_QUEUE);
  }

  /**
   * Plays to the end, or until stopped, with less or more sound kept ready.
   *
   * @param queue sound kept ready in the playback queue [s]
   * @throws SoundDeviceException if the device does not open or is lost
   */
  public TransportRun play(
      SoundDevice device, DeviceFormat format, PlayedSound sound, double queue) {
    return go(
        Optional.of(new Route(device, format)), sound, queue, Optional.empty(), 0, (b, n) -> {});
  }

  /**
   * Records until stopped.
   *
   * @throws SoundDeviceException if the device does not open or is lost
   */
  public TransportRun listen(SoundDevice device, DeviceFormat format, BlockListener listener) {
    return go(
        Optional.empty(),
        PlayedSound.silence(),
        PLAYBACK_QUEUE,
        Optional.of(new Route(device, format)),
        0,
        listener);
  }

  /**
   * Plays and records at the same time.
   *
   * @param tail how long to go on recording after the sound has left the playback queue [s]
   * @throws SoundDeviceException if a device does not open or is lost; what was recorded until then
   *     has been handed to the listener
   */
  public TransportRun run(
      Route playback, PlayedSound sound, Route recording, double tail, BlockListener listener) {
    return go(Optional.of(playback), sound, PLAYBACK_QUEUE, Optional.of(recording), tail, listener);
  }

  /** A device and the format to open it in. */
  public record Route(SoundDevice device, DeviceFormat format) {}

  private TransportRun go(
      Optional<Route> playback,
      PlayedSound sound,
      double queue,
      Optional<Route> recording,
      double tail,
      BlockListener listener) {
    if (running) {
      throw new IllegalStateException("the transport runs already");
    }
    stopping = false;
    running = true;
    try (RecordingLine in =
            recording
                .map(r -> system.openRecording(r.device(), r.format(), RECORDING_QUEUE))
                .orElse(null);
        PlaybackLine out =
            playback.map(r -> system.openPlayback(r.device(), r.format(), queue)).orElse(null)) {
      return new Passage(
              out == null
                  ? null
                  : new PlaybackFeed(out, sound, in == null ? 0 : out.format().frames(LEAD_IN)),
              in,
              recording,
              playback,
              listener)
          .run(tail);
    } finally {
      running = false;
    }
  }

  /** One run from its first block to its last. */
  private final class Passage {
    private final PlaybackFeed feed;
    private final RecordingLine in;
    private final String inName;
    private final String outName;
    private final BlockListener listener;
    private final float[][] heard;
    private long recorded;
    private int fullQueues;

    /** When sound was heard last, and when some was taken last [s]. */
    private double lastSound;

    private double lastTaken;

    /** When all was played [s]; NaN before. */
    private double ended = Double.NaN;

    /** Whether all was played though the device does not say so. */
    private boolean settled;

    private boolean stopped;

    Passage(
        PlaybackFeed feed,
        RecordingLine in,
        Optional<Route> recording,
        Optional<Route> playback,
        BlockListener listener) {
      this.feed = feed;
      this.in = in;
      this.listener = listener;
      inName = recording.map(r -> r.device().name()).orElse("");
      outName = playback.map(r -> r.device().name()).orElse("");
      heard =
          in == null
              ? new float[0][]
              : new float[in.format().channels()][Math.max(1, in.format().frames(BLOCK))];
    }

    TransportRun run(double tail) {
      lastSound = system.clock().seconds();
      lastTaken = lastSound;
      while (true) {
        boolean busy = in != null && hears();
        if (feed != null && (in == null || recorded > 0)) {
          busy |= feeds(tail);
        }
        if (isOver(tail)) {
          return finished();
        }
        if (!busy) {
          system.clock().rest(REST);
        }
      }
    }

    /** Takes in what there is; whether there was any. */
    private boolean hears() {
      boolean any = hear();
      double now = system.clock().seconds();
      if (any) {
        lastSound = now;
      } else if (now - lastSound > (recorded == 0 ? FIRST_PATIENCE : PATIENCE)) {
        throw lost(inName, recorded == 0 ? "gives no sound" : "was lost in mid-recording");
      }
      return any;
    }

    /** Hands out what there is room for; whether there was any. */
    private boolean feeds(double tail) {
      if (stopping && !stopped) {
        stopped = true;
        feed.fadeOut(FADE);
      }
      double now = system.clock().seconds();
      if (feed.top()) {
        lastTaken = now;
        return true;
      }
      if (feed.isDone()) {
        ended = Double.isNaN(ended) ? now : ended;
      } else if (feed.moved()) {
        lastTaken = now;
      } else if (now - lastTaken > SETTLED && isAllHeard(tail)) {
        settled = true;
      } else if (now - lastTaken > PATIENCE) {
        throw lost(outName, "has stopped taking sound");
      }
      return false;
    }

    private boolean isOver(double tail) {
      if (settled) {
        return true;
      }
      boolean nothingToFade = feed == null || in != null && recorded == 0;
      if (stopping && nothingToFade) {
        stopped = true;
        return true;
      }
      return stopped && feed.isDone()
          || !Double.isNaN(ended) && system.clock().seconds() - ended >= tail;
    }

    /**
     * Whether all of the sound was handed over and has had the time to be heard, by the recording's
     * own clock: some systems never say that a playback queue has run empty.
     */
    private boolean isAllHeard(double tail) {
      if (in == null || !feed.isHandedOver()) {
        return false;
      }
      double sounded = feed.played() / (double) feed.sampleRate() + LEAD_IN;
      return recorded / (double) in.format().sampleRate() >= sounded + tail;
    }

    private boolean hear() {
      int readable = in.readable();
      if (readable >= in.capacity()) {
        fullQueues++;
      }
      int count = Math.min(readable, heard[0].length);
      if (count <= 0) {
        return false;
      }
      int taken = in.read(heard, count);
      if (taken > 0) {
        listener.block(heard, taken);
        recorded += taken;
      }
      return taken > 0;
    }

    private TransportRun finished() {
      return new TransportRun(
          feed == null ? 0 : feed.played(),
          recorded,
          stopped,
          feed == null ? 0 : feed.dryQueues(),
          fullQueues);
    }

    private SoundDeviceException lost(String device, String what) {
      return new SoundDeviceException(
          "The sound device "
              + device
              + " "
              + what
              + ": check that it is plugged in and switched on and that no other program holds it,"
              + " then start again.");
    }
  }
}
