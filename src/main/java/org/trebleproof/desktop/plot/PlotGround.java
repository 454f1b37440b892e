package org.trebleproof.desktop.plot;

import javafx.beans.value.ObservableDoubleValue;

/** Where plots stand: it gives them their height, and one of them the whole room if asked for. */
public interface PlotGround {

  /** The room that is in sight at once [px]. */
  ObservableDoubleValue heightInSight();

  /** Shows this plot alone in the whole room, or all again if it stands alone already. */
  void fill(PlotPane plot);

  /** Whether a plot stands alone. */
  boolean filled();
}
