package org.trebleproof.bench.model;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;

/** How the rows of a result follow from a model's coordinates, in the order a person reads them. */
public final class RowFormulas {

  private static final List<Formula> OF_COIL =
      List.of(
          new Formula(Quantity.INDUCTANCE, r -> true, r -> r.of().inductance(r.x())),
          new Formula(Quantity.RESISTANCE, r -> true, r -> r.of().resistance(r.x())),
          new Formula(
              Quantity.CAPACITANCE,
              r -> true,
              r -> r.of().windingCapacitance(r.x(), r.quotedAt())));

  private static final List<Formula> OF_SETUP =
      List.of(
          new Formula(Quantity.RESONANCE, SetupReading::resonates, r -> r.peak().hz()),
          new Formula(Quantity.RESONANCE_PEAK, SetupReading::resonates, r -> r.peak().peak()),
          new Formula(Quantity.QUALITY_FACTOR, SetupReading::resonates, r -> r.peak().quality()),
          new Formula(Quantity.CUTOFF, r -> !Double.isNaN(r.cutoff()), SetupReading::cutoff),
          new Formula(
              Quantity.LOAD_RESISTANCE,
              r -> r.of().loaded(),
              r -> 1 / r.of().loadConductance(r.x(), r.quotedAt())),
          new Formula(
              Quantity.TOTAL_CAPACITANCE,
              r -> r.of().loaded() && r.of().setup().extras().nothingBetweenPickupAndJack(),
              r -> r.of().totalCapacitance(r.x(), r.quotedAt())));

  private RowFormulas() {}

  /**
   * One row of a coil or a setup.
   *
   * @param applies whether a setup has such a row at all
   * @param value of it
   */
  private record Formula(
      Quantity quantity, Predicate<SetupReading> applies, ToDoubleFunction<SetupReading> value) {}

  /**
   * A row that is there.
   *
   * @param setup the setup it is read from
   * @param value of it from a reading of that setup
   */
  record Standing(int setup, ToDoubleFunction<SetupReading> value) {}

  /** The rows of coils and setups that are there, given a reading of each setup. */
  static Map<RowKey, Standing> standing(Job job, List<SetupReading> readings) {
    Map<RowKey, Standing> rows = new LinkedHashMap<>();
    for (int i = 0; i < readings.size(); i++) {
      add(rows, job.coil(readings.get(i).of().setup().pickup()), OF_COIL, i, readings.get(i));
    }
    for (int i = 0; i < readings.size(); i++) {
      Subject setup = Subject.setup(readings.get(i).of().setup().name());
      add(rows, setup, OF_SETUP, i, readings.get(i));
    }
    return rows;
  }

  private static void add(
      Map<RowKey, Standing> rows,
      Subject subject,
      List<Formula> formulas,
      int index,
      SetupReading reading) {
    for (Formula formula : formulas) {
      if (formula.applies().test(reading)) {
        rows.putIfAbsent(
            RowKey.of(subject, formula.quantity()), new Standing(index, formula.value()));
      }
    }
  }

  /** The parts whose values are rows, by the row. */
  static Map<RowKey, Part> parts(JobModel model) {
    Map<RowKey, Part> parts = new LinkedHashMap<>();
    for (Part part : model.job().parts().values()) {
      if (model.index(part.name()) >= 0) {
        parts.put(part.row(), part);
      }
    }
    return parts;
  }

  /** Every row's value at some coordinates, given a reading of each setup there. */
  public static Map<RowKey, Double> values(
      JobModel model, List<SetupReading> readings, double[] x) {
    Map<RowKey, Double> values = new LinkedHashMap<>();
    standing(model.job(), readings)
        .forEach(
            (key, row) -> values.put(key, row.value().applyAsDouble(readings.get(row.setup()))));
    parts(model).forEach((key, part) -> values.put(key, model.value(x, part.name())));
    return values;
  }
}
