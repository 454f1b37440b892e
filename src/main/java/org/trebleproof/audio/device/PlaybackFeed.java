package org.trebleproof.audio.device;

/** Keeps a playback queue full, and remembers what is in it so that it can be faded out. */
final class PlaybackFeed {

  /** Sound is fetched in blocks of this length [s]. */
  private static final double BLOCK = 0.005;

  private final PlaybackLine line;
  private final PlayedSound sound;
  private final float[][] block;
  private final float[][] recent;
  private final int leadIn;
  private long written;
  private int lastWritable;
  private int dryQueues;
  private boolean soundEnded;
  private boolean begun;

  /**
   * @param leadIn frames of silence before the sound
   */
  PlaybackFeed(PlaybackLine line, PlayedSound sound, int leadIn) {
    this.leadIn = leadIn;
    this.line = line;
    this.sound = sound;
    int channels = line.format().channels();
    block = new float[channels][Math.max(1, line.format().frames(BLOCK))];
    recent = new float[channels][line.capacity()];
  }

  /** Writes what there is room for; false when there was none or nothing is left to write. */
  boolean top() {
    boolean wrote = false;
    int writable = line.writable();
    while (!soundEnded && writable >= block[0].length) {
      int count = next();
      if (count > 0) {
        if (begun && line.writable() >= line.capacity()) {
          dryQueues++;
        }
        write(count);
        wrote = true;
      }
      writable = line.writable();
    }
    if (!begun) {
      line.start();
      begun = true;
    }
    lastWritable = writable;
    return wrote;
  }

  /** The next block of silence or sound; how much of it is to be written. */
  private int next() {
    if (written < leadIn) {
      for (float[] channel : block) {
        java.util.Arrays.fill(channel, 0f);
      }
      return (int) Math.min(block[0].length, leadIn - written);
    }
    int count = sound.next(block, block[0].length);
    soundEnded = count < block[0].length;
    return count;
  }

  private void write(int count) {
    line.write(block, count);
    int size = recent[0].length;
    for (int c = 0; c < block.length; c++) {
      for (int i = 0; i < count; i++) {
        recent[c][(int) ((written + i) % size)] = block[c][i];
      }
    }
    written += count;
  }

  /** Whether the device has played anything since the last look. */
  boolean moved() {
    int writable = line.writable();
    boolean moved = writable != lastWritable;
    lastWritable = writable;
    return moved;
  }

  /** Takes back what is not yet sounding and plays its beginning, fading; nothing follows. */
  void fadeOut(double seconds) {
    int queued = begun ? Math.min(line.discard(), recent[0].length) : 0;
    soundEnded = true;
    int size = recent[0].length;
    long from = written - queued;
    written = from;
    int fade = Math.min(queued, line.format().frames(seconds));
    for (int at = 0; at < fade; at += block[0].length) {
      int count = Math.min(block[0].length, fade - at);
      for (int c = 0; c < block.length; c++) {
        for (int i = 0; i < count; i++) {
          double gain = 0.5 + 0.5 * Math.cos(Math.PI * (at + i + 0.5) / fade);
          block[c][i] = (float) (gain * recent[c][(int) ((from + at + i) % size)]);
        }
      }
      write(count);
    }
  }

  /** Whether all of the sound is in the queue or has left it. */
  boolean isHandedOver() {
    return soundEnded;
  }

  int sampleRate() {
    return line.format().sampleRate();
  }

  /** Whether the sound has ended and all of it has left the queue. */
  boolean isDone() {
    return soundEnded && line.writable() >= line.capacity();
  }

  /** Frames of the sound that were written and not taken back. */
  long played() {
    return Math.max(0, written - leadIn);
  }

  int dryQueues() {
    return dryQueues;
  }
}
