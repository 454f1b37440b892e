package org.trebleproof.desktop.circuit;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Change;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.OwnName;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.PreferredNumbers;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;

/**
 * A guitar with something changed about it. Immutable: every change makes another one.
 *
 * @param chain the guitar, and what was bought for it
 * @param now its wiring as it is
 * @param then its wiring as it would be
 * @param made the changes, in the order in which they were made
 */
public record WhatIf(SignalChain chain, Layout now, Layout then, List<Change> made) {

  private static final String NAME = OwnName.of("what if");

  /** Where the knob is still off: a volume pot at zero is silence, which has no curve. */
  private static final double LEAST_VOLUME = 0.01;

  private static final int ROTATION_DIGITS = 3;

  /** A ratio within which two values are the same, as a logarithm. */
  private static final double HARDLY = 0.01;

  /** Finer than the steps of E12. */
  private static final double SMALL_STEP = 1.05;

  public WhatIf {
    made = List.copyOf(made);
  }

  /**
   * A guitar with changes as a plan says them.
   *
   * @throws Refusal if it cannot be wired so, in one sentence
   */
  public static WhatIf of(SignalChain chain, Layout now, Map<String, String> changes) {
    return of(chain, now, chain.read(changes));
  }

  private static WhatIf of(SignalChain chain, Layout now, List<Change> made) {
    SignalChain changed = chain.with(NAME, now, made);
    return new WhatIf(changed, now, changed.layouts().get(NAME), made);
  }

  /** The changes as a plan says them, in the order in which they were made. */
  public Map<String, String> changes() {
    Map<String, String> texts = new LinkedHashMap<>();
    made.forEach(change -> texts.put(change.key(), change.text()));
    return Collections.unmodifiableMap(texts);
  }

  private Optional<Change> change(String key) {
    return made.stream().filter(change -> change.key().equals(key)).findFirst();
  }

  /** The changes but for some. */
  private List<Change> but(Collection<String> keys) {
    List<Change> rest = new ArrayList<>(made);
    rest.removeIf(change -> keys.contains(change.key()));
    return rest;
  }

  /** With some changes in the place of those of the same keys. */
  private WhatIf with(List<Change> more) {
    List<Change> all = but(more.stream().map(Change::key).toList());
    all.addAll(more);
    return of(chain, now, all);
  }

  private WhatIf with(Slot slot, String text) {
    return with(chain.read(Map.of(slot.key(), text)));
  }

  /** Where a pot stands, from 0 to 1. */
  public double rotation(Slot pot) {
    return then.turned(pot).rotation();
  }

  /** With a pot turned; back where it is now is no change. */
  public WhatIf turned(Slot pot, double rotation) {
    boolean volume = pot == Slot.VOLUME || pot == Slot.SECOND_VOLUME;
    double held = Math.max(volume ? LEAST_VOLUME : 0, Math.min(1, rotation));
    BigDecimal text = BigDecimal.valueOf(held).setScale(ROTATION_DIGITS, RoundingMode.HALF_EVEN);
    boolean asNow = Math.abs(text.doubleValue() - now.turned(pot).rotation()) < 1e-9;
    if (asNow) {
      return of(chain, now, but(List.of(pot.rotationKey())));
    }
    String words = text.stripTrailingZeros().toPlainString();
    return with(List.of(new Change.Turned(pot, text.doubleValue(), words)));
  }

  /**
   * With another value, or turned elsewhere: {@code 500k}, {@code 4,7n}, {@code none}, for a pot
   * {@code 60 %}. An empty text takes the change back.
   *
   * @throws Refusal if it is no such value, in one sentence
   */
  public WhatIf typed(Slot slot, String text) {
    String wanted = text.strip();
    if (wanted.isEmpty()) {
      return asNow(slot);
    }
    if (slot.turns() && wanted.matches("[0-9]+([.,][0-9]+)?\\s*%")) {
      double percent = Double.parseDouble(wanted.replace("%", "").strip().replace(',', '.'));
      if (percent > 100) {
        throw new Refusal(Texts.of("circuit.turn.toofar", wanted));
      }
      return turned(slot, percent / 100);
    }
    if (wanted.equalsIgnoreCase(PlanReader.NONE)) {
      return then.part(slot).isEmpty() ? this : without(slot);
    }
    try {
      TradeNotation.marking(wanted, slot.quantity());
    } catch (TradeNotationException e) {
      throw new Refusal(e.getMessage());
    }
    return with(slot, wanted);
  }

  /** A tone pot and its capacitor go together. */
  private WhatIf without(Slot slot) {
    List<String> turned = new ArrayList<>();
    List<Change> removed = new ArrayList<>();
    for (Slot gone : together(slot)) {
      turned.add(gone.rotationKey());
      removed.add(new Change.Removed(gone));
    }
    return of(chain, now, but(turned)).with(removed);
  }

  private static Slot[] together(Slot slot) {
    return switch (slot) {
      case TONE, TONE_CAPACITOR -> new Slot[] {Slot.TONE, Slot.TONE_CAPACITOR};
      case SECOND_TONE, SECOND_TONE_CAPACITOR ->
          new Slot[] {Slot.SECOND_TONE, Slot.SECOND_TONE_CAPACITOR};
      default -> new Slot[] {slot};
    };
  }

  /** With this part as it is now. */
  public WhatIf asNow(Slot slot) {
    List<String> back = new ArrayList<>();
    for (Slot partner : together(slot)) {
      if (partner == slot || removed(partner)) {
        back.add(partner.key());
        back.add(partner.rotationKey());
      }
    }
    return of(chain, now, but(back));
  }

  /** Whether the part in a slot is taken away. */
  boolean removed(Slot slot) {
    return change(slot.key()).filter(Change.Removed.class::isInstance).isPresent();
  }

  /** With several changes at once, such as a part that needs another beside it. */
  WhatIf and(Map<String, String> more) {
    return with(chain.read(more));
  }

  /** With the next value of the E12 series up or down (IEC 60063). */
  public WhatIf stepped(Slot slot, boolean up) {
    double value = value(slot);
    double next = value;
    double wanted = value;
    while (Math.abs(Math.log(next / value)) < HARDLY || next > value != up) {
      wanted *= up ? SMALL_STEP : 1 / SMALL_STEP;
      next = PreferredNumbers.E12.nearest(wanted);
    }
    return with(slot, text(next, slot));
  }

  /** With the value times a factor, to two figures. */
  public WhatIf scaled(Slot slot, double from, double factor) {
    return with(slot, text(from * factor, slot));
  }

  private static String text(double value, Slot slot) {
    return TradeNotation.print(value, slot.quantity().unit(), 2);
  }

  /** The best value of the part in a slot, SI. */
  public double value(Slot slot) {
    int index = chain.knowledge().names().indexOf(then.part(slot).orElseThrow());
    return Math.exp(chain.knowledge().logMean()[index]);
  }

  /** Whether anything about the part is changed. */
  public boolean changed(Slot slot) {
    return change(slot.key()).or(() -> change(slot.rotationKey())).isPresent();
  }
}
