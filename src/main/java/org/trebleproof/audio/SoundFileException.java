package org.trebleproof.audio;

import java.nio.file.Path;
import org.trebleproof.quantity.Refusal;

/** A sound file that cannot be used; the message names the file, what is wrong and what to do. */
public class SoundFileException extends Refusal {

  public SoundFileException(Path file, String whatAndFix) {
    super(name(file) + ": " + whatAndFix);
  }

  public SoundFileException(Path file, String whatAndFix, Throwable cause) {
    super(name(file) + ": " + whatAndFix, cause);
  }

  private static String name(Path file) {
    Path last = file.getFileName();
    return last == null ? file.toString() : last.toString();
  }
}
