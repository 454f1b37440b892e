package org.trebleproof.desktop.place.piece;

import javafx.geometry.Orientation;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.Region;
import javafx.scene.text.Text;

/**
 * Room for words that change while somebody looks on: as high as its longest words need, so that
 * nothing below moves with them. Where words turn out longer it grows, and stays so.
 */
public final class SteadyRoom extends Region {

  private final Label ruler = new Label(); // takes the type over from where it stands
  private final int letters;
  private Node held;
  private double width;
  private double type;
  private double most;

  /**
   * Empty room.
   *
   * @param letters that the longest words usually have
   * @param style of the words, for the size of their type
   */
  public SteadyRoom(int letters, String style) {
    this.letters = letters;
    ruler.getStyleClass().add("room-" + style);
    ruler.setManaged(false);
    ruler.setVisible(false);
    ruler.fontProperty().addListener(o -> requestLayout());
    getChildren().add(ruler);
  }

  /** Puts words into the room. */
  public void hold(Node words) {
    if (held != null) {
      getChildren().remove(held);
    }
    held = words;
    getChildren().add(words);
  }

  /** Forgets what it once needed, such as when another job is opened. */
  public void forget() {
    most = 0;
    requestLayout();
  }

  @Override
  public Orientation getContentBias() {
    return Orientation.HORIZONTAL;
  }

  @Override
  protected double computePrefHeight(double forWidth) {
    double wide = forWidth > 0 ? forWidth : getWidth();
    if (wide <= 0) {
      return 0;
    }
    Text line = new Text("n".repeat(letters));
    line.setFont(ruler.getFont());
    double lines = Math.ceil(0.92 * line.getLayoutBounds().getWidth() / wide);
    Text one = new Text("n");
    one.setFont(ruler.getFont());
    double room = Math.ceil(lines * one.getLayoutBounds().getHeight());
    double needed = held == null ? 0 : held.prefHeight(wide);
    return Math.max(Math.max(room, needed), wide == width ? most : 0);
  }

  @Override
  protected double computeMinHeight(double forWidth) {
    return computePrefHeight(forWidth);
  }

  @Override
  protected double computePrefWidth(double height) {
    return held == null ? 0 : held.prefWidth(-1);
  }

  @Override
  protected double computeMinWidth(double height) {
    return 0;
  }

  @Override
  protected void layoutChildren() {
    if (width != getWidth() || type != ruler.getFont().getSize()) {
      width = getWidth();
      type = ruler.getFont().getSize();
      most = 0;
    }
    if (held != null) {
      double needed = held.prefHeight(getWidth());
      most = Math.max(most, needed);
      held.resizeRelocate(0, 0, getWidth(), needed);
    }
  }
}
