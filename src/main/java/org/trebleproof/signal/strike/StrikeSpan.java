package org.trebleproof.signal.strike;

/**
 * Where one pick strike lies in a recording.
 *
 * @param onset first sample that belongs to it
 * @param end sample before the next strike or the end of the recording
 * @param clipped whether the recorder was driven to its ceiling
 * @param doubled whether the string was hit twice within one strike
 */
public record StrikeSpan(int onset, int end, boolean clipped, boolean doubled) {

  /** Whether its partials can be measured. */
  public boolean usable() {
    return !clipped && !doubled;
  }
}
