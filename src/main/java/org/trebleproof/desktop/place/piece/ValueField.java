package org.trebleproof.desktop.place.piece;

import java.util.function.Consumer;
import java.util.function.Function;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.VBox;
import javafx.scene.text.Text;

/**
 * A field whose text counts once it is confirmed, by Enter or by leaving it. A text that makes no
 * sense is not taken: the field says why and keeps it to be mended; Escape brings the old one back.
 */
public final class ValueField extends VBox {

  private final TextField field = new TextField();
  private final Label mistake = Lettering.styled("", "mistake");
  private final Function<String, String> check;
  private final Consumer<String> commit;
  private String confirmed = "";

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
            show(confirmed);
            e.consume();
          }
        });
    field.textProperty().addListener(o -> tell());
    field.widthProperty().addListener(o -> tell());
    getChildren().add(field);
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

  /** Shows a text that is confirmed already. What is being typed is left alone. */
  public void show(String text) {
    boolean typing = field.isFocused() && !field.getText().equals(confirmed);
    if (typing && !text.equals(confirmed)) {
      confirmed = text;
      return;
    }
    confirmed = text;
    field.setText(text);
    complain("");
  }

  private void confirm() {
    String text = field.getText().strip();
    if (text.equals(confirmed)) {
      complain("");
      return;
    }
    String problem = check.apply(text);
    complain(problem);
    if (problem.isEmpty()) {
      confirmed = text;
      commit.accept(text);
    }
  }

  private void complain(String problem) {
    mistake.setText(problem);
    field.setAccessibleHelp(problem);
    field.getStyleClass().remove("wrong");
    getChildren().setAll(field);
    if (!problem.isEmpty()) {
      field.getStyleClass().add("wrong");
      getChildren().add(mistake);
    }
  }
}
