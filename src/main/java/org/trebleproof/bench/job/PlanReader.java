package org.trebleproof.bench.job;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.trebleproof.circuit.Harness;
import org.trebleproof.json.JsonSection;
import org.trebleproof.quantity.ImplausibleMarkingException;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import org.trebleproof.quantity.Unit;

/**
 * Reads what is to be changed about a guitar: keys and texts, as a plan of a job file or an option
 * of a command gives them. A part is the name of one that is there already or a value to buy, such
 * as {@code 500k 10%}; {@code none} takes it away.
 */
public final class PlanReader {

  /** Takes a part away. */
  public static final String NONE = "none";

  static final List<String> SWITCHES =
      List.of(
          "tonePosition",
          "bleedStyle",
          "pickups",
          "joint",
          "phase",
          "output",
          "selector",
          "tap",
          "volumeWiring");

  private final Map<String, Slot> known;
  private final Set<String> pickups;

  private PlanReader(Map<String, Slot> known, Set<String> pickups) {
    this.known = known;
    this.pickups = pickups;
  }

  /** Every key there is. */
  public static List<String> keys() {
    List<String> keys = new ArrayList<>();
    for (Slot slot : Slot.values()) {
      keys.add(slot.key());
      if (slot.turns()) {
        keys.add(slot.rotationKey());
        keys.add(slot.centreKey());
      }
    }
    keys.addAll(SWITCHES);
    return keys;
  }

  /**
   * Changes a layout.
   *
   * @param from what there is
   * @param changes by key
   * @param known parts that can be named, each with a slot of its kind
   * @param pickups pickups that can be named
   * @throws Refusal in one sentence that names the key
   */
  public static Plan changed(
      Layout from, Map<String, String> changes, Map<String, Slot> known, Set<String> pickups) {
    return made(from, read(changes, known, pickups));
  }

  /**
   * Reads changes, to be made as often as one likes.
   *
   * @param changes by key
   * @param known parts that can be named, each with a slot of its kind
   * @param pickups pickups that can be named
   * @throws Refusal in one sentence that names the key
   */
  public static List<Change> read(
      Map<String, String> changes, Map<String, Slot> known, Set<String> pickups) {
    PlanReader reader = new PlanReader(known, pickups);
    return changes.entrySet().stream()
        .map(change -> reader.change(change.getKey(), change.getValue()))
        .toList();
  }

  /** Changes a layout. */
  public static Plan made(Layout from, Iterable<Change> changes) {
    Layout layout = from;
    Map<String, Marking> bought = new LinkedHashMap<>();
    for (Change change : changes) {
      layout = change.made(layout);
      if (change instanceof Change.Fitted fitted) {
        fitted.bought().ifPresent(marking -> bought.put(fitted.part(), marking));
      }
    }
    return new Plan(layout, bought, Optional.empty());
  }

  /** Changes as a command line gives them: {@code volume=500k,cable=none}. */
  public static Map<String, String> parsed(List<String> texts) {
    Map<String, String> changes = new LinkedHashMap<>();
    for (String text : texts) {
      String before = "";
      for (String item : text.split(",")) {
        int equals = item.indexOf('=');
        if (equals < 0 && (before + "," + item).matches("[^=]+=\\s*[0-9]+,[0-9].*")) {
          throw new Refusal(
              Refusal.quote(before + "," + item)
                  + " cannot be read: write "
                  + (before + "." + item)
                  + ", for in this list a comma separates.");
        }
        before = item;
        if (equals < 1) {
          throw new Refusal(
              Refusal.quote(item.strip()) + " is no change: write KEY=VALUE, such as volume=500k.");
        }
        changes.put(item.substring(0, equals).strip(), item.substring(equals + 1).strip());
      }
    }
    return changes;
  }

  private Change change(String key, String text) {
    Optional<Slot> slot = Slot.of(key);
    if (slot.isPresent()) {
      return part(slot.get(), text);
    }
    for (Slot pot : Slot.values()) {
      if (pot.turns() && key.equals(pot.rotationKey())) {
        return new Change.Turned(pot, number(key, text, 0, 1), text);
      }
      if (pot.turns() && key.equals(pot.centreKey())) {
        return new Change.Tapered(pot, number(key, text, 0.01, 0.99), text);
      }
    }
    return new Change.Rewired(key, text, wired(key, text));
  }

  private Change part(Slot slot, String text) {
    if (text.equals(NONE)) {
      return new Change.Removed(slot);
    }
    Slot kind = known.get(text);
    if (kind != null) {
      if (kind.quantity().unit() != slot.quantity().unit()) {
        throw new Refusal(
            slot.key() + " names " + Refusal.quote(text) + ", which is no " + slot.noun() + ".");
      }
      return new Change.Fitted(slot, text, Optional.empty(), text);
    }
    try {
      Marking marking = TradeNotation.marking(text, slot.quantity());
      String name =
          slot.noun()
              + " "
              + (marking.stated()
                  ? TradeNotation.print(marking, slot.quantity().unit())
                  : TradeNotation.print(marking.value(), slot.quantity().unit(), 4));
      return new Change.Fitted(slot, name, Optional.of(marking), text);
    } catch (ImplausibleMarkingException e) {
      throw new Refusal(slot.key() + ": " + e.getMessage());
    } catch (TradeNotationException e) {
      throw new Refusal(
          slot.key()
              + ": "
              + Refusal.quote(text)
              + " is neither a value such as "
              + example(slot)
              + " nor a part that is there"
              + there(slot, text));
    }
  }

  /** The parts of a slot's kind that can be named there, the nearest alone where one is near. */
  private String there(Slot slot, String text) {
    List<String> fitting =
        known.entrySet().stream()
            .filter(part -> part.getValue().kinds().equals(slot.kinds()))
            .map(Map.Entry::getKey)
            .toList();
    return JsonSection.nearest(text, fitting)
        .map(n -> ": did you mean \"" + n + "\"?")
        .orElse(
            fitting.isEmpty()
                ? "."
                : ": there is "
                    + String.join(", ", fitting.stream().map(n -> '"' + n + '"').toList())
                    + ".");
  }

  private static String example(Slot slot) {
    return slot.quantity().unit() == Unit.OHM ? "500k" : slot == Slot.CABLE ? "500p" : "22n";
  }

  private UnaryOperator<Layout> wired(String key, String text) {
    switch (key) {
      case "tonePosition":
        boolean after = choice(key, text, "before", "after");
        return layout -> layout.withToneAfterVolume(after);
      case "bleedStyle":
        boolean inSeries = choice(key, text, "parallel", "series");
        return layout -> layout.withBleedInSeries(inSeries);
      case "joint":
        Harness.Joint joint =
            choice(key, text, "parallel", "series") ? Harness.Joint.SERIES : Harness.Joint.PARALLEL;
        return layout -> layout.withJoint(joint);
      case "phase":
        int sign = choice(key, text, "in", "out") ? -1 : 1;
        return layout -> layout.withSecondOutput(sign * Math.abs(layout.secondOutput()));
      case "output":
        double output = number(key, text, 0.01, 100);
        return layout -> layout.withSecondOutput(Math.signum(layout.secondOutput()) * output);
      case "selector":
        int position = (int) Math.round(number(key, text, 0, 5));
        return layout -> layout.withSelector(position);
      case "tap":
        boolean tapped = choice(key, text, "off", "on");
        return layout -> layout.withTapped(tapped);
      case "volumeWiring":
        boolean independent = choice(key, text, "dependent", "independent");
        return layout -> layout.withIndependent(independent);
      case "pickups":
        List<String> on = pickups(text);
        return layout -> layout.withPickups(on);
      default:
        throw new Refusal(
            "there is no "
                + Refusal.quote(key)
                + " to change"
                + JsonSection.nearest(key, keys())
                    .map(n -> ": did you mean " + n + "?")
                    .orElse(": the keys are " + String.join(", ", keys()) + "."));
    }
  }

  private List<String> pickups(String text) {
    List<String> names = Arrays.stream(text.split("\\+")).map(String::strip).toList();
    for (String name : names) {
      if (!pickups.contains(name)) {
        throw new Refusal(
            "pickups names "
                + Refusal.quote(name)
                + ", which is no pickup here: there is "
                + String.join(", ", pickups)
                + ".");
      }
    }
    if (names.stream().distinct().count() < names.size() || names.size() > 3) {
      throw new Refusal("pickups wants one to three different pickups, such as bridge+neck.");
    }
    return names;
  }

  /** Whether the second word was given; anything but the two is refused. */
  private static boolean choice(String key, String text, String first, String second) {
    if (!text.equals(first) && !text.equals(second)) {
      throw new Refusal(
          key + " is " + first + " or " + second + ", not " + Refusal.quote(text) + ".");
    }
    return text.equals(second);
  }

  private static double number(String key, String text, double least, double most) {
    try {
      double value = TradeNotation.value(text, Unit.RATIO);
      if (value >= least && value <= most) {
        return value;
      }
    } catch (TradeNotationException e) {
      // said below
    }
    throw new Refusal(
        key + " is a number from " + least + " to " + most + ", not " + Refusal.quote(text) + ".");
  }
}
