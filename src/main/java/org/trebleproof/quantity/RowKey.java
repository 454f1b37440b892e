package org.trebleproof.quantity;

import java.util.Objects;
import java.util.OptionalInt;

/**
 * Which row of a result.
 *
 * @param subject what it is about
 * @param quantity what is known of it
 * @param hz at which frequency, where it was read at one [Hz]
 */
public record RowKey(Subject subject, Quantity quantity, OptionalInt hz) {

  /** The change of load conductance between two setups. */
  public static final RowKey LOAD_CHANGE = of(Subject.CHANGE, Quantity.LOAD_CONDUCTANCE);

  public static RowKey of(Subject subject, Quantity quantity) {
    return new RowKey(subject, quantity, OptionalInt.empty());
  }

  /** The same read at one frequency [Hz]. */
  public RowKey at(int frequency) {
    return new RowKey(subject, quantity, OptionalInt.of(frequency));
  }

  /** As result files name it, such as {@code before.resonance} or {@code bare.seriesQ.1000Hz}. */
  public String text() {
    return subject.code() + "." + reading();
  }

  /** Whether a text means this row: its name in result files, or that without its subject. */
  public boolean meantBy(String text) {
    return text.equals(text()) || text.equals(reading());
  }

  private String reading() {
    return quantity.code() + (hz.isPresent() ? "." + hz.getAsInt() + "Hz" : "");
  }

  /** The quantity at the bench, such as {@code load resistance} or {@code inductance at 1 kHz}. */
  public String quantityWords() {
    return hz.isEmpty() ? quantity.words() : quantity.words() + " at " + frequency(hz.getAsInt());
  }

  /** Subject and quantity, such as {@code before: load resistance}. */
  public String words() {
    if (subject.kind() == Subject.Kind.CHANGE) {
      return "change of " + quantityWords();
    }
    String what = quantityWords();
    return what.isEmpty() ? subject.words() : subject.words() + ": " + what;
  }

  private static String frequency(int hz) {
    return hz % 1000 == 0 ? hz / 1000 + " kHz" : hz + " Hz";
  }

  // Written out: a record's own comparison is linked at its first use, which takes 20 ms.
  @Override
  public boolean equals(Object object) {
    return object instanceof RowKey other
        && quantity == other.quantity
        && subject.equals(other.subject)
        && hz.equals(other.hz);
  }

  @Override
  public int hashCode() {
    return Objects.hash(subject, quantity, hz);
  }

  @Override
  public String toString() {
    return text();
  }
}
