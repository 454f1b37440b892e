package org.trebleproof.audio.device;

/**
 * How a run of the transport went.
 *
 * @param played frames handed to the playback device and not thrown away again
 * @param recorded frames handed to the listener
 * @param stopped whether it was stopped before the sound's end
 * @param dryQueues times the playback queue was found empty in mid-sound: sound was interrupted
 * @param fullQueues times the recording queue was found full: sound may be lost
 */
public record TransportRun(
    long played, long recorded, boolean stopped, int dryQueues, int fullQueues) {

  /** Whether no queue ran dry or over. */
  public boolean unbroken() {
    return dryQueues == 0 && fullQueues == 0;
  }
}
