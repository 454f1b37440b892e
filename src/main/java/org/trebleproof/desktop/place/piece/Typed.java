package org.trebleproof.desktop.place.piece;

import java.io.Serial;
import javafx.event.Event;
import javafx.event.EventType;

/** Text stands in a field that nobody has confirmed, or does no longer. */
public final class Typed extends Event {

  public static final EventType<Typed> TYPED = new EventType<>(Event.ANY, "TYPED");

  @Serial private static final long serialVersionUID = 1;

  private final String name;
  private final String text;
  private final boolean open;

  /**
   * Something was typed.
   *
   * @param name of the field
   * @param open whether the text is still to be confirmed
   */
  Typed(String name, String text, boolean open) {
    super(TYPED);
    this.name = name;
    this.text = text;
    this.open = open;
  }

  public String name() {
    return name;
  }

  public String text() {
    return text;
  }

  public boolean open() {
    return open;
  }
}
