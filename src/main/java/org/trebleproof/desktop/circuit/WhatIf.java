package org.trebleproof.desktop.circuit;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Layout;
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
 * @param changes by the keys of a plan, in the order in which they were made
 */
public record WhatIf(SignalChain chain, Layout now, Layout then, Map<String, String> changes) {

  private static final String NAME = "#what if";

  /** Where the knob is still off: a volume pot at zero is silence, which has no curve. */
  private static final double LEAST_VOLUME = 0.01;

  private static final int ROTATION_DIGITS = 3;

  /** A ratio within which two values are the same, as a logarithm. */
  private static final double HARDLY = 0.01;

  /** Finer than the steps of E12. */
  private static final double SMALL_STEP = 1.05;

  public WhatIf {
    changes = Collections.unmodifiableMap(new LinkedHashMap<>(changes));
  }

  /**
   * A guitar with these changes.
   *
   * @throws Refusal if it cannot be wired so, in one sentence
   */
  public static WhatIf of(SignalChain chain, Layout now, Map<String, String> changes) {
    SignalChain changed = chain.with(NAME, now, changes);
    return new WhatIf(changed, now, changed.layouts().get(NAME), changes);
  }

  private WhatIf with(String key, Optional<String> text) {
    Map<String, String> more = new LinkedHashMap<>(changes);
    more.remove(key);
    text.ifPresent(t -> more.put(key, t));
    return of(chain, now, more);
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
    return with(
        pot.key() + "Rotation",
        asNow ? Optional.empty() : Optional.of(text.stripTrailingZeros().toPlainString()));
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
    return with(slot.key(), Optional.of(wanted));
  }

  /** A tone pot and its capacitor go together. */
  private WhatIf without(Slot slot) {
    Map<String, String> more = new LinkedHashMap<>(changes);
    for (Slot gone : together(slot)) {
      more.put(gone.key(), PlanReader.NONE);
      more.remove(gone.key() + "Rotation");
    }
    return of(chain, now, more);
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
    Map<String, String> fewer = new LinkedHashMap<>(changes);
    for (Slot partner : together(slot)) {
      if (partner == slot || PlanReader.NONE.equals(changes.get(partner.key()))) {
        fewer.remove(partner.key());
        fewer.remove(partner.key() + "Rotation");
      }
    }
    return of(chain, now, fewer);
  }

  /** With several changes at once, such as a part that needs another beside it. */
  WhatIf and(Map<String, String> more) {
    Map<String, String> all = new LinkedHashMap<>(changes);
    more.forEach(
        (key, text) -> {
          all.remove(key);
          all.put(key, text);
        });
    return of(chain, now, all);
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
    return with(slot.key(), Optional.of(text(next, slot)));
  }

  /** With the value times a factor, to two figures. */
  public WhatIf scaled(Slot slot, double from, double factor) {
    return with(slot.key(), Optional.of(text(from * factor, slot)));
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
    return changes.containsKey(slot.key()) || changes.containsKey(slot.key() + "Rotation");
  }
}
