package org.trebleproof.desktop.place.piece;

import java.util.function.Consumer;
import java.util.function.Function;
import javafx.animation.PauseTransition;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.VBox;
import javafx.scene.text.Text;
import javafx.util.Duration;

/**
 * A field whose text counts once it is confirmed, by Enter or by leaving it. A text that makes no
 * sense is not taken: the field says why and keeps it to be mended; Escape brings the old one back.
 */
public final class ValueField extends VBox {

  /** Width of the note that says what is wrong, in sizes of type. */
  private static final double NOTE = 20;

  /** What makes sense is taken after a rest, so that it is kept whatever happens [s]. */
  private static final double REST = 2.5;

  private final PauseTransition pause = new PauseTransition(Duration.seconds(REST));
  private final TextField field = new TextField();
  private final Label mistake = Lettering.styled("", "mistake");
  private final Function<String, String> check;
  private final Consumer<String> commit;
  private String confirmed = "";
  private boolean waited;

  /**
   * A field.
   *
   * @param name for those who hear it
   * @param check gives a sentence where a text makes no sense, else an empty text
   * @param commit takes a confirmed text
   */
  public ValueField(String name, Function<String, String> check, Consumer<String> commit) {
    this.check = check;
    this.commit = commit;
    getStyleClass().add("value-field");
    field.setAccessibleText(name);
    field.setOnAction(e -> confirm());
    field
        .focusedProperty()
        .addListener(
            (o, was, is) -> {
              if (!is) {
                confirm();
              }
            });
    field.setOnKeyPressed(
        e -> {
          if (e.getCode() == KeyCode.ESCAPE && !field.getText().equals(confirmed)) {
            forget();
            e.consume();
          }
        });
    pause.setOnFinished(e -> confirmQuietly());
    field
        .textProperty()
        .addListener(
            o -> {
              tell();
              report();
              if (field.isFocused()) {
                pause.playFromStart();
              }
            });
    field.widthProperty().addListener(o -> tell());
    mistake.setManaged(false);
    mistake.setVisible(false);
    mistake.setMouseTransparent(true);
    mistake.getStyleClass().add("note");
    getChildren().addAll(field, mistake);
  }

  /** A text longer than the field is told in full to whoever points at it. */
  private void tell() {
    Text whole = new Text(field.getText());
    whole.setFont(field.getFont());
    boolean cut =
        field.getWidth() > 0
            && whole.getLayoutBounds().getWidth()
                > field.getWidth() - field.getPadding().getLeft() - field.getPadding().getRight();
    field.setTooltip(cut ? new Tooltip(field.getText()) : null);
  }

  /** The field for the keyboard. */
  public TextField field() {
    return field;
  }

  public ValueField prompt(String words) {
    field.setPromptText(words);
    return this;
  }

  public ValueField columns(int columns) {
    field.setPrefColumnCount(columns);
    return this;
  }

  /** Shows a text that is confirmed already. What was typed and not confirmed is left alone. */
  public void show(String text) {
    boolean typed = !field.getText().equals(confirmed);
    confirmed = text;
    if (!typed || field.getText().equals(text)) {
      forget();
    }
  }

  /** Leaves aside what was typed and not confirmed. */
  public void forget() {
    field.setText(confirmed);
    complain("");
    report();
  }

  /** Takes up what was typed before and not confirmed; a text that makes no sense says so. */
  public void resume(String text) {
    field.setText(text);
    String problem = check.apply(text.strip());
    complain(problem);
  }

  /** Tells whoever keeps it that a text waits to be confirmed, or does no longer. */
  private void report() {
    boolean waits = !field.getText().strip().equals(confirmed);
    if (waits || waited) {
      waited = waits;
      fireEvent(new Typed(name(), field.getText(), waits));
    }
  }

  /** What the field is called, by which no other is. */
  public String name() {
    return field.getAccessibleText();
  }

  private void confirmQuietly() {
    String text = field.getText().strip();
    if (field.isFocused() && !text.equals(confirmed) && check.apply(text).isEmpty()) {
      confirm();
    }
  }

  private void confirm() {
    pause.stop();
    String text = field.getText().strip();
    if (text.equals(confirmed)) {
      complain("");
      return;
    }
    String problem = check.apply(text);
    complain(problem);
    if (problem.isEmpty()) {
      confirmed = text;
      report();
      commit.accept(text);
    }
  }

  private void complain(String problem) {
    mistake.setText(problem);
    field.setAccessibleHelp(problem);
    field.getStyleClass().remove("wrong");
    mistake.setVisible(!problem.isEmpty());
    raise(problem.isEmpty() ? 0 : -1);
    if (!problem.isEmpty()) {
      field.getStyleClass().add("wrong");
    }
    requestLayout();
  }

  /** Lifts the note over what follows on the sheet: it hides a little, but moves nothing. */
  private void raise(double order) {
    for (Node up = this; up != null && !(up instanceof ScrollPane); up = up.getParent()) {
      up.setViewOrder(order);
    }
  }

  @Override
  protected void layoutChildren() {
    super.layoutChildren();
    if (mistake.isVisible()) {
      // As wide as the sheet lets it be, for a narrow field would make a tall note.
      Parent sheet = this;
      while (sheet.getParent() != null && !sheet.getStyleClass().contains("page")) {
        sheet = sheet.getParent();
      }
      Bounds edge = sceneToLocal(sheet.localToScene(sheet.getLayoutBounds()));
      double wide = Math.max(field.getWidth(), Math.min(edge.getWidth(), NOTE * type()) - 2);
      double left = Math.min(0, edge.getMaxX() - wide - type());
      mistake.resizeRelocate(
          left, field.getLayoutY() + field.getHeight(), wide, mistake.prefHeight(wide));
    }
  }

  private double type() {
    return field.getFont().getSize();
  }
}
