package org.trebleproof.audio.device;

import org.trebleproof.quantity.Refusal;

/** A sound device cannot be used, or was lost; the message says which and what to do. */
public class SoundDeviceException extends Refusal {

  public SoundDeviceException(String sentence) {
    super(sentence);
  }

  public SoundDeviceException(String sentence, Throwable cause) {
    super(sentence, cause);
  }
}
