package org.trebleproof.audio.device;

/**
 * A playback or recording device of this machine.
 *
 * @param direction what it does; an interface that does both is listed twice
 * @param name what the system calls it; unique among those of one direction
 * @param description more words of the system, may be empty
 */
public record SoundDevice(Direction direction, String name, String description) {

  /** Whether a device plays or records. */
  public enum Direction {
    PLAYBACK,
    RECORDING
  }
}
