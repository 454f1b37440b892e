package org.trebleproof.shelf.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.shelf.item.CoilName;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/**
 * Whether a winding drifts. A coil that stands alone as strange, its neighbours in time being as
 * all, is no drift: it is set aside with its reason, lest it widens the limits for the others.
 * Where strange ones follow each other, the winding has changed, and they stay.
 *
 * @param coils on the chart, in the order of days and names
 * @param chart of their values
 * @param batch all of them, for why some are set aside
 * @param aside coils that are not on the chart, in the same order
 */
public record DriftChart(
    List<ShelvedCoil> coils, IndividualsChart chart, BatchSheet batch, List<ShelvedCoil> aside) {

  /**
   * The chart of a value; empty where too few coils are left for one.
   *
   * @param all one measurement of each coil
   */
  public static Optional<DriftChart> of(CoilValue value, List<ShelvedCoil> all) {
    List<ShelvedCoil> ordered = new ArrayList<>(all);
    ordered.sort(
        Comparator.comparing((ShelvedCoil c) -> c.circumstances().date())
            .thenComparing(ShelvedCoil::name, CoilName.ORDER));
    BatchSheet batch = BatchSheet.of("", ordered);
    List<ShelvedCoil> measured =
        ordered.stream()
            .filter(c -> c.state() == CoilState.GOOD && c.value(value).isPresent())
            .toList();
    Map<ShelvedCoil, Boolean> on = new LinkedHashMap<>();
    ordered.forEach(c -> on.put(c, false));
    for (int i = 0; i < measured.size(); i++) {
      boolean alone =
          strange(batch, measured, i)
              && !strange(batch, measured, i - 1)
              && !strange(batch, measured, i + 1);
      on.put(measured.get(i), !alone);
    }
    List<ShelvedCoil> coils = ordered.stream().filter(on::get).toList();
    List<ShelvedCoil> aside = ordered.stream().filter(c -> !on.get(c)).toList();
    if (coils.size() < IndividualsChart.LEAST) {
      return Optional.empty();
    }
    double[] values =
        coils.stream()
            .map(c -> c.value(value).orElseThrow())
            .mapToDouble(Estimate::value)
            .toArray();
    return Optional.of(new DriftChart(coils, IndividualsChart.of(values), batch, aside));
  }

  private static boolean strange(BatchSheet batch, List<ShelvedCoil> coils, int at) {
    return at >= 0 && at < coils.size() && batch.odd().containsKey(coils.get(at).name());
  }

  /** Names of the coils on the chart. */
  public List<String> names() {
    return coils.stream().map(ShelvedCoil::name).toList();
  }
}
