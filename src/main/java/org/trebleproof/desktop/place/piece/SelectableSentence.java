package org.trebleproof.desktop.place.piece;

import java.text.BreakIterator;
import java.util.Locale;
import javafx.geometry.Point2D;
import javafx.scene.AccessibleRole;
import javafx.scene.Cursor;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.MenuItem;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ClipboardContent;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Region;
import javafx.scene.shape.Path;
import javafx.scene.text.Text;
import javafx.scene.text.TextFlow;
import org.trebleproof.desktop.text.Texts;

/**
 * A sentence that can be read, selected by mouse or keyboard, and copied: what is selected, else
 * the whole of it.
 */
final class SelectableSentence extends TextFlow {

  private final String words;
  private final Path mark = new Path();
  private int anchor;
  private int end;

  /** A sentence whose pieces are added by whoever makes it. */
  SelectableSentence(String words) {
    this.words = words;
    setAccessibleRole(AccessibleRole.TEXT);
    setAccessibleText(words);
    setMinHeight(Region.USE_PREF_SIZE);
    setFocusTraversable(true);
    setCursor(Cursor.TEXT);
    mark.getStyleClass().add("selected-words");
    mark.setManaged(false);
    getChildren().add(mark);
    MenuItem copy = new MenuItem(Texts.of("sentence.copy"));
    copy.setOnAction(e -> copy());
    ContextMenu menu = new ContextMenu(copy);
    setOnContextMenuRequested(e -> menu.show(this, e.getScreenX(), e.getScreenY()));
    addEventHandler(MouseEvent.MOUSE_PRESSED, this::press);
    addEventHandler(
        MouseEvent.MOUSE_DRAGGED,
        e -> {
          if (e.isPrimaryButtonDown()) {
            select(anchor, at(e));
            e.consume();
          }
        });
    addEventHandler(KeyEvent.KEY_PRESSED, this::type);
    widthProperty().addListener(o -> draw());
  }

  void add(Text piece) {
    getChildren().add(piece);
  }

  private int at(MouseEvent e) {
    return Math.min(words.length(), hitTest(new Point2D(e.getX(), e.getY())).getInsertionIndex());
  }

  private void press(MouseEvent e) {
    requestFocus();
    if (e.getButton() != MouseButton.PRIMARY) {
      return;
    }
    int here = at(e);
    if (e.getClickCount() == 2) {
      BreakIterator word = BreakIterator.getWordInstance(Locale.ENGLISH);
      word.setText(words);
      int after = word.following(Math.min(here, Math.max(0, words.length() - 1)));
      select(word.previous(), after);
    } else if (e.getClickCount() > 2) {
      select(0, words.length());
    } else {
      select(e.isShiftDown() ? anchor : here, here);
    }
    e.consume();
  }

  private void type(KeyEvent e) {
    if (e.isShortcutDown() && e.getCode() == KeyCode.C) {
      copy();
    } else if (e.isShortcutDown() && e.getCode() == KeyCode.A) {
      select(0, words.length());
    } else if (e.isShiftDown() && e.getCode() == KeyCode.RIGHT) {
      select(anchor, Math.min(words.length(), end + 1));
    } else if (e.isShiftDown() && e.getCode() == KeyCode.LEFT) {
      select(anchor, Math.max(0, end - 1));
    } else {
      return;
    }
    e.consume();
  }

  private void select(int from, int to) {
    anchor = from;
    end = to;
    draw();
  }

  private void draw() {
    mark.getElements().clear();
    if (anchor != end) {
      mark.getElements().addAll(rangeShape(Math.min(anchor, end), Math.max(anchor, end)));
    }
  }

  /** What is selected; the whole sentence where nothing is. */
  String selected() {
    return anchor == end ? words : words.substring(Math.min(anchor, end), Math.max(anchor, end));
  }

  private void copy() {
    ClipboardContent content = new ClipboardContent();
    content.putString(selected().replace('\u00a0', ' '));
    Clipboard.getSystemClipboard().setContent(content);
  }
}
