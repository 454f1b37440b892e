package org.trebleproof.desktop.place;

import javafx.scene.Node;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.VBox;

/** A sheet of the notebook: what stands on it is written from top to bottom. */
public abstract class Place extends ScrollPane {

  private final VBox page = new VBox();

  /** An empty sheet. */
  protected Place(String style) {
    getStyleClass().addAll("place", style);
    page.getStyleClass().add("page");
    setFitToWidth(true);
    setHbarPolicy(ScrollBarPolicy.NEVER);
    setContent(page);
  }

  /** Writes the sheet anew. */
  protected final void write(Node... nodes) {
    page.getChildren().setAll(nodes);
  }

  /** Adds to what is written. */
  protected final void add(Node... nodes) {
    page.getChildren().addAll(nodes);
  }
}
