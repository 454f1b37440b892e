package org.trebleproof.desktop.circuit;

import java.util.Map;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.scene.layout.BorderPane;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.SignalChain;

/**
 * The guitar as a circuit whose parts can be turned and changed. What the person changed is a map
 * as {@link org.trebleproof.bench.job.PlanReader} takes it, such as {@code volume=500k,
 * toneRotation=0.4}; empty when all is as measured.
 */
public final class WhatIfPanel extends BorderPane {

  private final ReadOnlyObjectWrapper<Map<String, String>> changes =
      new ReadOnlyObjectWrapper<>(this, "changes", Map.of());

  /** Shows a guitar as it is now, with nothing changed. */
  public void show(SignalChain chain, Layout now) {
    changes.set(Map.of());
  }

  /** Replaces the changes from outside, such as by undo. */
  public void setChanges(Map<String, String> to) {
    changes.set(Map.copyOf(to));
  }

  /** What the person would change, in the order it was changed. */
  public ReadOnlyObjectProperty<Map<String, String>> changesProperty() {
    return changes.getReadOnlyProperty();
  }
}
