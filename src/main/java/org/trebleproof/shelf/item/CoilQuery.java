package org.trebleproof.shelf.item;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.trebleproof.quantity.Estimate;

/**
 * Which coils are wanted, and in what order. What is not said is not asked.
 *
 * @param names of coils; empty for all
 * @param ranges of values, both ends included
 * @param text that stands in name, recipe, bench, tags, notes or verdict, in letters of any size
 * @param recipe of the coil
 * @param bench of the measurement
 * @param who measured it
 * @param tag of the coil
 * @param state of the measurement
 * @param from first day
 * @param to last day
 * @param every whether every measurement of a coil is wanted, not its last alone
 * @param order by which they stand
 */
public record CoilQuery(
    List<String> names,
    Map<CoilValue, double[]> ranges,
    Optional<String> text,
    Optional<String> recipe,
    Optional<String> bench,
    Optional<String> who,
    Optional<String> tag,
    Optional<CoilState> state,
    Optional<String> from,
    Optional<String> to,
    boolean every,
    Order order) {

  /**
   * By what coils are sorted; those that lack it stand last.
   *
   * @param value by a value; else by a text
   * @param text by this one; else by name
   * @param backwards whether the largest comes first
   */
  public record Order(Optional<CoilValue> value, Optional<TextColumn> text, boolean backwards) {
    public static final Order BY_NAME = new Order(Optional.empty(), Optional.empty(), false);
  }

  /** Columns of text, by the words with which they are asked for. */
  public enum TextColumn {
    NAME(ShelvedCoil::name),
    RECIPE(ShelvedCoil::recipe),
    BENCH(c -> c.circumstances().bench()),
    WHO(c -> c.circumstances().who()),
    DATE(c -> c.circumstances().date()),
    TEMPERATURE(
        c -> c.circumstances().celsius().stream().mapToObj(String::valueOf).findFirst().orElse("")),
    TAG(c -> String.join(" ", c.tags())),
    NOTES(ShelvedCoil::notes),
    VERDICT(c -> c.state().word());

    private final Function<ShelvedCoil, String> of;

    TextColumn(Function<ShelvedCoil, String> of) {
      this.of = of;
    }

    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    public String of(ShelvedCoil coil) {
      return of.apply(coil);
    }
  }

  /** All coils by their last measurement, in the order of their names. */
  public static final CoilQuery ALL =
      new CoilQuery(
          List.of(),
          Map.of(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          false,
          Order.BY_NAME);

  /** The same of these coils alone. */
  public CoilQuery withNames(List<String> others) {
    return new CoilQuery(
        others, ranges, text, recipe, bench, who, tag, state, from, to, every, order);
  }

  /** The same with every measurement. */
  public CoilQuery withEvery() {
    return new CoilQuery(
        names, ranges, text, recipe, bench, who, tag, state, from, to, true, order);
  }

  /**
   * Those that are wanted.
   *
   * @param all measurements, those of one coil one after the other, its last one last
   */
  public List<ShelvedCoil> of(List<ShelvedCoil> all) {
    List<ShelvedCoil> wanted = new ArrayList<>(all.stream().filter(this::wants).toList());
    if (!every) {
      Map<String, ShelvedCoil> last = new LinkedHashMap<>();
      wanted.forEach(c -> last.put(c.name(), c));
      wanted = new ArrayList<>(last.values());
    }
    wanted.sort(comparator());
    return wanted;
  }

  private boolean wants(ShelvedCoil c) {
    boolean inRange =
        ranges.entrySet().stream()
            .allMatch(
                r ->
                    c.value(r.getKey())
                        .map(Estimate::value)
                        .filter(v -> v >= r.getValue()[0] && v <= r.getValue()[1])
                        .isPresent());
    String day = c.circumstances().date();
    return inRange
        && (names.isEmpty() || names.contains(c.name()))
        && text.map(t -> said(c).contains(t.toLowerCase(Locale.ROOT))).orElse(true)
        && recipe.map(c.recipe()::equals).orElse(true)
        && bench.map(c.circumstances().bench()::equals).orElse(true)
        && who.map(c.circumstances().who()::equals).orElse(true)
        && tag.map(c.tags()::contains).orElse(true)
        && state.map(s -> s == c.state()).orElse(true)
        && from.map(d -> day.compareTo(d) >= 0).orElse(true)
        && to.map(d -> day.compareTo(d) <= 0).orElse(true);
  }

  private static String said(ShelvedCoil c) {
    return String.join(
            "\n",
            c.name(),
            c.recipe(),
            c.circumstances().bench(),
            c.circumstances().who(),
            c.circumstances().date(),
            String.join("\n", c.tags()),
            c.notes(),
            c.state().word(),
            c.reason())
        .toLowerCase(Locale.ROOT);
  }

  private Comparator<ShelvedCoil> comparator() {
    Comparator<ShelvedCoil> byName = Comparator.comparing(ShelvedCoil::name, CoilName.ORDER);
    Comparator<ShelvedCoil> first;
    if (order.value().isPresent()) {
      Comparator<Double> size = order.backwards() ? Collections.reverseOrder() : Double::compare;
      first =
          Comparator.comparing(
              c -> c.value(order.value().get()).map(Estimate::value).orElse(null),
              Comparator.nullsLast(size));
    } else {
      TextColumn column = order.text().orElse(TextColumn.NAME);
      Comparator<String> size = order.backwards() ? CoilName.ORDER.reversed() : CoilName.ORDER;
      first =
          Comparator.<ShelvedCoil, Boolean>comparing(c -> column.of(c).isEmpty())
              .thenComparing(column::of, size);
    }
    return first.thenComparing(byName);
  }
}
