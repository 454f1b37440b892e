package org.trebleproof.bench.job;

import java.util.Optional;
import java.util.function.UnaryOperator;
import org.trebleproof.quantity.Marking;

/** One thing that is changed about a guitar, read once and made as often as one likes. */
public sealed interface Change {

  /** What is changed, as a plan names it. */
  String key();

  /** To what, as a plan says it. */
  String text();

  /** The layout with this change. */
  Layout made(Layout from);

  /**
   * Another part.
   *
   * @param part its name
   * @param bought its marking where it is to be bought; empty for a part that is there
   */
  record Fitted(Slot slot, String part, Optional<Marking> bought, String text) implements Change {
    @Override
    public String key() {
      return slot.key();
    }

    @Override
    public Layout made(Layout from) {
      return from.with(slot, part);
    }
  }

  /** A part less. */
  record Removed(Slot slot) implements Change {
    @Override
    public String key() {
      return slot.key();
    }

    @Override
    public String text() {
      return PlanReader.NONE;
    }

    @Override
    public Layout made(Layout from) {
      return from.with(slot, (String) null);
    }
  }

  /** A pot turned, 0 (off) to 1 (full up). */
  record Turned(Slot pot, double rotation, String text) implements Change {
    @Override
    public String key() {
      return pot.rotationKey();
    }

    @Override
    public Layout made(Layout from) {
      return from.with(pot, new Layout.Turned(rotation, from.turned(pot).centreRatio()));
    }
  }

  /** What a pot has at half rotation, as a share. */
  record Tapered(Slot pot, double centreRatio, String text) implements Change {
    @Override
    public String key() {
      return pot.centreKey();
    }

    @Override
    public Layout made(Layout from) {
      return from.with(pot, new Layout.Turned(from.turned(pot).rotation(), centreRatio));
    }
  }

  /**
   * Something that is wired or switched otherwise.
   *
   * @param wired makes it so
   */
  record Rewired(String key, String text, UnaryOperator<Layout> wired) implements Change {
    @Override
    public Layout made(Layout from) {
      return wired.apply(from);
    }
  }
}
