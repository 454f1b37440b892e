package org.trebleproof.audio.device;

/** The time by which sound lines run. */
public interface SoundClock {

  /** Seconds since some fixed moment. */
  double seconds();

  /** Lets time pass [s]. */
  void rest(double seconds);
}
