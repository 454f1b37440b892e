package org.trebleproof.audio.device;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.NavigableMap;
import java.util.TreeMap;

/**
 * A sound interface with a cable from its output to its inputs and a clock that stands still until
 * someone rests: no test waits. What is played comes back through {@link Wiring} after a latency;
 * faults are injected at moments of the recording's own time.
 */
public final class SimulatedSoundSystem implements SoundSystem {

  /** What lies between the output and the two inputs; called once per recorded frame, in order. */
  @FunctionalInterface
  public interface Wiring {
    void pass(double played, double[] recorded);
  }

  /** Taps to each side of the interpolator for clocks that differ. */
  private static final int TAPS = 32;

  private final SoundDevice playback =
      new SoundDevice(SoundDevice.Direction.PLAYBACK, "simulated out", "made up for tests");
  private final SoundDevice recording =
      new SoundDevice(SoundDevice.Direction.RECORDING, "simulated in", "made up for tests");

  private double now = 100;
  private double latency = 0.03;
  private double drift;
  private double startDelay = 0.1;
  private double lostFrom = Double.POSITIVE_INFINITY;
  private double quantum;
  private int neverTaken;
  private Wiring wiring = (played, recorded) -> Arrays.fill(recorded, played);
  private final NavigableMap<Double, Double> latencyChanges = new TreeMap<>();
  private final NavigableMap<Double, Double> cuts = new TreeMap<>();
  private final NavigableMap<Double, Double> silences = new TreeMap<>();
  private int faultyRun;
  private int runs;
  private Playback out;
  private double[] air = new double[1 << 16];
  private int airLength;
  private double airStart = Double.NaN;
  private int airRate = 48000;
  private double loudest;

  /** Time from the output to the input [s]. */
  public SimulatedSoundSystem latency(double seconds) {
    latency = seconds;
    return this;
  }

  /** The latency grows by this much at a moment of the recording [s]. */
  public SimulatedSoundSystem latencyStep(double at, double by) {
    latencyChanges.put(at, by);
    return this;
  }

  /** How much faster the recording clock runs than the playback clock, relative. */
  public SimulatedSoundSystem drift(double relative) {
    drift = relative;
    return this;
  }

  /** What lies between output and inputs. */
  public SimulatedSoundSystem wiring(Wiring between) {
    wiring = between;
    return this;
  }

  /** At a moment of the recording this much of it is lost, and what follows moves up [s]. */
  public SimulatedSoundSystem cut(double at, double seconds) {
    cuts.put(at, seconds);
    return this;
  }

  /** From a moment of the recording on it is silent for so long [s]. */
  public SimulatedSoundSystem silence(double at, double seconds) {
    silences.put(at, seconds);
    return this;
  }

  /** The recording device is pulled out at a moment of the recording [s]. */
  public SimulatedSoundSystem unplugAt(double seconds) {
    lostFrom = seconds;
    return this;
  }

  /** The playback queue never says that these last frames of it have left. */
  public SimulatedSoundSystem neverQuiteEmpty(int frames) {
    neverTaken = frames;
    return this;
  }

  /** Recorded sound arrives in lumps of this length only [s]. */
  public SimulatedSoundSystem lumps(double seconds) {
    quantum = seconds;
    return this;
  }

  /** Cuts, silences, latency steps and unplugging happen in this recording only, from 1. */
  public SimulatedSoundSystem onlyInRun(int number) {
    faultyRun = number;
    return this;
  }

  /** Recordings begun so far. */
  public int runs() {
    return runs;
  }

  /** The largest sample that was ever played. */
  public double loudest() {
    return loudest;
  }

  /** All that left the output since it first sounded. */
  public float[] played() {
    advance();
    float[] all = new float[airLength];
    for (int i = 0; i < airLength; i++) {
      all[i] = (float) air[i];
    }
    return all;
  }

  public SoundDevice playback() {
    return playback;
  }

  public SoundDevice recording() {
    return recording;
  }

  @Override
  public List<SoundDevice> devices() {
    return List.of(playback, recording);
  }

  @Override
  public List<DeviceFormat> formats(SoundDevice device) {
    List<DeviceFormat> formats = new ArrayList<>();
    for (int rate : new int[] {44100, 48000, 96000}) {
      for (int bits : new int[] {16, 24}) {
        formats.add(new DeviceFormat(rate, bits, 2));
      }
    }
    return formats;
  }

  @Override
  public SoundClock clock() {
    return new SoundClock() {
      @Override
      public double seconds() {
        return now;
      }

      @Override
      public void rest(double seconds) {
        now += seconds;
      }
    };
  }

  @Override
  public PlaybackLine openPlayback(SoundDevice device, DeviceFormat format, double queueSeconds) {
    check(device, playback, format);
    out = new Playback(format, format.frames(queueSeconds));
    airLength = 0;
    airStart = Double.NaN;
    airRate = format.sampleRate();
    return out;
  }

  @Override
  public RecordingLine openRecording(SoundDevice device, DeviceFormat format, double queueSeconds) {
    check(device, recording, format);
    runs++;
    return new Recording(format, format.frames(queueSeconds));
  }

  private void check(SoundDevice device, SoundDevice wanted, DeviceFormat format) {
    if (!device.equals(wanted)) {
      throw new SoundDeviceException("There is no sound device " + device.name() + ": plug it in.");
    }
    if (!formats(device).contains(format)) {
      throw new SoundDeviceException(
          "The sound device " + device.name() + " does not open so: choose another format.");
    }
  }

  /** Moves queued sound into the air up to now. */
  private void advance() {
    if (out == null || Double.isNaN(airStart)) {
      return;
    }
    int until = (int) Math.floor((now - airStart) * airRate + 1e-6);
    if (until > air.length) {
      air = Arrays.copyOf(air, Math.max(until, 2 * air.length));
    }
    while (airLength < until) {
      air[airLength++] = out.take();
    }
  }

  /** The sound in the air at a time of the playback clock, in frames. */
  private double airAt(double position) {
    long nearest = Math.round(position);
    if (Math.abs(position - nearest) < 1e-4) {
      return nearest < 0 || nearest >= airLength ? 0 : air[(int) nearest];
    }
    int base = (int) Math.floor(position);
    if (base < -TAPS || base >= airLength + TAPS) {
      return 0;
    }
    double sum = 0;
    double sine = Math.sin(Math.PI * (position - base)) / Math.PI;
    for (int k = base - TAPS + 1; k <= base + TAPS; k++) {
      if (k >= 0 && k < airLength) {
        double x = position - k;
        double edge = 1 - x * x / TAPS / TAPS;
        sum += air[k] * edge * edge * ((k - base) % 2 == 0 ? sine : -sine) / x;
      }
    }
    return sum;
  }

  private final class Playback implements PlaybackLine {
    private final DeviceFormat format;
    private final double[] queue;
    private long written;
    private long taken;

    Playback(DeviceFormat format, int capacity) {
      this.format = format;
      queue = new double[capacity];
    }

    double take() {
      return taken < written ? queue[(int) (taken++ % queue.length)] : 0;
    }

    @Override
    public DeviceFormat format() {
      return format;
    }

    @Override
    public int capacity() {
      return queue.length;
    }

    @Override
    public int writable() {
      advance();
      int waiting = (int) (written - taken);
      return queue.length - (written == 0 ? 0 : Math.max(waiting, neverTaken));
    }

    @Override
    public void write(float[][] block, int frames) {
      if (frames > writable()) {
        throw new IllegalStateException("more was written than there is room for");
      }
      for (int i = 0; i < frames; i++) {
        loudest = Math.max(loudest, Math.abs(block[0][i]));
        queue[(int) (written++ % queue.length)] = block[0][i];
      }
    }

    @Override
    public void start() {
      airStart = now;
    }

    @Override
    public int discard() {
      advance();
      int queued = (int) (written - taken);
      written = taken;
      return queued;
    }

    @Override
    public void close() {
      advance();
      written = taken;
    }
  }

  private final class Recording implements RecordingLine {
    private final DeviceFormat format;
    private final int capacity;
    private final double opened = now;
    private final double[] frame = new double[2];
    private final boolean faulty = faultyRun == 0 || faultyRun == runs;
    private long read;
    private double shift;

    Recording(DeviceFormat format, int capacity) {
      this.format = format;
      this.capacity = capacity;
    }

    @Override
    public DeviceFormat format() {
      return format;
    }

    @Override
    public int capacity() {
      return capacity;
    }

    @Override
    public int readable() {
      double since = now - opened - startDelay;
      if (faulty) {
        since = Math.min(since, lostFrom);
      }
      if (quantum > 0) {
        since = Math.floor(since / quantum + 1e-9) * quantum;
      }
      long there = (long) Math.floor(since * format.sampleRate() * (1 + drift) + 1e-6);
      return (int) Math.max(0, Math.min(capacity, there - read));
    }

    @Override
    public int read(float[][] block, int frames) {
      if (frames > readable()) {
        throw new IllegalStateException("more was read than there is");
      }
      advance();
      for (int i = 0; i < frames; i++) {
        double own = read / (double) format.sampleRate() / (1 + drift);
        shift = 0;
        if (faulty) {
          cuts.headMap(own, true).values().forEach(c -> shift += c);
          latencyChanges.headMap(own, true).values().forEach(c -> shift -= c);
        }
        double position =
            (opened + startDelay + own + shift - latency - airStart) * format.sampleRate();
        wiring.pass(Double.isNaN(airStart) ? 0 : airAt(position), frame);
        var silence = silences.floorEntry(own);
        boolean silent = faulty && silence != null && own < silence.getKey() + silence.getValue();
        double step = Math.scalb(1.0, 1 - format.bits());
        for (int c = 0; c < block.length; c++) {
          double limited = Math.max(-1, Math.min(1 - step, frame[c]));
          block[c][i] = silent ? 0 : (float) (Math.rint(limited / step) * step);
        }
        read++;
      }
      return frames;
    }

    @Override
    public void close() {
      read = Long.MAX_VALUE / 2;
    }
  }
}
