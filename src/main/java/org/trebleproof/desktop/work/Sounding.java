package org.trebleproof.desktop.work;

import org.trebleproof.bench.live.Speaker;

/** One sound from the moment on at which it is asked for: it may be ended before it begins. */
final class Sounding {

  private volatile Speaker speaker;
  private volatile boolean over;

  /** Takes a device to play on; whether the sound is still wanted. */
  boolean begin(Speaker device) {
    speaker = device;
    return !over;
  }

  /** Ends it, whether it sounds already or not. May be called on any thread. */
  void end() {
    over = true;
    Speaker device = speaker;
    if (device != null) {
      device.stop();
    }
  }
}
