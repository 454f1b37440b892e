package org.trebleproof.quantity;

/** Keys of rows as result files write them, of jobs with one pickup called "pickup". */
public final class RowKeys {

  private RowKeys() {}

  /** Such as {@code before.resonance}; a part's value is a resistance. */
  public static RowKey key(String text) {
    return key(text, Unit.OHM);
  }

  /** The same; a part's value has this unit. */
  public static RowKey key(String text, Unit unit) {
    for (Quantity quantity : Quantity.values()) {
      int hz = text.endsWith("Hz") ? text.lastIndexOf('.') : text.length();
      String head = text.substring(0, hz);
      boolean named = head.endsWith("." + quantity.code());
      if (named && (!quantity.code().equals("value") || quantity.unit() == unit)) {
        String subject = head.substring(0, head.length() - quantity.code().length() - 1);
        RowKey key = RowKey.of(subject(subject, quantity), quantity);
        return hz == text.length()
            ? key
            : key.at(Integer.parseInt(text.substring(hz + 1, text.length() - 2)));
      }
    }
    throw new IllegalArgumentException(text);
  }

  private static Subject subject(String name, Quantity quantity) {
    return switch (quantity) {
      case INDUCTANCE, RESISTANCE, CAPACITANCE -> Subject.coil(name, name.equals("pickup"));
      case PART_RESISTANCE, PART_CAPACITANCE -> Subject.part(name);
      case LOAD_CONDUCTANCE -> Subject.CHANGE;
      default -> Subject.setup(name);
    };
  }
}
