package org.trebleproof.bench.answer;

import java.util.List;
import java.util.OptionalInt;

/**
 * What was struck and what was heard of it.
 *
 * @param conditions what was recorded: each setup, and each with something clipped on
 * @param captures each recording
 * @param partials each partial of each note before and after
 * @param scatter how much one player's strikes differ
 * @param drowned levels left out because hum, noise or another string was as loud
 * @param atMains how many of those lay on a mains line
 * @param moreToHalve strikes to add to each recording for a band half as wide; empty when no number
 *     of them would do
 */
public record StrikeEvidence(
    List<String> conditions,
    List<Capture> captures,
    List<Partial> partials,
    Scatter scatter,
    int drowned,
    int atMains,
    OptionalInt moreToHalve) {

  public StrikeEvidence {
    conditions = List.copyOf(conditions);
    captures = List.copyOf(captures);
    partials = List.copyOf(partials);
  }

  /**
   * One recording.
   *
   * @param id of the capture
   * @param setup its setup
   * @param found strikes found
   * @param used strikes that were compared
   * @param clipped dropped because they drove the recorder to its ceiling
   * @param doubled dropped because the string was hit twice
   * @param cutOff dropped because the next one came too soon
   * @param notes what was struck: pitch [Hz] and how often; 0 Hz for scrapes and strums
   * @param sampleRate [Hz]
   * @param bits per sample
   * @param sha256 of the sound file, lower-case hex
   */
  public record Capture(
      String id,
      String setup,
      int found,
      int used,
      int clipped,
      int doubled,
      int cutOff,
      List<Note> notes,
      double sampleRate,
      int bits,
      String sha256) {
    public Capture {
      notes = List.copyOf(notes);
    }
  }

  /**
   * One note of a recording.
   *
   * @param hz fundamental [Hz]; 0 for scrapes and strums
   * @param strikes how often
   * @param inharmonicity B of f_k = k f sqrt(1 + B k^2), middle of the strikes
   */
  public record Note(double hz, int strikes, double inharmonicity) {}

  /**
   * Level of one partial, the strikes' own differences taken out. The arrays hold one value per
   * condition, in their order.
   *
   * @param note fundamental [Hz]; 0 for scrapes and strums
   * @param number which partial, or which band
   * @param hz its frequency [Hz]
   * @param level [dB re full scale]; NaN where it was not heard
   * @param sd standard deviation by scatter alone [dB]
   */
  public record Partial(double note, int number, double hz, double[] level, double[] sd) {}

  /**
   * Standard deviations between strikes of one note in one recording.
   *
   * @param strength of the whole strike [dB]
   * @param pluckPlace along the string, as a share of its length
   * @param partial of one partial beyond strength, colour and place [dB]
   */
  public record Scatter(double strength, double pluckPlace, double partial) {}
}
